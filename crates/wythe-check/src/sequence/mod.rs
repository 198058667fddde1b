//! Sequence: the state of the building between phases, and the states that must not be.
//!
//! A state is examined between two phases, never in the middle of a visit. Start at [`plan`], which works out
//! every face and every state; each finding has a file of its own. [`states`] is the table for reports.

mod backfilled_too_soon;
mod closing;
mod covered_before_seen;
mod edge_open_to_rain;
mod gate;
mod ground_layer_too_soon;
mod install_window;
mod joint_too_soon;
mod needs_unmet;
mod phase_names;
pub(crate) mod plan;
mod sacrificial_left;
mod seal_pending;
mod site_state;
mod soil_bare_under_floor;
mod table;
mod tail_missing;

pub use site_state::{Cover, SiteState, Vents, Wet};
pub use table::{Cell, EdgeState, Harm, Inspection, LayerState, Row, StateTable};

use wythe_findings::{Code, Finding, Fix};
use wythe_model::{Foundation, SpaceKind};
use wythe_source::{Span, Symbol};

use self::plan::Plan;
use crate::merge;

type Check = fn(&Plan, &mut Vec<Finding>);

const ALWAYS: [Check; 11] = [
    phase_names::check,
    needs_unmet::check,
    soil_bare_under_floor::check,
    edge_open_to_rain::check,
    ground_layer_too_soon::check,
    covered_before_seen::check,
    backfilled_too_soon::check,
    tail_missing::check,
    joint_too_soon::check,
    closing::check_conditioning_named,
    install_window::check,
];

const CLOSED_ONLY: [Check; 3] = [closing::check, sacrificial_left::check, seal_pending::check];

/// Findings about the order of phases, each hold taken as passed in order. The gate is asked apart, by [`gate`].
pub fn check(foundation: &Foundation) -> Vec<Finding> {
    check_logged(foundation, None)
}

/// Findings about the order of phases, with the phases whose hold a log has passed.
pub fn check_logged(foundation: &Foundation, passed: Option<&[Symbol]>) -> Vec<Finding> {
    let mut out = Vec::new();
    if !foundation.phases.is_empty() {
        let plan = Plan::of(foundation, passed);
        for check in ALWAYS {
            check(&plan, &mut out);
        }
        if foundation.space == SpaceKind::Closed {
            for check in CLOSED_ONLY {
                check(&plan, &mut out);
            }
        }
    }
    merge(out)
}

/// What must be settled before the space may be closed: flood, combustion, standing water, radon.
pub fn gate(foundation: &Foundation) -> Vec<Finding> {
    let mut out = Vec::new();
    gate::check(foundation, &mut out);
    merge(out)
}

/// The state table, surface by phase.
pub fn states(foundation: &Foundation, passed: Option<&[Symbol]>) -> StateTable {
    table::table(&Plan::of(foundation, passed))
}

impl Plan<'_> {
    /// A finding about a face, with the parts built so.
    fn of_face(&self, surface: &plan::Surface, code: Code, span: Span, title: String) -> Finding {
        let finding = Finding::new(code, span, title);
        crate::place::of_assembly(self.foundation, surface.id, surface.assembly, surface.face(), finding)
    }

    /// A finding about the foundation.
    fn of_house(&self, code: Code, span: Span, title: String, part: &str) -> Finding {
        Finding::new(code, span, title).item(format!("{}.{part}", self.foundation.name))
    }

    /// The finding with the place of a phase.
    fn with_phase(&self, finding: Finding, phase: usize, text: String) -> Finding {
        match self.foundation.phases.get(phase) {
            Some(p) => finding.related(p.origin, text),
            None => finding,
        }
    }
}

/// The finding with a suggested name.
fn with_name(finding: Finding, span: Span, near: Option<Symbol>) -> Finding {
    match near {
        Some(near) => finding.mend(format!("did you mean `{near}`?")).fix(Fix::needs_consent(
            format!("call it `{near}`"),
            span,
            near.as_str(),
        )),
        None => finding,
    }
}

#[cfg(test)]
mod tests;
