//! What is wrong with a link of a line, what it weighs, and the break it becomes.

use wythe_model::{Control, Length};
use wythe_source::Span;

use crate::levels::hair;
use crate::requirement::Need;
use crate::{Inches, Requirements};

/// What is asked of a link, and what is there.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub(crate) struct Fault {
    /// Lap or contact that is too short: found (negative for a gap) and asked for.
    pub short: Option<(Length, Need)>,
    /// Whether tape or a seal is missing.
    pub open: bool,
}

impl Fault {
    /// A link that is met.
    pub const NONE: Fault = Fault { short: None, open: false };

    /// A lap or contact measured against what is asked for.
    pub fn measured(found: Length, need: Need, asked: &Requirements) -> Fault {
        Fault { short: (found + hair() < asked.length(need)).then_some((found, need)), open: false }
    }

    /// The same, with tape or seal missing or not.
    pub fn with_open(self, open: bool) -> Fault {
        Fault { open, ..self }
    }

    /// Whether nothing is wrong.
    pub fn is_met(&self) -> bool {
        self.short.is_none() && !self.open
    }

    /// Both faults at one place: the worse lap, and tape missing if either misses it.
    pub fn and(self, other: Fault) -> Fault {
        let short = match (self.short, other.short) {
            (Some(a), Some(b)) => Some(if a.0 <= b.0 { a } else { b }),
            (a, b) => a.or(b),
        };
        Fault { short, open: self.open || other.open }
    }

    /// What the mend costs for each meter of run: tape or seal its length, a longer lap what is missing of it, a
    /// new piece four times its gap. Numbers in meters.
    pub fn weight(&self, asked: &Requirements) -> f64 {
        let lap = self.short.map_or(0.0, |(found, need)| {
            let (found, due) = (found.value, asked.length(need).value);
            if found > 0.0 { due - found } else { due + 4.0 * -found }
        });
        lap + if self.open { 1.0 } else { 0.0 }
    }
}

/// A break in one or more lines at one place.
#[derive(Clone, Debug)]
pub(crate) struct Break {
    /// The lines that break there.
    pub controls: Vec<Control>,
    /// What is wrong.
    pub fault: Fault,
    /// Where, in words: `at the wall foot`.
    pub whereabouts: String,
    /// Where, above the datum.
    pub elevation: Length,
    /// The line to change.
    pub origin: Span,
    /// What is to be seen there.
    pub label: String,
    /// Other places.
    pub related: Vec<(Span, String)>,
    /// How to mend it.
    pub mend: String,
    /// What it belongs to, for listing: assembly and face, or joint.
    pub owner: Owner,
    /// Whether the place lies out of reach in old work, with a house standing on it.
    pub beyond_reach_in_old_work: bool,
    /// The section it was first seen in.
    pub section: Option<usize>,
}

/// What a break belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Owner {
    /// A face of an assembly.
    Assembly(wythe_model::AssemblyId, wythe_source::Symbol),
    /// A joint or an opening, by name.
    Part(wythe_source::Symbol),
}

/// `lap 4 in found, 6 in due`, or `a gap of 2 in`.
pub(crate) fn measure(fault: &Fault, asked: &Requirements) -> String {
    let mut parts = Vec::new();
    if let Some((found, need)) = fault.short {
        let what = if need == Need::VaporContact { "contact" } else { "lap" };
        if found < -hair() {
            parts.push(format!("a gap of {}", Inches(-found)));
        } else {
            parts.push(format!(
                "{what} {} found, {} due",
                Inches(found.max(Length::default())),
                Inches(asked.length(need))
            ));
        }
    }
    if fault.open {
        parts.push("neither taped nor sealed".to_owned());
    }
    parts.join(", ")
}
