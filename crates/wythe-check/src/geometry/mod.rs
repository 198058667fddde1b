//! Geometry: what cannot be built as drawn, each fault in a file of its own.
//!
//! Start at [`check`]. Faults that follow from a walk that is open or crosses itself are not reported beside it.

mod as_built_differs;
mod beam_unsupported;
mod closing_error;
mod feet;
mod footing_above_grade;
mod grade_above_top;
mod ground_below_footing;
mod ground_below_grade;
mod level_group;
mod opening_above_top;
mod opening_below_footing;
mod opening_in_corner;
mod opening_past_end;
mod opening_without_size;
mod openings_overlap;
mod pad_outside;
mod pier_group;
mod pier_in_wall;
mod pier_outside;
mod pier_without_height;
mod piers_overlap;
mod pocket_missing;
mod riser_noted;
mod step_past_end;
mod steps_out_of_order;
mod thickness_unknown;
mod walk_crosses;
mod walk_open;
mod wall_squeezed;
mod wall_without_height;
mod wall_without_length;

#[cfg(test)]
mod tests;

use wythe_findings::Finding;
use wythe_model::geometry::{Basis, Crossing, Outline, Plan, crossings, hair};
use wythe_model::{Foundation, MeasuredFace};

/// A foundation with what its checks share.
struct Site<'a> {
    f: &'a Foundation,
    plan: Plan,
    crossings: Vec<Crossing>,
    inside: Outline,
}

impl Site<'_> {
    /// The name of a part, as findings give it: `unit_4.south`.
    fn item(&self, part: impl std::fmt::Display) -> String {
        format!("{}.{part}", self.f.name)
    }

    /// Whether the walk misses its start by more than its tolerance.
    fn is_open(&self) -> bool {
        self.plan.walk.closing_gap().size() > self.f.closing_tolerance.max(hair())
    }

    /// Whether there is an inside that piers and pads can be held against.
    fn has_inside(&self) -> bool {
        !self.f.walls.is_empty() && !self.is_open() && self.crossings.is_empty() && self.plan.squeezed().is_empty()
    }
}

type Check = fn(&Site<'_>, &mut Vec<Finding>);

const CHECKS: [Check; 28] = [
    walk_open::check,
    closing_error::check,
    walk_crosses::check,
    wall_without_length::check,
    wall_squeezed::check,
    thickness_unknown::check,
    step_past_end::check,
    steps_out_of_order::check,
    wall_without_height::check,
    footing_above_grade::check,
    ground_below_footing::check,
    grade_above_top::check,
    ground_below_grade::check,
    riser_noted::check,
    opening_without_size::check,
    opening_past_end::check,
    opening_in_corner::check,
    openings_overlap::check,
    opening_above_top::check,
    opening_below_footing::check,
    pier_outside::check,
    pier_in_wall::check,
    piers_overlap::check,
    pier_without_height::check,
    beam_unsupported::check,
    pocket_missing::check,
    pad_outside::check,
    as_built_differs::check,
];

/// Adds the findings of a foundation's geometry.
pub fn check(f: &Foundation, findings: &mut Vec<Finding>) {
    let plan = Plan::of(f, Basis::Design);
    let reach = f.closing_tolerance.max(plan.walk.closing_gap().size());
    let crossings = crossings(&plan.walk, reach);
    let inside = plan.outline(MeasuredFace::Inside);
    let site = Site { f, plan, crossings, inside };
    for check in CHECKS {
        check(&site, findings);
    }
}
