//! How breaks and remarks become findings.

use wythe_findings::{Code, Finding, Severity, codes};
use wythe_model::{Control, Length, SpaceKind};
use wythe_source::Symbol;

use super::fault::{Break, Owner, measure};
use super::house::{House, Out};
use super::section::{Section, Segment};
use super::sketch::sketch;
use crate::levels::hair;
use crate::place;

/// Findings of the breaks, one a place.
pub(crate) fn findings(house: &House, out: Out) -> Vec<Finding> {
    let Out { breaks, mut findings, .. } = out;
    findings.extend(breaks.iter().map(|(b, places)| finding(house, b, places)));
    findings
}

fn finding(house: &House, b: &Break, places: &[Symbol]) -> Finding {
    let many = b.controls.len() > 1;
    let names: Vec<Symbol> = b.controls.iter().map(|c| Symbol::new(&c.name().replace('_', " "))).collect();
    let title = match b.controls.first() {
        Some(Control::Capillary) => format!("no capillary break {}", b.whereabouts),
        Some(Control::BulkWater) if many => {
            let (lines, verb) = if names.len() > 2 { ("lines", "break") } else { ("line", "breaks") };
            format!("water can get in {}; the {} {lines} {verb} there too", b.whereabouts, place::list(&names[1..]))
        }
        Some(Control::BulkWater) => format!("water can get in {}", b.whereabouts),
        Some(Control::Fire) => format!("foam is exposed {}", b.whereabouts),
        _ => format!(
            "the {} line{} {} {}",
            place::list(&names),
            if many { "s" } else { "" },
            if many { "break" } else { "breaks" },
            b.whereabouts
        ),
    };
    let mut finding = Finding::new(code(b), b.origin, title).label(b.label.clone()).mend(b.mend.clone());
    if let Some((found, need)) = b.fault.short.filter(|(found, _)| *found > -hair()) {
        let required = house.asked.length(need);
        finding = finding.cause(format!(
            "found {}, required {} ({})",
            crate::Inches(found.max(Length::default())),
            crate::Inches(required),
            house.asked.source(need)
        ));
    }
    for (span, text) in &b.related {
        finding = finding.related(*span, text.clone());
    }
    if let Some(at) = b.fault.short.and_then(|(_, need)| house.asked.origin(need)) {
        finding = finding.related(at, "asked for here");
    }
    // A wall without any insulation may lie in a zone that asks for none: the energy rules decide.
    if b.controls == [Control::Heat] && b.label.starts_with("nothing on this wall") {
        finding.severity = Severity::Warning;
    }
    let old = |place: &Symbol| {
        house.foundation.walls.iter().any(|w| w.name == *place && w.existing)
            || house.foundation.openings.iter().any(|o| o.name == *place && o.existing)
    };
    if b.beyond_reach_in_old_work && places.iter().all(old) {
        finding.severity = Severity::Information;
        finding = finding.cause("old work with a house on it: the break is known, and taken as it is");
    }
    let name = house.foundation.name;
    finding = match b.owner {
        Owner::Assembly(id, face) => {
            let assembly = &house.foundation.assemblies[id.0 as usize];
            finding
                .related(assembly.call, format!("so in {name}: {}", place::list(places)))
                .item(format!("{name}.{}.{face}", assembly.name))
        }
        Owner::Part(joint) => {
            let at = house.foundation.joints.iter().find(|j| j.name == joint).map(|j| j.origin);
            let finding = finding.item(format!("{name}.{joint}"));
            match at {
                Some(at) => finding.related(at, format!("so in {name}: {}", place::list(places))),
                None => finding,
            }
        }
    };
    if let Some(section) = b.section.and_then(|i| house.sections.get(i)) {
        let remark = if b.fault.is_met() { b.whereabouts.clone() } else { measure(&b.fault, house.asked) };
        let control = b.controls.first().copied().unwrap_or(Control::Vapor);
        finding.sketch = Some(sketch(house, section, control, b.elevation, &remark).into());
    }
    finding
}

