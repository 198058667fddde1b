//! The heat line of a wall: from the rim over the boards to the ground, or far enough below grade.
//!
//! A bare band left on purpose is a gap with a price, and no fault.

use wythe_findings::{Finding, codes};
use wythe_model::{Control, Length, SurfaceKind};

use super::fault::{Break, Fault};
use super::house::{House, Out, step};
use super::section::{Section, Segment};
use super::strips::uncovered;
use super::trace::Status;
use super::wall_break::level;
use crate::Inches;
use crate::levels::{Range, hair};
use crate::requirement::Need;

/// Surface resistances of a wall, m²·K/W: inside 0.13 and outside 0.04 (ISO 6946:2017, table 7, horizontal flow; from memory).
const SURFACES: f64 = 0.13 + 0.04;

/// Proves the heat line on every wall.
pub(crate) fn prove(house: &House, out: &mut Out) {
    for (number, section) in house.sections.iter().enumerate().filter(|(_, s)| s.is_wall()) {
        wall(house, number, section, out);
    }
    super::openings::prove(house, Control::Heat, out);
}

fn wall(house: &House, number: usize, section: &Section, out: &mut Out) {
    let segments: Vec<Segment> = section
        .segments(Control::Heat, &["outside", "inside"], house.asked)
        .into_iter()
        .filter(|s| s.face.is_some() && s.product.layer_resistance().is_some_and(|r| r.value > 0.0))
        .collect();
    let (top, ground) = (section.levels.top, section.levels.ground);
    let foot = ground.max(section.levels.grade - house.asked.length(Need::HeatDepth)).min(top);
    let whole = Range { low: foot, high: top };
    let ranges: Vec<Range> = segments.iter().map(|s| s.range).collect();
    let mut steps: Vec<_> = segments.iter().map(|s| step(SurfaceKind::Wall, s, section, String::new())).collect();
    steps.sort_by(|a, b| b.from.value.total_cmp(&a.from.value));
    let mut mends = Vec::new();
    let mut priced = Vec::new();
    let band = house.asked.length(Need::BareBand);
    for gap in uncovered(whole, &ranges) {
        let at_end = (gap.high - top).abs() < hair() || (gap.low - foot).abs() < hair();
        if gap.height() <= house.asked.length(Need::HeatJoint) + hair() / 4.0 {
            continue;
        }
        if !segments.is_empty() && at_end && gap.height() <= band + hair() {
            priced.push(gap);
            continue;
        }
        let found = broken(house, section, number, &segments, gap);
        mends.push(house.mend(&found));
        out.add(found, &section.places);
    }
    if mends.is_empty() {
        priced.iter().for_each(|gap| price(house, section, &segments, *gap, whole, out));
    }
    let note = match priced.first() {
        Some(gap) => format!("bare band of {} from {}", Inches(gap.height()), level(section, gap.high)),
        None => String::new(),
    };
    let status = if mends.is_empty() { Status::Proven } else { Status::Broken };
    out.traces.push(house.trace(Control::Heat, section, steps, status, mends, &note));
}

fn broken(house: &House, section: &Section, number: usize, segments: &[Segment], gap: Range) -> Break {
    let above = segments.iter().find(|s| (s.range.low - gap.high).abs() < hair());
    let below = segments.iter().find(|s| (s.range.high - gap.low).abs() < hair());
    let (from, to) = (level(section, gap.high), level(section, gap.low));
    let inside = section.face("inside");
    let face = inside.map(|(i, _)| i);
    let fallback = inside.map_or(section.assembly.origin, |(_, h)| h.face.origin);
    let (origin, face, mend) = match (above, below) {
        (Some(above), Some(below)) => (
            below.origin,
            below.face,
            format!("close the {} between `{}` and `{}`", Inches(gap.height()), above.name, below.name),
        ),
        (Some(above), None) => {
            (above.origin, above.face, format!("carry `{}` down {} more, to {to}", above.name, Inches(gap.height())))
        }
        (None, Some(below)) => {
            (below.origin, below.face, format!("carry `{}` up {} more", below.name, Inches(gap.height())))
        }
        (None, None) => {
            (fallback, face, "set a board, or insulate the floor above and say that the space is vented".to_owned())
        }
    };
    Break {
        controls: vec![Control::Heat],
        fault: Fault { short: Some((-gap.height(), Need::HeatJoint)), open: false },
        whereabouts: format!("from {from} to {to}"),
        elevation: gap.high,
        origin,
        label: if segments.is_empty() {
            "nothing on this wall insulates".to_owned()
        } else {
            format!("bare for {}", Inches(gap.height()))
        },
        related: Vec::new(),
        mend,
        owner: house.owner(section, face),
        beyond_reach_in_old_work: false,
        section: Some(number),
    }
}

/// A bare band and its share of the loss through the insulated height.
fn price(house: &House, section: &Section, segments: &[Segment], gap: Range, whole: Range, out: &mut Out) {
    let board = segments.iter().max_by(|a, b| a.range.high.value.total_cmp(&b.range.high.value));
    let Some(board) = board else { return };
    let share = share(section, segments, gap, whole);
    let shown = share.map_or(String::new(), |s| format!(": {:.0} % of the wall's loss", s * 100.0));
    let title = format!(
        "a bare band of {} from {} to {}{shown}",
        Inches(gap.height()),
        level(section, gap.high),
        level(section, gap.low)
    );
    let finding = Finding::new(codes::BARE_BAND, board.origin, title)
        .label("left bare, as an inspection band is")
        .cause(match share {
            Some(_) => "plane heat flow through band and board, surfaces by ISO 6946, ground ignored".to_owned(),
            None => "its share cannot be told: the structure states no resistance".to_owned(),
        });
    out.findings.push(super::told::on(house, section, board.face, finding));
}

/// Loss of a strip over the loss of the whole range, by plane heat flow.
fn share(section: &Section, segments: &[Segment], gap: Range, whole: Range) -> Option<f64> {
    let structure = section.assembly.structure.as_deref()?.layer_resistance()?.value;
    let mut cuts: Vec<Length> = vec![whole.low, whole.high];
    cuts.extend(
        segments.iter().flat_map(|s| [s.range.low, s.range.high]).filter(|c| *c > whole.low && *c < whole.high),
    );
    cuts.sort_by(|a, b| a.value.total_cmp(&b.value));
    let (mut all, mut bare) = (0.0, 0.0);
    for pair in cuts.windows(2) {
        let strip = Range { low: pair[0], high: pair[1] };
        let over = segments.iter().filter(|s| s.range.meets(strip)).filter_map(|s| s.product.layer_resistance());
        let loss = strip.height().value / (SURFACES + structure + over.map(|r| r.value).sum::<f64>());
        all += loss;
        if gap.holds(strip) {
            bare += loss;
        }
    }
    (all > 0.0).then_some(bare / all)
}
