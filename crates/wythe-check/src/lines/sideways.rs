//! Walls of different build-up side by side: the vapor line must go round the corner too.

use wythe_findings::{Finding, Label, codes};
use wythe_model::{AssemblyId, Control, EdgeName};

use super::house::{House, Out};
use super::section::{Body, Section, Segment};

/// Looks at every corner where two build-ups meet. Equal layers run on; two films touch; else the ends must be taped.
/// Two build-ups that meet at several corners are one fault.
pub(crate) fn prove(house: &House, out: &mut Out) {
    let walls = &house.foundation.walls;
    let mut told: Vec<((AssemblyId, AssemblyId), Finding)> = Vec::new();
    for (index, wall) in walls.iter().enumerate() {
        let Some(next) = walls.get((index + 1) % walls.len()).filter(|_| walls.len() > 1) else { continue };
        let (Some(a), Some(b)) = (wall.assembly, next.assembly) else { continue };
        if a == b {
            continue;
        }
        let pair = (a.min(b), a.max(b));
        let corner = format!("the corner of {} and {}", wall.name, next.name);
        if let Some((_, finding)) = told.iter_mut().find(|(known, _)| *known == pair) {
            finding.related.push(Label { span: next.origin, text: format!("so too at {corner}") });
            continue;
        }
        let section = |id, name| house.sections.iter().find(|s| s.id == id && s.places.contains(&name));
        let (Some(left), Some(right)) = (section(a, wall.name), section(b, next.name)) else { continue };
        let (Some(mine), Some(theirs)) = (main(house, left), main(house, right)) else { continue };
        let films = mine.body == Body::Film && theirs.body == Body::Film;
        let taped = |section: &Section, s: &Segment| section.edge_is_closed(s, EdgeName::EndEdges);
        if mine.product.name == theirs.product.name || films || taped(left, &mine) || taped(right, &theirs) {
            continue;
        }
        let title = format!("the vapor line is not joined at {corner}");
        let finding = Finding::new(codes::CORNER_OPEN, theirs.origin, title)
            .label(format!("`{}` carries it on {}", theirs.name, next.name))
            .related(mine.origin, format!("`{}` carries it on {}", mine.name, wall.name))
            .related(next.origin, format!("{} begins at this corner", next.name))
            .mend(format!("add `tape … over end edges of {}`, or carry one layer round the corner", theirs.name))
            .item(format!("{}.{}", house.foundation.name, next.name));
        told.push((pair, finding));
    }
    out.findings.extend(told.into_iter().map(|(_, finding)| finding));
}

/// The layer that carries the vapor line over most of the height, boards last.
fn main<'a>(house: &House, section: &Section<'a>) -> Option<Segment<'a>> {
    let segments = section.segments(Control::Vapor, &["inside"], house.asked);
    let rank = |s: &Segment| (s.body != Body::Board, s.range.height().value);
    segments.into_iter().max_by(|a, b| {
        let ((a_sheet, a_height), (b_sheet, b_height)) = (rank(a), rank(b));
        a_sheet.cmp(&b_sheet).then(a_height.total_cmp(&b_height))
    })
}
