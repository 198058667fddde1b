//! Links of a wall's line in words: how one is met, and what to do about one that is not.

use wythe_model::{Control, Elevation, Length, Level};

use super::fault::{Break, Fault, Owner, measure};
use super::house::House;
use super::joints::Lap;
use super::link::{Joint, closed_on, foot_need, lap_found};
use super::section::{Body, Section, Segment};
use super::strips::uncovered;
use crate::Inches;
use crate::levels::{Range, hair, say};
use crate::requirement::Need;

/// How a link is met.
pub(crate) fn met(house: &House, section: &Section, segments: &[Segment], joint: Joint, control: Control) -> String {
    match joint {
        Joint::Top(_) => "reaches the top of the masonry".to_owned(),
        Joint::Between(i, j) => {
            let (a, b) = (&segments[i], &segments[j]);
            let shared = a.range.shared(b.range).max(Length::default());
            let sheets = a.body == Body::Sheet || b.body == Body::Sheet;
            let how = if closed_on(section, b, a.range) || closed_on(section, a, b.range) {
                ", taped or sealed"
            } else if control == Control::Vapor && sheets {
                ", pressed"
            } else {
                ""
            };
            format!("contact {}{how}", Inches(shared))
        }
        Joint::Foot(i, lap) => {
            let (found, due) = (lap_found(section, &segments[i], &lap), house.asked.length(foot_need(&segments[i])));
            format!("lap {} ({} due), taped or sealed", Inches(found), Inches(due))
        }
        Joint::Unlapped(_) | Joint::Bare(_) => "reaches the ground".to_owned(),
    }
}

/// A section of a wall under proof, for the break of one of its links.
pub(crate) struct Broken<'h, 'a> {
    /// The house.
    pub house: &'h House<'a>,
    /// The section.
    pub section: &'h Section<'a>,
    /// Its number.
    pub number: usize,
    /// The line.
    pub control: Control,
}

impl Broken<'_, '_> {
    /// The break of a link.
    pub fn link(&self, segments: &[Segment], joint: Joint, fault: Fault) -> Break {
        match joint {
            Joint::Top(i) => self.top(&segments[i], fault),
            Joint::Between(i, j) => self.between(&segments[i], &segments[j], fault),
            Joint::Foot(i, lap) => self.foot(&segments[i], &lap, fault),
            Joint::Unlapped(i) | Joint::Bare(i) => self.unlapped(&segments[i], fault),
        }
    }

    fn at(&self, segment: &Segment, fault: Fault, whereabouts: String, elevation: Length, mend: String) -> Break {
        Break {
            controls: vec![self.control],
            fault,
            whereabouts,
            elevation,
            origin: segment.origin,
            label: measure(&fault, self.house.asked),
            related: Vec::new(),
            mend,
            owner: self.house.owner(self.section, segment.face),
            beyond_reach_in_old_work: false,
            section: Some(self.number),
        }
    }

    /// How much is missing of a lap.
    fn missing(&self, fault: &Fault) -> Option<Length> {
        fault.short.map(|(found, need)| self.house.asked.length(need) - found)
    }

    fn top(&self, s: &Segment, fault: Fault) -> Break {
        let mend = if fault.short.is_some() {
            format!("carry `{}` up to the top of the masonry", s.name)
        } else {
            format!("tape or seal the top edge of `{}`", s.name)
        };
        let found = self.at(s, fault, "at the top of the wall".to_owned(), s.range.high, mend);
        Break { beyond_reach_in_old_work: true, ..found }
    }

    fn between(&self, a: &Segment, b: &Segment, fault: Fault) -> Break {
        let gap = fault.short.filter(|(found, _)| *found < -hair()).map(|(found, _)| -found);
        let longer = match (self.missing(&fault), gap) {
            (_, Some(gap)) if a.body == Body::Film && b.body == Body::Film => {
                Some(format!("coat the {} between `{}` and `{}`", Inches(gap), a.name, b.name))
            }
            (Some(missing), _) => {
                Some(format!("make `{}` and `{}` overlap by {} more", a.name, b.name, Inches(missing)))
            }
            (None, _) => None,
        };
        let edge = if b.range.high <= a.range.high { "top" } else { "bottom" };
        let tape = fault.open.then(|| format!("tape or seal the {edge} edge of `{}` to `{}`", b.name, a.name));
        let ends = if a.range.high > b.range.high { a.range.low } else { a.range.high };
        let elevation = b.range.high.min(a.range.high);
        let found = self.at(b, fault, format!("between `{}` and `{}`", a.name, b.name), elevation, both(longer, tape));
        Break { related: vec![(a.origin, format!("`{}` ends at {}", a.name, level(self.section, ends)))], ..found }
    }

