//! `fastener_spacing`: the fasteners of a hung sheet stand too far apart.

use wythe_findings::{Finding, codes};
use wythe_model::Act;

use super::context::Context;
use crate::Inches;
use crate::requirement::Need;

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    let most = context.asked.length(Need::LinerSpacing);
    for (index, work) in context.works().iter().enumerate().filter(|(_, w)| w.act == Act::Fasten) {
        let Some(every) = work.every.filter(|&e| e > most + crate::levels::hair()) else { continue };
        let Some(life) = context.history.fastened_by(index).map(|l| &context.history.lives[l]) else { continue };
        if life.act != Act::Hang {
            continue;
        }
        let mut finding = Finding::new(
            codes::FASTENER_SPACING,
            work.origin,
            format!("`{}` is fastened every {}; {} is the most", life.name, Inches(every), Inches(most)),
        )
        .label("too far apart for a hung sheet")
        .cause(format!("required: {} ({})", Inches(most), context.asked.source(Need::LinerSpacing)))
        .mend(format!("every {}", Inches(most)));
        if let Some(at) = context.asked.origin(Need::LinerSpacing) {
            finding = finding.related(at, "asked for here");
        }
        out.push(context.placed(finding));
    }
}
