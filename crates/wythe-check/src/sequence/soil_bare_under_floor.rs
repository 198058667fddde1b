//! `soil_bare_under_floor`: a floor over soil with nothing on it.

use wythe_findings::{Finding, Severity, codes};

use super::plan::{Plan, is_sheet};
use super::site_state::Cover;

pub(super) fn check(plan: &Plan, out: &mut Vec<Finding>) {
    let phases = plan.foundation.phases.len();
    let bare = |p: usize| plan.after(p).floor && plan.after(p).cover == Cover::Bare;
    let Some(first) = (0..phases).find(|&p| bare(p)) else { return };
    let covered = (first + 1..phases).find(|&p| !bare(p));
    let sheet = plan.ground().and_then(|s| {
        let laid = s.history.lives.iter().filter(|l| is_sheet(l));
        laid.filter_map(|l| Some((plan.phase_at(s, l.work)?, s.work(l)))).find(|(p, _)| Some(*p) == covered)
    });
    let origin = sheet.map_or(plan.foundation.ground.origin, |(_, w)| w.origin);
    let mut finding = plan
        .of_house(
            codes::SOIL_BARE_UNDER_FLOOR,
            origin,
            format!("`{}` puts a floor over bare soil", plan.name(first)),
            "ground",
        )
        .mend(format!("lay a sacrificial sheet in a phase before `{}`", plan.name(first)));
    finding = plan.with_phase(finding, first, format!("`{}` brings the floor", plan.name(first)));
    finding = match covered {
        Some(phase) => finding.label(format!("the ground is covered only in `{}`", plan.name(phase))),
        None => finding.label("nothing ever covers the ground"),
    };
    // A few dry days until the very next phase harm nothing: worth knowing, no fault.
    if covered == Some(first + 1) {
        finding.severity = Severity::Information;
    }
    out.push(finding);
}
