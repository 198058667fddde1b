//! Control lines: capillary and bulk water, vapor, air, heat and fire, proven section by section or shown broken.
//!
//! Vapor, air and heat are lines, proven by the lightest way from top to ground; capillary and bulk water are
//! cuts, proven when no path is left; fire is a cover. Start at [`house`], which holds the sections, then
//! [`continuous`]. Each proof leaves a [`Trace`] whether it holds or not.

mod branches;
mod bulk_water;
mod capillary;
mod continuous;
mod fault;
mod fire;
mod graph;
mod heat;
mod house;
mod joints;
mod link;
mod openings;
mod section;
mod sideways;
mod sketch;
mod strips;
mod told;
mod trace;
mod wall_break;

pub use trace::{Mend, Status, Step, Trace};

use wythe_findings::Finding;
use wythe_model::{Control, Foundation, SpaceKind};

use self::house::{House, Out};
use crate::{Requirements, merge};

/// Proofs of all lines of a foundation: findings in order of place, and a trace for each section and control.
///
/// Vapor, air and heat are asked of a closed space only.
pub fn check(foundation: &Foundation, asked: &Requirements) -> (Vec<Finding>, Vec<Trace>) {
    let house = House::of(foundation, asked);
    let mut out = Out::default();
    capillary::prove(&house, &mut out);
    bulk_water::prove(&house, &mut out);
    openings::prove(&house, Control::BulkWater, &mut out);
    if foundation.space == SpaceKind::Closed {
        continuous::prove(&house, &mut out);
        for control in [Control::Vapor, Control::Air] {
            branches::ground(&house, control, &mut out);
            branches::piers(&house, control, &mut out);
            openings::prove(&house, control, &mut out);
        }
        sideways::prove(&house, &mut out);
        heat::prove(&house, &mut out);
        told::unsaid(&house, &mut out);
    }
    fire::prove(&house, &mut out);
    let traces = std::mem::take(&mut out.traces);
    (merge(told::findings(&house, out)), traces)
}

#[cfg(test)]
mod tests;