fn code(b: &Break) -> Code {
    let too_short = b.fault.short.is_some_and(|(found, _)| found > hair());
    match b.controls.first() {
        Some(Control::Capillary) => codes::MISSING_CAPILLARY_BREAK,
        Some(Control::Fire) => codes::FIRE_EXPOSED,
        _ if too_short => codes::LAP_SHORT,
        Some(Control::BulkWater) => codes::BULK_WATER_PATH,
        Some(Control::Air) => codes::AIR_LINE_BROKEN,
        Some(Control::Heat) => codes::HEAT_LINE_BROKEN,
        Some(Control::Vapor) | None => codes::VAPOR_LINE_BROKEN,
    }
}

/// A finding on a face of a section, with the parts that have it.
pub(crate) fn on(house: &House, section: &Section, face: Option<usize>, finding: Finding) -> Finding {
    let name = house.foundation.name;
    let face = face.and_then(|f| section.faces.get(f)).map_or("inside", |h| h.face.name.as_str());
    finding
        .related(section.assembly.call, format!("so in {name}: {}", place::list(&section.places)))
        .item(format!("{name}.{}.{face}", section.assembly.name))
}

/// A layer whose permeance may lie on either side of the limit.
pub(crate) fn unsure(house: &House, section: &Section, segment: &Segment, out: &mut Out) {
    let perm = crate::requirement::permeance_in_perms(1.0).value;
    let high = segment.product.permeance.map_or(0.0, |p| p.high.value / perm);
    let finding = Finding::new(
        codes::VAPOR_UNSURE,
        segment.product.origin,
        format!("`{}` may pass more vapor than the line allows", segment.product.name),
    )
    .label(format!("up to {high:.2} perm; {:.2} perm is the most", house.asked.vapor_limit.value / perm))
    .cause(house.asked.vapor_limit_source.to_string())
    .related(segment.origin, "carries the vapor line here")
    .mend("a tested figure with less spread, or another product");
    out.findings.push(on(house, section, segment.face, finding));
}

/// What the lines meet that nobody has told: the rim above, walls with no build-up.
pub(crate) fn unsaid(house: &House, out: &mut Out) {
    let f = house.foundation;
    if f.space != SpaceKind::Closed {
        return;
    }
    if f.walls.iter().any(|w| w.assembly.is_some()) {
        rim(house, out);
    }
    if house.ground.is_none() {
        let finding = Finding::new(codes::LINE_UNSAID, f.origin, "nothing is said of what lies on the ground")
            .label("the vapor and air lines are proven down to the ground only")
            .mend("give `ground` a `build`")
            .item(format!("{}.ground", f.name));
        out.findings.push(finding);
    }
    let bare: Vec<_> = f.walls.iter().filter(|w| w.assembly.is_none()).collect();
    if let Some(first) = bare.first() {
        let names: Vec<Symbol> = bare.iter().map(|w| w.name).collect();
        let old = bare.iter().all(|w| w.existing);
        let finding = Finding::new(
            codes::LINE_UNSAID,
            first.origin,
            format!("the lines end at {}: no build-up is told", place::list(&names)),
        )
        .label(if old { "old work, taken as it is" } else { "nothing says what this wall is built with" })
        .mend("give the wall a `build`, or accept the break and say so in the bid")
        .item(format!("{}.{}", f.name, first.name));
        out.findings.push(finding);
    }
}

fn rim(house: &House, out: &mut Out) {
    let f = house.foundation;
    let Some(sill) = f.sill.origin else {
        let finding = Finding::new(codes::RIM_UNSAID, f.origin, "nothing is said of the sill and the rim above")
            .label("the lines are proven to the top of the masonry")
            .mend("add `sill { gasket: true; rim_insulated: true; rim_sealed: true }`, as far as it is so")
            .item(format!("{}.sill", f.name));
        out.findings.push(finding);
        return;
    };
    if !f.sill.rim_sealed {
        let finding = Finding::new(codes::AIR_LINE_BROKEN, sill, "the air line breaks at the rim")
            .label("the rim above is not sealed")
            .mend("seal the rim to the sill and the subfloor")
            .item(format!("{}.sill", f.name));
        out.findings.push(finding);
    }
    if !f.sill.rim_insulated {
        let finding = Finding::new(codes::HEAT_LINE_BROKEN, sill, "the heat line breaks at the rim")
            .label("the rim above is not insulated")
            .mend("insulate the rim down to the sill")
            .item(format!("{}.sill", f.name));
        out.findings.push(finding);
    }
}
