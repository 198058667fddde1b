//! The cost by phase. Goods used in several phases are shared out by what lies in place there; what a tax or an
//! allowance adds belongs to no phase and is left out.

use rust_decimal::prelude::ToPrimitive as _;
use wythe_bill::labor::labor_total;
use wythe_model::quantity::Measure;
use wythe_source::Symbol;

use super::bars::{Bar, Bars, plot};
use crate::House;
use crate::model::Plot;
use crate::words::spoken;

/// The plot; nothing where there are no prices and no labor.
pub(crate) fn cost_by_phase(house: &House<'_>) -> Option<Plot> {
    let phases: Vec<Symbol> = house.foundation.phases.iter().filter_map(|p| p.name).collect();
    let mut bars = Vec::new();
    let currency = house
        .bill
        .map(|(_, bill)| bill.goods.currency.to_string())
        .or_else(|| labor_total(house.labor).map(|m| m.currency.to_string()))?;
    for phase in phases {
        let parts = vec![goods(house, phase), labor(house, phase)];
        if parts.iter().any(|v| *v > 0.0) {
            bars.push(Bar { name: spoken(phase.as_str()), parts });
        }
    }
    if bars.is_empty() {
        return None;
    }
    let most = bars
        .iter()
        .max_by(|a, b| sum(a).total_cmp(&sum(b)))
        .map_or(String::new(), |bar| format!(" The dearest is {} with {:.0} {currency}.", bar.name, sum(bar)));
    Some(plot(&Bars {
        id: format!("{}-plot-cost", house.foundation.name),
        title: format!("Cost by phase before tax, {currency}"),
        description: format!("Bars of goods and labor of {} phases, in {currency}.{most}", bars.len()),
        kinds: vec!["goods", "labor"],
        bars,
        places: 0,
    }))
}

fn sum(bar: &Bar) -> f64 {
    bar.parts.iter().sum()
}

/// What the goods of a phase cost.
fn goods(house: &House<'_>, phase: Symbol) -> f64 {
    let Some((_, bill)) = house.bill else { return 0.0 };
    let cost_of = |line: &wythe_bill::cost::PricedLine| {
        let cost = line.cost.amount.to_f64().unwrap_or(0.0);
        cost * share(house, &line.product, phase)
    };
    bill.lines.iter().map(cost_of).sum()
}

/// The share of a product that goes into a phase.
fn share(house: &House<'_>, product: &str, phase: Symbol) -> f64 {
    let Some(item) = house.job.order.iter().find(|i| i.product.name.as_str() == product) else { return 0.0 };
    if item.phases.len() <= 1 {
        return if item.phases.first() == Some(&phase) { 1.0 } else { 0.0 };
    }
    let (mut all, mut here) = (0.0, 0.0);
    let lines = house.job.lines.iter().filter(|l| l.product.as_ref().is_some_and(|p| p.name.as_str() == product));
    for line in lines {
        let net = figure(line.net);
        all += net;
        if line.phase == Some(phase) {
            here += net;
        }
    }
    if all > 0.0 { here / all } else { 0.0 }
}

fn figure(measure: Measure) -> f64 {
    match measure {
        Measure::Area(a) => a.value,
        Measure::Length(l) => l.value,
        Measure::Volume(v) => v.value,
        Measure::Count(n) => n as f64,
    }
}

/// What the labor of a phase costs: its share of the hours charged.
fn labor(house: &House<'_>, phase: Symbol) -> f64 {
    let mut out = 0.0;
    for of_house in house.labor {
        let all: f64 = of_house.visits.iter().map(|v| v.charged.value).sum();
        let here: f64 = of_house.visits.iter().filter(|v| v.phase == phase.as_str()).map(|v| v.charged.value).sum();
        let cost = of_house.cost.and_then(|m| m.amount.to_f64()).unwrap_or(0.0);
        if all > 0.0 {
            out += cost * here / all;
        }
    }
    out
}
