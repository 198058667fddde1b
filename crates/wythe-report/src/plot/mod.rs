//! Plots, drawn by a plotting library as SVG: what happens over the months in the three states, where the heat goes,
//! what each phase costs. Lines are told apart by dashes and marks, bars by hatch and number: no color is needed.

mod bars;
mod chart;
mod cost;
#[cfg(test)]
mod golden;
mod lines;
mod months;

pub(crate) use cost::cost_by_phase;
pub(crate) use months::months;

use wythe_assess::heat::HeatReport;
use wythe_units::UnitSystem;

use crate::figures::{conductance_figure, conductance_unit};
use crate::model::Plot;
use bars::{Bar, Bars};

/// The loss of the space by part.
pub(crate) fn loss_by_part(heat: &HeatReport, system: UnitSystem) -> Plot {
    let unit = conductance_unit(system);
    let bar = |part: &wythe_assess::heat::LossPart| Bar {
        name: part.name.to_owned(),
        parts: vec![conductance_figure(part.conductance, system)],
    };
    let mut parts: Vec<_> = heat.parts.iter().collect();
    parts.sort_by(|a, b| b.conductance.value.total_cmp(&a.conductance.value));
    let most = parts
        .first()
        .map_or(String::new(), |p| format!(" Most goes through {}: {:.0} % of it.", p.name, 100.0 * p.share.value));
    bars::plot(&Bars {
        id: format!("{}-plot-loss", heat.foundation),
        title: format!("Heat loss by part, {unit}"),
        description: format!("Bars of the heat loss through {} parts, in {unit}.{most}", parts.len()),
        kinds: Vec::new(),
        bars: parts.into_iter().map(bar).collect(),
        places: 1,
    })
}
