//! `outside_install_window`, `sun_too_long`: a product is put on, or left, outside the limits its maker states.

use uom::si::f64::{ThermodynamicTemperature, Time};
use uom::si::thermodynamic_temperature::degree_fahrenheit;
use uom::si::time::day;
use wythe_findings::{Finding, codes};
use wythe_model::{Phase, SurfaceKind, Work};

use super::plan::{Plan, Surface};
use super::site_state::Wet;
use crate::order::history::Life;

pub(super) fn check(plan: &Plan, out: &mut Vec<Finding>) {
    for surface in &plan.surfaces {
        let ground = surface.assembly.kind == SurfaceKind::Ground;
        for work in surface.history.works() {
            if let Some((title, label, phase)) = outside(plan, work, ground) {
                let finding = plan.of_face(surface, codes::OUTSIDE_INSTALL_WINDOW, work.origin, title);
                out.push(finish(plan, finding.label(label), work, phase));
            }
        }
        for life in &surface.history.lives {
            sun(plan, surface, life, out);
        }
    }
    for joint in &plan.foundation.joints {
        let ground = [joint.first, joint.second].iter().any(|key| key.kind == SurfaceKind::Ground);
        for work in &joint.face.works {
            if let Some((title, label, phase)) = outside(plan, work, ground) {
                let finding = plan.of_house(codes::OUTSIDE_INSTALL_WINDOW, work.origin, title, joint.name.as_str());
                out.push(finish(plan, finding.label(label), work, phase));
            }
        }
    }
}

/// What is wrong with the moment of a work: title, label and the phase.
fn outside(plan: &Plan, work: &Work, ground: bool) -> Option<(String, String, usize)> {
    let product = work.product.as_deref()?;
    let index = plan.phase_of(work)?;
    let phase: &Phase = plan.foundation.phases.get(index)?;
    let (name, in_phase) = (product.name, plan.name(index));
    if let (Some(least), Some(coldest)) = (product.install.above, phase.coldest)
        && coldest < least
    {
        return Some((
            format!("`{name}` is put on in `{in_phase}`, which is too cold for it"),
            format!("goes on at {} and above; {} is expected", degrees(least), degrees(coldest)),
            index,
        ));
    }
    if let (Some(most), Some(hottest)) = (product.install.below, phase.hottest)
        && hottest > most
    {
        return Some((
            format!("`{name}` is put on in `{in_phase}`, which is too hot for it"),
            format!("goes on at {} and below; {} is expected", degrees(most), degrees(hottest)),
            index,
        ));
    }
    (product.install.dry_surface && ground && plan.before(index).ground == Wet::Wet).then(|| {
        (
            format!("`{name}` is put on in `{in_phase}`, and the ground is wet"),
            "asks for a dry surface".to_owned(),
            index,
        )
    })
}

fn finish(plan: &Plan, finding: Finding, work: &Work, phase: usize) -> Finding {
    let finding = match work.product.as_deref() {
        Some(product) => finding.related(product.origin, "its limits are stated here"),
        None => finding,
    };
    plan.with_phase(finding, phase, format!("`{}` is told here", plan.name(phase)))
        .mend("another day or season, a product for it, or warmth and drying first")
}

/// A layer that stands in the sun from its phase until something covers it, the roof is on, or it is taken away.
fn sun(plan: &Plan, surface: &Surface, life: &Life, out: &mut Vec<Finding>) {
    let Some((product, most)) = life.product.and_then(|p| Some((p, p.install.sun?))) else { return };
    let Some(placed) = plan.phase_at(surface, life.work) else { return };
    let outside = surface.face() == "outside";
    let done =
        |work: Option<usize>, phase: usize| work.and_then(|w| plan.phase_at(surface, w)).is_some_and(|at| at <= phase);
    let shaded = |phase: usize| {
        let state = plan.after(phase);
        done(life.shut, phase) || done(life.removed, phase) || if outside { state.backfilled } else { state.roof }
    };
    let mut days = 0;
    let mut last = placed;
    for index in placed..plan.foundation.phases.len() {
        if shaded(index) {
            break;
        }
        let phase = &plan.foundation.phases[index];
        // Five working days are a week.
        let worked = if index == placed { 0 } else { phase.days.unwrap_or(0) };
        days += phase.wait_days + worked + worked.saturating_sub(1) / 5 * 2;
        last = index;
    }
    if f64::from(days) <= most.get::<day>() {
        return;
    }
    let title = format!("`{}` stands in the sun for {days} days or more", life.name);
    let finding = plan
        .of_face(surface, codes::SUN_TOO_LONG, surface.work(life).origin, title)
        .label(format!("stands it for {}", in_days(most)))
        .related(product.origin, "its limit is stated here")
        .mend("cover it sooner, shade it, or take a product that stands it");
    out.push(plan.with_phase(finding, last, format!("still uncovered after `{}`", plan.name(last))));
}

fn degrees(temperature: ThermodynamicTemperature) -> String {
    format!("{:.0} \u{b0}F", temperature.get::<degree_fahrenheit>())
}

fn in_days(time: Time) -> String {
    let days = time.get::<day>();
    format!("{days:.0} {}", if days == 1.0 { "day" } else { "days" })
}
