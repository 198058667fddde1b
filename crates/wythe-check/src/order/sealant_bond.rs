//! `sealant_bond`: a sealant on a surface it does not bond to.

use wythe_findings::{Finding, codes};
use wythe_model::{Act, Class, Facing, Product};
use wythe_source::Symbol;

use super::context::Context;
use super::history::{Found, Reference, Role};
use super::surface::{edge_of, face_of, grips, holds_on};

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    for (index, work) in context.works().iter().enumerate().filter(|(_, w)| w.act == Act::Seal) {
        let Some(sealant) = work.product.as_deref().filter(|p| p.class == Class::Sealant) else { continue };
        let sides = context.history.references.iter().filter(|r| r.work == index);
        let refused: Vec<(&str, Symbol)> = sides.filter_map(|side| refused(context, side, sealant)).collect();
        if refused.is_empty() {
            continue;
        }
        let facings: Vec<&str> = refused.iter().map(|(facing, _)| *facing).collect();
        let offers: Vec<String> = refused.iter().map(|(facing, side)| format!("`{side}` offers {facing}")).collect();
        let facings = facings.join(" or ");
        let finding =
            Finding::new(codes::SEALANT_BOND, work.origin, format!("`{}` does not bond to {facings}", sealant.name))
                .label(offers.join(", "))
                .related(sealant.origin, format!("bonds to {}", grips(sealant)))
                .mend(format!("a sealant whose `bonds` name {}", facings.replace(" or ", " and ")));
        out.push(context.placed(finding));
    }
}

/// What a side offers, if the sealant bonds to none of it.
fn refused(context: &Context, reference: &Reference, sealant: &Product) -> Option<(&'static str, Symbol)> {
    if !matches!(reference.role, Role::Edge | Role::To) {
        return None;
    }
    let (surfaces, side) = surfaces(context, reference)?;
    let mut verdicts = surfaces.iter().filter_map(|s| holds_on(sealant, *s)).peekable();
    verdicts.peek()?;
    if verdicts.any(|holds| holds) {
        return None;
    }
    Some((surfaces.iter().flatten().next().map_or("unknown", |f| Facing::name(*f)), side))
}

/// What the bead may hold on at one side: any of these will do. `None` where nothing is known.
fn surfaces(context: &Context, reference: &Reference) -> Option<(Vec<Option<Facing>>, Symbol)> {
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
