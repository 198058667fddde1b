//! `unfixed_cover`: a layer is covered before it is made fast.

use wythe_findings::{Finding, Fix, codes};
use wythe_model::{Act, Class};
use wythe_source::Span;

use super::context::{Context, with_fix};
use super::words::{done, line};
use crate::Inches;
use crate::requirement::Need;

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    let works = context.works();
    for life in context.history.lives.iter().filter(|l| l.needs_fastening) {
        let Some(cover) = life.cover.filter(|&c| life.fixed.is_none_or(|f| f > c)) else { continue };
        if context.is_swapped(life, cover) {
            continue;
        }
        let (name, over) = (life.name, &works[cover]);
        let title = format!("`{name}` is covered before it is fastened");
        let mut finding = Finding::new(codes::UNFIXED_COVER, over.origin, title)
            .label(format!("`{}` goes over it", over.layer))
            .related(works[life.work].origin, format!("`{name}` is {} here and still loose", done(life.act)));
        match life.fixed {
            Some(fasten) => {
                finding = finding.related(works[fasten].origin, "fastened only here").mend(format!(
                    "the order that works: `{}`, `{}`, then `{}`",
                    line(&works[life.work]),
                    line(&works[fasten]),
                    line(over)
                ));
                finding = with_fix(finding, context.reorder(fasten, cover));
            }
            None => {
                let every = Inches(context.asked.length(Need::LinerSpacing));
                let sheet = life.class() != Some(Class::Board);
                let spacing = if sheet { format!(" every {every} or less") } else { String::new() };
                let fastener = usual_fastener(context);
                let with = fastener.map_or(String::new(), |name| format!(" with {name}"));
                finding = finding.mend(format!("put `fasten {name}{with}`{spacing} before `{}`", line(over)));
                // How many fasteners a board takes is for its maker to say; for a sheet the spacing is known.
                if let (true, Some(fastener)) = (sheet, fastener) {
                    let start = Span { end: over.origin.start, ..over.origin };
                    let written = format!("fasten {name} with {fastener} every {every}");
                    finding = finding.fix(Fix::needs_consent(
                        format!("write `{written}` before it"),
                        start,
                        format!("{written}; "),
                    ));
                }
            }
        }
        out.push(context.placed(finding));
    }
}

/// A fastener that holds a sheet elsewhere in the assembly, to name in the mend.
fn usual_fastener(context: &Context) -> Option<wythe_source::Symbol> {
    let works = context.assembly.faces.iter().flat_map(|f| &f.works);
    works.filter(|w| w.act == Act::Fasten).find_map(|w| w.product.as_ref()).map(|p| p.name)
}
