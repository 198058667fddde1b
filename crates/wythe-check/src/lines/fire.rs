//! Fire: foam that faces the space must be tested exposed, or lie wholly behind a barrier.

use wythe_findings::{Finding, codes};
use wythe_model::{Class, Control, Ignition};

use super::fault::{Break, Fault};
use super::house::{House, Out, step};
use super::section::{Body, Section, Segment};
use super::trace::Status;

/// Judges every board on an inside face; foam on the outside is in the ground and not asked.
pub(crate) fn prove(house: &House, out: &mut Out) {
    for (number, section) in house.sections.iter().enumerate() {
        let mut steps = Vec::new();
        let mut mends = Vec::new();
        let mut status = Status::Proven;
        for (face, history) in
            section.faces.iter().enumerate().filter(|(_, h)| matches!(h.face.name.as_str(), "inside" | "face"))
        {
            for (at, life) in
                history.lives.iter().enumerate().filter(|(_, l)| l.stays() && l.class() == Some(Class::Board))
            {
                let Some(product) = life.product else { continue };
                let origin = history.works()[life.work].origin;
                let behind = history.lives.iter().skip(at + 1).find(|l| {
                    let stops = l
                        .product
                        .and_then(|p| p.ignition)
                        .is_some_and(|i| matches!(i, Ignition::Barrier | Ignition::Noncombustible));
                    l.stays() && stops && l.range.holds(life.range)
                });
                let how = match (product.ignition, behind) {
                    (_, Some(barrier)) => format!("behind `{}`", barrier.name),
                    (Some(Ignition::TestedExposed), _) => "tested exposed".to_owned(),
                    (Some(Ignition::Barrier), _) => "itself a barrier".to_owned(),
                    (Some(Ignition::Noncombustible), _) => "does not burn".to_owned(),
                    (None, None) => "nothing is said".to_owned(),
                    (Some(Ignition::NeedsBarrier), None) => "exposed".to_owned(),
                };
                let segment = Segment {
                    name: life.name,
                    face: Some(face),
                    life: at,
                    body: Body::Board,
                    range: life.range,
                    origin,
                    product,
                };
                steps.push(step(section.assembly.kind, &segment, section, how));
                match (product.ignition, behind) {
                    (Some(Ignition::NeedsBarrier), None) => {
                        let found = exposed(house, section, number, &segment);
                        mends.push(house.mend(&found));
                        out.add(found, &section.places);
                        status = Status::Broken;
                    }
                    (None, None) => {
                        let finding = Finding::new(
                            codes::FIRE_UNSAID,
                            product.origin,
                            format!("`{}` does not say how it stands to ignition", product.name),
                        )
                        .label("no `ignition` here")
                        .related(origin, "faces the space here")
                        .mend("state `ignition: tested_exposed`, `needs_barrier` or `noncombustible` from its report");
                        out.findings.push(finding.item(format!("{}.{}", house.foundation.name, section.assembly.name)));
                        status = status.max(Status::Unsaid);
                    }
                    _ => {}
                }
            }
        }
        if !steps.is_empty() {
            out.traces.push(house.trace(Control::Fire, section, steps, status, mends, ""));
        }
    }
}

fn exposed(house: &House, section: &Section, number: usize, segment: &Segment) -> Break {
    Break {
        controls: vec![Control::Fire],
        fault: Fault::NONE,
        whereabouts: format!("at `{}`", segment.name),
        elevation: segment.range.high,
        origin: segment.origin,
        label: "faces the space with no barrier over all of it".to_owned(),
        related: vec![(segment.product.origin, format!("`{}` needs a barrier", segment.product.name))],
        mend: "a board that is tested exposed, or a barrier over all of it".to_owned(),
        owner: house.owner(section, segment.face),
        beyond_reach_in_old_work: false,
        section: Some(number),
    }
}
