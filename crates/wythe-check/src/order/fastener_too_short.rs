//! `fastener_too_short`: a fastener does not reach through its layers with the bite it needs.

use wythe_findings::{Finding, codes};
use wythe_model::{Act, Length};

use super::context::Context;
use super::history::Life;
use crate::Inches;
use crate::levels::{Range, hair};
use crate::requirement::Need;

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    for (index, work) in context.works().iter().enumerate().filter(|(_, w)| w.act == Act::Fasten) {
        let Some(life) = context.history.fastened_by(index) else { continue };
        let held = &context.history.lives[life];
        // Driven through a cover that came too soon: the order is at fault, not the length.
        if held.fixed == Some(index) && held.cover.is_some_and(|c| c < index) {
            continue;
        }
        if context.swapped.iter().any(|s| s.liner == life) {
            continue;
        }
        let Some((fastener, length)) = work.product.as_deref().and_then(|p| Some((p, p.length?))) else { continue };
        let through = thickest(context, held, index);
        let (bite, whose) = match fastener.embedment {
            Some(bite) => (bite, "its product asks for"),
            None => (context.asked.length(Need::FastenerBite), context.asked.source(Need::FastenerBite)),
        };
        if length + hair() >= through + bite {
            continue;
        }
        let name = fastener.name;
        let finding = Finding::new(
            codes::FASTENER_TOO_SHORT,
            work.origin,
            format!("`{name}` is {} long; {} is due here", Inches(length), Inches(through + bite)),
        )
        .label(format!("{} of layers lie under its head", Inches(through)))
        .related(fastener.origin, format!("`{name}`: {}", Inches(length)))
        .cause(format!("layers {} and a bite of {} ({whose})", Inches(through), Inches(bite)))
        .mend(format!("a fastener of {} or longer", Inches(through + bite)));
        out.push(context.placed(finding));
    }
}

/// The most thickness of layers that lie over one another anywhere behind the fastened layer.
fn thickest(context: &Context, held: &Life, at: usize) -> Length {
    let under = |range: Range| {
        let live = context.history.live_over(range, at);
        live.filter_map(|l| l.product?.thickness).fold(Length::default(), |sum, t| sum + t)
    };
    let mut cuts: Vec<Length> = vec![held.range.low, held.range.high];
    for life in context.history.live_over(held.range, at) {
        cuts.extend(
            [life.range.low, life.range.high].into_iter().filter(|c| *c > held.range.low && *c < held.range.high),
        );
    }
    cuts.sort_by(|a, b| a.value.total_cmp(&b.value));
    let bands = cuts.windows(2).map(|pair| Range { low: pair[0], high: pair[1] });
    bands.filter(|b| b.height() > hair()).map(under).fold(Length::default(), |most, t| most.max(t))
}