    fn foot(&self, s: &Segment, lap: &Lap, fault: Fault) -> Break {
        let due = self.house.asked.length(foot_need(s));
        let longer = self.missing(&fault).map(|missing| {
            if lap.by + hair() >= due {
                format!("lengthen the tail of `{}` by {}", s.name, Inches(missing))
            } else {
                format!("lap `{}` over by {}: extend it {}", lap.ground, Inches(due), Inches(missing))
            }
        });
        let tape =
            fault.open.then(|| format!("tape the lap of `{}` and `{}` in `{}`", lap.ground, lap.other, lap.joint.name));
        let found = self.at(s, fault, "at the wall foot".to_owned(), self.section.levels.ground, both(longer, tape));
        Break {
            origin: lap.work.origin,
            related: vec![(s.origin, format!("`{}` comes down here", s.name))],
            owner: Owner::Part(lap.joint.name),
            ..found
        }
    }

    fn unlapped(&self, s: &Segment, fault: Fault) -> Break {
        let ground = self.house.ground_layer(self.control);
        let name = ground.map_or("the ground liner", |(name, _)| name.as_str());
        let due = Inches(self.house.asked.length(foot_need(s)));
        let mend = format!("add a joint with `lap {name} over {} by {due}` and tape it", s.name);
        let found = self.at(s, fault, "at the wall foot".to_owned(), self.section.levels.ground, mend);
        Break {
            label: "no joint laps it with the ground".to_owned(),
            related: ground
                .map(|(_, at)| (at, format!("`{name}` carries the line on the ground")))
                .into_iter()
                .collect(),
            ..found
        }
    }

    /// Nothing reaches from top to ground, however mended: the widest strip that no layer covers.
    pub fn nothing(&self, segments: &[Segment]) -> Break {
        let section = self.section;
        let whole = Range { low: section.levels.ground, high: section.levels.top };
        let ranges: Vec<Range> = segments.iter().map(|s| s.range).collect();
        let strips = uncovered(whole, &ranges).into_iter();
        let widest = strips.max_by(|a, b| a.height().value.total_cmp(&b.height().value)).unwrap_or(whole);
        let inside = section.face("inside");
        Break {
            controls: vec![self.control],
            fault: Fault { short: Some((-widest.height(), Need::WaterLap)), open: false },
            whereabouts: format!("from {} to {}", level(section, widest.high), level(section, widest.low)),
            elevation: widest.high,
            origin: inside.map_or(section.assembly.origin, |(_, h)| h.face.origin),
            label: format!("no layer here carries the {} line", self.control.name()),
            related: Vec::new(),
            mend: "coat this strip or hang a liner over it, with a product that controls it".to_owned(),
            owner: self.house.owner(section, inside.map(|(i, _)| i)),
            beyond_reach_in_old_work: false,
            section: Some(self.number),
        }
    }
}

/// Two mends in one sentence.
fn both(first: Option<String>, second: Option<String>) -> String {
    match (first, second) {
        (Some(first), Some(second)) => format!("{first}, and {second}"),
        (first, second) => first.or(second).unwrap_or_default(),
    }
}

/// An elevation of a section in words: a level where it is one, else told from the top.
pub(crate) fn level(section: &Section, at: Length) -> String {
    let height = |level| section.levels.height_of(Elevation { from: level, offset: Length::default() });
    let near = |level: &Level| (height(*level) - at).abs() < hair();
    match [Level::Top, Level::Ground, Level::Grade, Level::Footing].into_iter().find(near) {
        Some(level) => level.word().to_owned(),
        None => say(Elevation { from: Level::Top, offset: at - section.levels.top }),
    }
}
