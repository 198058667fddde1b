//! `unknown_layer`: a work names a layer that is not on its face.

use wythe_findings::{Finding, Fix, codes};
use wythe_model::Work;
use wythe_source::{Span, Symbol};

use super::context::Context;
use super::history::{Found, Reference, Role};
use super::words::nearest;

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    for reference in context.history.references.iter().filter(|r| r.found == Found::Missing) {
        let work = &context.works()[reference.work];
        let name = reference.name;
        let face = context.history.face.name;
        let (span, exact) = place_of(work, reference);
        let mut finding = Finding::new(codes::UNKNOWN_LAYER, span, format!("no layer `{name}` on `{face}`"))
            .label(format!("nothing of that name is put on `{face}`"));
        let renamed = context.history.lives.iter().find(|l| l.product.is_some_and(|p| p.name == name));
        let known = || context.history.lives.iter().map(|l| l.name);
        if let Some(renamed) = renamed {
            finding = finding
                .related(
                    context.works()[renamed.work].origin,
                    format!("the product `{name}` goes by `{}` here", renamed.name),
                )
                .mend(format!("call it `{}`", renamed.name));
            finding = with_name(finding, exact.then_some(span), renamed.name);
        } else if let Some(near) = nearest(name, known()) {
            finding = with_name(finding.mend(format!("did you mean `{near}`?")), exact.then_some(span), near);
        } else if let Some(other) = context.elsewhere(name) {
            finding = finding.mend(format!(
                "`{name}` belongs to `{other}`: move the line there, or put the layer on `{face}` first"
            ));
        } else {
            finding = finding.mend(format!("put `{name}` on `{face}` before this line, or take the line out"));
        }
        out.push(context.placed(finding));
    }
}

fn with_name(finding: Finding, span: Option<Span>, name: Symbol) -> Finding {
    match span {
        Some(span) => finding.fix(Fix::needs_consent(format!("call it `{name}`"), span, name.as_str())),
        None => finding,
    }
}

/// Where the name stands, and whether the place holds the name alone.
fn place_of(work: &Work, reference: &Reference) -> (Span, bool) {
    match (reference.role, work.place) {
        (Role::Acts, _) => (work.layer_origin, true),
        (_, Some(place)) => (place.origin, false),
        (_, None) => (work.origin, false),
    }
}
