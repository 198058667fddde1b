//! Bulk water, a cut proof: a wall that holds earth above the crawl floor turns water away, down to a drain.

use wythe_findings::{Finding, codes};
use wythe_model::{Act, Class, Control, SurfaceKind};

use super::fault::{Break, Fault};
use super::house::{House, Out, step};
use super::section::{Section, Segment};
use super::strips::uncovered;
use super::trace::Status;
use super::wall_break::level;
use crate::Inches;
use crate::levels::{Range, hair};
use crate::requirement::Need;

/// Proves that no way leads down to the inside face on every wall.
pub(crate) fn prove(house: &House, out: &mut Out) {
    for (number, section) in house.sections.iter().enumerate().filter(|(_, s)| s.is_wall()) {
        let l = &section.levels;
        if l.ground + hair() >= l.grade {
            let note = "the crawl floor does not lie below outside grade";
            out.traces.push(house.trace(Control::BulkWater, section, Vec::new(), Status::NotAsked, Vec::new(), note));
            continue;
        }
        let segments = section.segments(Control::BulkWater, &["outside"], house.asked);
        let skins: Vec<Segment> = segments.into_iter().filter(|s| s.product.class != Class::Drain).collect();
        let ranges: Vec<Range> = skins.iter().map(|s| s.range).collect();
        let mut found: Vec<Break> = uncovered(Range { low: l.footing, high: l.grade.min(l.top) }, &ranges)
            .into_iter()
            .map(|gap| leak(house, section, number, &skins, gap))
            .collect();
        found.extend(laps_that_leak(house, section, number, &skins));
        drain(house, section, &skins, out);
        let steps = skins.iter().map(|s| step(SurfaceKind::Wall, s, section, String::new())).collect();
        let status = if found.is_empty() { Status::Proven } else { Status::Broken };
        let mends = found.iter().map(|b| house.mend(b)).collect();
        out.traces.push(house.trace(Control::BulkWater, section, steps, status, mends, ""));
        for b in found {
            out.add(b, &section.places);
        }
    }
}

fn leak(house: &House, section: &Section, number: usize, skins: &[Segment], gap: Range) -> Break {
    let near =
        skins.iter().find(|s| (s.range.low - gap.high).abs() < hair() || (s.range.high - gap.low).abs() < hair());
    let outside = section.face("outside");
    let (from, to) = (level(section, gap.high), level(section, gap.low));
    let mend = match near {
        Some(skin) => format!("carry `{}` from {from} to {to}: {} more", skin.name, Inches(gap.height())),
        None => format!("coat the outside from {from} to {to}"),
    };
    Break {
        controls: vec![Control::BulkWater],
        fault: Fault { short: Some((-gap.height(), Need::WaterLap)), open: false },
        whereabouts: format!("from {from} to {to}"),
        elevation: gap.high,
        origin: near.map_or_else(|| outside.map_or(section.assembly.origin, |(_, h)| h.face.origin), |s| s.origin),
        label: format!("bare to the soil for {}", Inches(gap.height())),
        related: Vec::new(),
        mend,
        owner: house.owner(section, outside.map(|(i, _)| i)),
        beyond_reach_in_old_work: true,
        section: Some(number),
    }
}

/// Where two skins meet below grade, the upper must lie outside the lower and lap it.
fn laps_that_leak(house: &House, section: &Section, number: usize, skins: &[Segment]) -> Vec<Break> {
    let mut out = Vec::new();
    let skins: Vec<&Segment> = skins.iter().filter(|s| s.product.class != Class::Aggregate).collect();
    for (i, a) in skins.iter().enumerate() {
        for b in skins.iter().skip(i + 1).filter(|b| a.name != b.name) {
            let (upper, lower) = if a.range.high >= b.range.high { (a, b) } else { (b, a) };
            let shared = upper.range.shared(lower.range);
            let ends_on_it = upper.range.low > lower.range.low + hair() && lower.range.high < upper.range.high - hair();
            let bridged = skins.iter().any(|s| {
                s.name != upper.name
                    && s.name != lower.name
                    && s.range.holds(Range { low: upper.range.low, high: lower.range.high.max(upper.range.low) })
            });
            if !ends_on_it || shared < -hair() || upper.range.low >= section.levels.grade || bridged {
                continue;
            }
            let outside = upper.origin == b.origin;
            let short = Fault::measured(shared, Need::WaterLap, house.asked);
            if short.is_met() && outside {
                continue;
            }
            let mend = if outside {
                let missing = house.asked.length(Need::WaterLap) - shared;
                format!("carry `{}` down over `{}` by {} more", upper.name, lower.name, Inches(missing))
            } else {
                format!("put `{}` on first, then `{}` over it", lower.name, upper.name)
            };
            let fault = if outside { short } else { Fault::NONE };
            out.push(Break {
                controls: vec![Control::BulkWater],
                fault,
                whereabouts: format!("between `{}` and `{}`", upper.name, lower.name),
                elevation: upper.range.low,
                origin: upper.origin,
                label: if outside {
                    super::fault::measure(&fault, house.asked)
                } else {
                    "laps behind the lower one: water runs in".to_owned()
                },
                related: vec![(lower.origin, format!("`{}` is the lower one", lower.name))],
                mend,
                owner: house.owner(section, upper.face),
                beyond_reach_in_old_work: true,
                section: Some(number),
            });
        }
    }
    out
}

fn drain(house: &House, section: &Section, skins: &[Segment], out: &mut Out) {
    let Some((face, history)) = section.face("outside") else { return };
    let reach = house.asked.length(Need::DrainReach);
    let foot = skins.iter().map(|s| s.range.low).fold(section.levels.grade, |low, at| low.min(at));
    let drains = history.lives.iter().filter(|l| l.act == Act::Drain && l.stays());
    let near = drains
        .into_iter()
        .find(|d| (d.range.low - foot).abs() <= reach + hair() || (d.range.high - foot).abs() <= reach + hair());
    match near {
        Some(drain) if !house.foundation.ground.drain_outlet => {
            let finding = Finding::new(
                codes::DRAIN_WITHOUT_OUTLET,
                history.works()[drain.work].origin,
                format!("`{}` ends nowhere", drain.name),
            )
            .label("no outlet or sump is named")
            .related(house.foundation.ground.origin, "`outlet` is not said here")
            .mend("name the outlet or sump: `outlet: true` in `ground`");
            out.findings.push(super::told::on(house, section, Some(face), finding));
        }
        Some(_) => {}
        None if !skins.is_empty() => {
            let finding = Finding::new(
                codes::DRAIN_MISSING,
                history.face.origin,
                "no drain at the foot of the waterproofing".to_owned(),
            )
            .label(format!("water that is turned away stands at {}", level(section, foot)))
            .cause(format!("a drain within {} is due ({})", Inches(reach), house.asked.source(Need::DrainReach)))
            .mend("add `drain … along footing` and stone around it");
            out.findings.push(super::told::on(house, section, Some(face), finding));
        }
        None => {}
    }
}
