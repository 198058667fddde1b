//! `steps_out_of_order`: a step lies before the one above it.

use wythe_findings::{Finding, codes};

use super::Site;
use super::feet::Feet;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    for wall in &site.f.walls {
        let steps = wall.stretches.get(1..).unwrap_or_default();
        for pair in steps.windows(2).filter(|pair| pair[1].from <= pair[0].from) {
            out.push(
                Finding::new(
                    codes::STEPS_OUT_OF_ORDER,
                    pair[1].origin,
                    format!("the steps of `{}` are out of order", wall.name),
                )
                .label(format!("at {}", Feet(pair[1].from)))
                .related(pair[0].origin, format!("the step above lies at {}", Feet(pair[0].from)))
                .mend("write the steps in the order in which the wall is walked")
                .item(site.item(wall.name)),
            );
        }
    }
}
