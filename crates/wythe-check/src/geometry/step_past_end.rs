//! `step_past_end`: a step lies outside its wall.

use wythe_findings::{Finding, codes};
use wythe_model::Length;

use super::Site;
use super::feet::Feet;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    for wall in &site.f.walls {
        for step in wall.stretches.iter().skip(1) {
            let before = step.from <= Length::default();
            if !before && step.from < wall.length {
                continue;
            }
            let title = format!("the step of `{}` at {} is not within the wall", wall.name, Feet(step.from));
            let seen = if before { "at or before the wall's start" } else { "at or past the wall's end" };
            out.push(
                Finding::new(codes::STEP_PAST_END, step.origin, title)
                    .label(seen)
                    .related(wall.length_origin, format!("`{}` is {} long", wall.name, Feet(wall.length)))
                    .mend(format!("a place between 0 and {}", Feet(wall.length)))
                    .item(site.item(wall.name)),
            );
        }
    }
}
