//! `cell_open_under_coating`: a film is to span the open cells of the top course.

use wythe_findings::{Finding, codes};
use wythe_model::{Act, EdgeName, Work};

use super::context::Context;

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    let Some(structure) = context.assembly.structure.as_deref().filter(|s| s.open_cells) else { return };
    let head_face = context.history.face.name.as_str() == "head";
    let on_head = |w: &Work| w.place.is_some_and(|p| p.edge == EdgeName::Head) || head_face;
    let closes = |w: &Work| matches!(w.act, Act::Cap | Act::Fill | Act::Set | Act::Lay);
    let Some(coat) = context.works().iter().position(|w| w.act == Act::Coat && on_head(w)) else { return };
    let closed_before = context.works()[..coat].iter().any(|w| closes(w) && on_head(w));
    let closed_elsewhere = context.assembly.faces.iter().any(|f| {
        let head = f.name.as_str() == "head";
        f.name != context.history.face.name
            && f.works.iter().any(|w| closes(w) && (head || w.place.is_some_and(|p| p.edge == EdgeName::Head)))
    });
    if closed_before || closed_elsewhere {
        return;
    }
    let work = &context.works()[coat];
    let mut finding = Finding::new(
        codes::CELL_OPEN_UNDER_COATING,
        work.origin,
        format!("`{}` cannot span the open cells of `{}`", work.layer, structure.name),
    )
    .label("a film over a hole is no film");
    if let Some(at) = context.assembly.structure_origin {
        finding = finding.related(at, format!("`{}` has cells open at the top", structure.name));
    }
    finding = finding.mend("a solid or grouted top course, or a `cap … over head` line before the coat");
    out.push(context.placed(finding));
}
