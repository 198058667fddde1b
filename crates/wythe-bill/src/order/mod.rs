//! What is bought: every product in whole purchase units, with what is left over and how it was counted.

mod count;
mod item;

pub(crate) use item::unit as item_unit;
pub use item::{Basis, OrderItem};

use std::collections::BTreeMap;
use std::sync::Arc;

use wythe_findings::{Finding, codes};
use wythe_model::Product;
use wythe_model::quantity::Measure;
use wythe_source::Symbol;

use crate::{Job, TakeoffLine};

/// The order of a job, by product name, and what could not be turned into purchase units.
pub fn order(job: &Job) -> (Vec<OrderItem>, Vec<Finding>) {
    let mut by_product: BTreeMap<&'static str, (Arc<Product>, Vec<&TakeoffLine>)> = BTreeMap::new();
    for line in &job.lines {
        if let Some(product) = &line.product {
            by_product.entry(product.name.as_str()).or_insert_with(|| (product.clone(), Vec::new())).1.push(line);
        }
    }
    let (mut items, mut findings) = (Vec::new(), Vec::new());
    for (product, lines) in by_product.into_values() {
        let waste = job.terms.waste_of(product.class);
        let net = totals(&lines);
        let gross = net.iter().map(|m| item::scaled(*m, waste)).collect();
        match count::count(job, &product, &lines) {
            Ok(counted) => items.push(OrderItem {
                unit: item::unit(&product, job.terms.metric),
                pack: product.pack.map_or(1, |(_, n)| u64::from(n.max(1))),
                net,
                gross,
                phases: phases(job, &lines),
                product,
                basis: counted.basis,
                units: counted.units,
                needed: counted.needed,
                bound: counted.bound,
                waste: counted.waste,
                wet_film: counted.wet_film,
            }),
            Err(lack) => findings.push(
                Finding::new(codes::PURCHASE_UNKNOWN, product.origin, format!("`{}` cannot be ordered", product.name))
                    .label(lack)
                    .mend("say in the product how it is sold"),
            ),
        }
    }
    (items, findings)
}

/// What must still be had for what is left of a job: the units of the whole order in the share that is left, whole
/// units up. Cut lists and layouts are those of the whole job, so that an offcut on hand still serves.
pub fn left(whole: &Job, rest: &Job) -> Vec<OrderItem> {
    let mut out = Vec::new();
    for item in &whole.order {
        let lines: Vec<&TakeoffLine> =
            rest.lines.iter().filter(|l| l.product.as_ref().is_some_and(|p| p.name == item.product.name)).collect();
        let net = totals(&lines);
        let share = item
            .net
            .iter()
            .zip(&net)
            .filter_map(|(all, left)| item::share(*left, *all))
            .fold(0.0_f64, f64::max)
            .clamp(0.0, 1.0);
        if net.is_empty() || share <= 0.0 {
            continue;
        }
        let needed = item.needed * share;
        let units = (needed.value - 1e-9).ceil().max(0.0);
        let waste = whole.terms.waste_of(item.product.class);
        out.push(OrderItem {
            units: if units.is_finite() { (units as u64).min(item.units) } else { item.units },
            needed,
            gross: net.iter().map(|m| item::scaled(*m, waste)).collect(),
            net,
            phases: phases(rest, &lines),
            bound: None,
            ..item.clone()
        });
    }
    out
}

/// Sums by sort of measure.
pub(crate) fn totals(lines: &[&TakeoffLine]) -> Vec<Measure> {
    let mut out: Vec<Measure> = Vec::new();
    for line in lines {
        match out.iter_mut().find_map(|m| m.plus(line.net).map(|sum| (m, sum))) {
            Some((m, sum)) => *m = sum,
            None => out.push(line.net),
        }
    }
    out
}

/// The phases the lines belong to, in the order of work of their houses.
fn phases(job: &Job, lines: &[&TakeoffLine]) -> Vec<Symbol> {
    let mut out: Vec<Symbol> = Vec::new();
    for f in &job.houses {
        for phase in f.phases.iter().filter_map(|p| p.name) {
            if !out.contains(&phase) && lines.iter().any(|l| l.phase == Some(phase)) {
                out.push(phase);
            }
        }
    }
    out
}
