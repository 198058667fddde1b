//! `sealant_bond`: a sealant on a surface it does not bond to.

use wythe_findings::{Finding, codes};
use wythe_model::{Act, Class, Facing, Product};

use super::context::Context;
use super::history::{Found, Reference, Role};
use super::surface::{edge_of, face_of, grips, holds_on};

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    for reference in context.history.references.iter().filter(|r| matches!(r.role, Role::Edge | Role::To)) {
        let work = &context.works()[reference.work];
        let sealant = work.product.as_deref().filter(|p| work.act == Act::Seal && p.class == Class::Sealant);
        let (Some(sealant), Some((surfaces, side))) = (sealant, surfaces(context, reference)) else { continue };
        let verdicts: Vec<bool> = surfaces.iter().filter_map(|s| holds_on(sealant, *s)).collect();
        if verdicts.is_empty() || verdicts.contains(&true) {
            continue;
        }
        let facing = surfaces.iter().flatten().next().map_or("unknown", |f| Facing::name(*f));
        let finding =
            Finding::new(codes::SEALANT_BOND, work.origin, format!("`{}` does not bond to {facing}", sealant.name))
                .label(format!("`{}` offers {facing}", side))
                .related(sealant.origin, format!("bonds to {}", grips(sealant)))
                .mend(format!("a sealant whose `bonds` name {facing}"));
        out.push(context.placed(finding));
    }
}

/// What the bead may hold on at one side: any of these will do. `None` where nothing is known.
fn surfaces(context: &Context, reference: &Reference) -> Option<(Vec<Option<Facing>>, wythe_source::Symbol)> {
    let history = &context.history;
    let (product, life): (&Product, Option<usize>) = match reference.found {
        Found::Live(life) => (history.lives[life].product?, Some(life)),
        Found::Fasteners(fasten) => {
            let life = history.fastened_by(fasten)?;
            (history.lives[life].product?, None)
        }
        Found::Structure => (context.assembly.structure.as_deref()?, None),
        _ => return None,
    };
    let mut offers = vec![face_of(product)];
    if let (Some(life), Role::Edge) = (life, reference.role) {
        offers.push(edge_of(product));
        let edge = context.works()[reference.work].place?.edge;
        for tape in history.treatments(life, edge).filter(|&t| t < reference.work) {
            offers.push(context.works()[tape].product.as_deref().and_then(face_of));
        }
    }
    Some((offers, reference.name))
}
