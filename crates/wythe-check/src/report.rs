//! Everything this crate finds about one foundation, in one call.

use wythe_findings::Finding;
use wythe_model::Foundation;

use crate::lines::Trace;
use crate::sequence::StateTable;
use crate::{Requirements, geometry, lines, merge, order, sequence};

/// What was found about a foundation.
#[derive(Clone, Debug, Default)]
pub struct Report {
    /// Every finding, in order of place, each fault once.
    pub findings: Vec<Finding>,
    /// The proof of each control line in each section.
    pub traces: Vec<Trace>,
    /// Each surface after each phase.
    pub states: StateTable,
}

/// Checks a foundation: geometry, layer order, sequence, the gate before closing and the control lines.
pub fn check(foundation: &Foundation, asked: &Requirements) -> Report {
    let mut findings = Vec::new();
    geometry::check(foundation, &mut findings);
    findings.extend(order::check(foundation, asked));
    findings.extend(sequence::check(foundation));
    findings.extend(sequence::gate(foundation));
    let (of_lines, traces) = lines::check(foundation, asked);
    findings.extend(of_lines);
    Report { findings: merge(findings), traces, states: sequence::states(foundation, None) }
}

#[cfg(test)]
mod tests {
    use super::check;
    use crate::Requirements;
    use crate::fixture::{House, names};

    #[test]
    fn one_call_gives_findings_traces_and_states() {
        let house = House::unit_4();
        let report = check(&house.foundation, &Requirements::default());
        let faults: Vec<_> = names(&report.findings);
        assert!(faults.contains(&"bare_band"), "{faults:?}");
        assert!(!report.traces.is_empty());
        assert_eq!(report.states.phases.len(), house.foundation.phases.len());
    }

    #[test]
    fn a_faulty_line_is_told_by_the_check_that_owns_it_and_by_no_other() {
        // The heads of the pins are never taped: layer order tells it, the vapor line does not tell it again.
        let house = House::with("  tape seam_tape over heads of drive_pin\n  set foil_board", "  set foil_board");
        let report = check(&house.foundation, &Requirements::default());
        let told: Vec<_> =
            report.findings.iter().filter(|f| f.item.contains("stem_wall")).map(|f| f.name.as_str()).collect();
        assert_eq!(told, ["unsealed_piercing", "bare_band"]);
    }

    #[test]
    fn the_same_house_gives_the_same_report() {
        let text =
            crate::fixture::UNIT_4.replace("by 12", "by 4").replace("  tape foil_tape over top edge of board\n", "");
        let shown = || {
            let report = check(&House::read(&text).foundation, &Requirements::default());
            format!("{:?}{:?}{:?}", report.findings, report.traces, report.states)
        };
        assert_eq!(shown(), shown());
    }
}
