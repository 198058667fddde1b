//! `facing_mismatch`: a tape on a face it does not hold on.

use wythe_findings::{Edit, Finding, Fix, Safety, codes};
use wythe_model::{Class, EdgeName, Facing, Foundation, Joint, Product, Work};
use wythe_source::Span;

use super::context::Context;
use super::history::{Found, Role};
use super::surface::{face_of, grips, holds_on};

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    let (works, history) = (context.works(), &context.history);
    for reference in history.references.iter().filter(|r| matches!(r.role, Role::Edge | Role::To)) {
        let work = &works[reference.work];
        let Some(tape) = work.product.as_deref().filter(|p| p.class == Class::Tape) else { continue };
        let owner = match reference.found {
            Found::Live(life) => Some(life),
            Found::Fasteners(fasten) => history.fastened_by(fasten),
            _ => None,
        };
        let surface = match (reference.found, owner) {
            (Found::Structure, _) => context.assembly.structure.as_deref(),
            (_, Some(life)) => history.lives[life].product,
            _ => None,
        };
        let Some(surface) = surface else { continue };
        let placed_at = owner.map(|life| works[history.lives[life].work].origin);
        if let Some(finding) = mismatch(work, tape, surface, placed_at) {
            let others =
                context.assembly.faces.iter().flat_map(|f| &f.works).chain(context.joint_works.iter().copied());
            out.push(context.placed(with_other_tape(finding, work, surface, others)));
        }
    }
}

/// The same question to the works of joints, whose layers belong to two faces.
pub(super) fn check_joint(foundation: &Foundation, joint: &Joint, out: &mut Vec<Finding>) {
    for work in &joint.face.works {
        let Some(tape) = work.product.as_deref().filter(|p| p.class == Class::Tape) else { continue };
        let Some(place) = work.place else { continue };
        let name = match place.edge {
            EdgeName::Layer(name) => Some(name),
            _ => place.of,
        };
        let mut sides = super::joint_names::sides(foundation, joint);
        let surface = sides.find(|w| w.act.places() && Some(w.layer) == name);
        let Some((surface, at)) = surface.and_then(|w| Some((w.product.as_deref()?, w.origin))) else { continue };
        if let Some(finding) = mismatch(work, tape, surface, Some(at)) {
            let finding = finding.item(format!("{}.{}", foundation.name, joint.name));
            out.push(with_other_tape(finding, work, surface, joint.face.works.iter()));
        }
    }
}

fn mismatch(work: &Work, tape: &Product, surface: &Product, placed_at: Option<Span>) -> Option<Finding> {
    let facing = face_of(surface);
    if holds_on(tape, facing) != Some(false) {
        return None;
    }
    let facing = facing.map_or("unknown", Facing::name);
    let title = format!("`{}` does not hold on {facing}", tape.name);
    let mut finding = Finding::new(codes::FACING_MISMATCH, work.origin, title)
        .label(format!("holds on {}", grips(tape)))
        .related(tape.origin, format!("`{}` is declared here", tape.name));
    if let Some(at) = placed_at {
        finding = finding.related(at, format!("the face of `{}` is {facing}", surface.name));
    }
    Some(finding.mend(format!("a tape for {facing}")))
}

/// Offers a tape that the same assembly uses elsewhere, so that its name is known where the line stands.
fn with_other_tape<'w>(
    finding: Finding,
    work: &Work,
    surface: &Product,
    others: impl Iterator<Item = &'w Work>,
) -> Finding {
    let holds = |p: &&Product| p.class == Class::Tape && holds_on(p, face_of(surface)) == Some(true);
    let mut tapes = others.filter_map(|w| w.product.as_deref());
    let Some(other) = tapes.find(holds) else { return finding };
    let edit = Edit { span: work.layer_origin, text: other.name.as_str().to_owned() };
    finding.mend(format!("`{}`", other.name)).fix(Fix::new(format!("use `{}`", other.name), vec![edit], Safety::Unsafe))
}
