//! Change orders: what one revision needs more and less than another, at the prices of the new one, with days.
//!
//! The order of both revisions is counted whole, and the difference is of whole packs: goods taken back are shown as
//! they are, less than nothing.

use std::collections::BTreeMap;

use uom::si::f64::Ratio;
use wythe_source::Symbol;
use wythe_takeoff::price::PricedBill;

use crate::Job;
use crate::cost::Money;
use crate::labor::{HouseLabor, crew_days, labor_total};
use crate::timeline::Schedule;

/// A revision of a change order.
#[derive(Clone, Copy)]
pub struct Side<'a> {
    /// Its takeoff.
    pub job: &'a Job,
    /// Its bill, where there are prices.
    pub bill: Option<&'a PricedBill>,
    /// Its labor, where there are rates.
    pub labor: &'a [HouseLabor],
    /// Its schedule, where there is one.
    pub schedule: Option<&'a Schedule>,
}

/// A product of which more or less is bought.
#[derive(Clone, Debug, PartialEq)]
pub struct ItemChange {
    /// The product.
    pub product: Symbol,
    /// The pack it is bought in: `sheet`, `100 pc`.
    pub pack: String,
    /// Packs before.
    pub before: u64,
    /// Packs after.
    pub after: u64,
    /// What the difference costs, tax not counted; nothing where a price is missing.
    pub cost: Option<Money>,
}

/// A change order.
#[derive(Clone, Debug, PartialEq)]
pub struct ChangeOrder {
    /// What is bought differently, by product.
    pub items: Vec<ItemChange>,
    /// Goods with tax, after less before.
    pub goods: Option<Money>,
    /// Labor, after less before.
    pub labor: Option<Money>,
    /// Both.
    pub total: Option<Money>,
    /// Crew-days, after less before; nothing without rates.
    pub crew_days: Option<Ratio>,
    /// Days by which the last day moves, weekends included; nothing without schedules.
    pub calendar_days: Option<i32>,
}

/// The difference between two revisions.
pub fn change(old: Side<'_>, new: Side<'_>) -> ChangeOrder {
    let mut packs: BTreeMap<&'static str, (String, u64, u64)> = BTreeMap::new();
    for (side, after) in [(old, false), (new, true)] {
        for item in &side.job.order {
            let pack = if item.pack > 1 { format!("{} {}", item.pack, item.unit) } else { item.unit.to_string() };
            let line = side.bill.and_then(|b| b.lines.iter().find(|l| l.product == item.product.name.as_str()));
            let count = line.map_or(item.packs(), |l| l.packs);
            let entry = packs.entry(item.product.name.as_str()).or_insert((pack, 0, 0));
            *(if after { &mut entry.2 } else { &mut entry.1 }) = count;
        }
    }
    let cost = |side: Side<'_>, product: &str| -> Option<Option<Money>> {
        let bill = side.bill?;
        let bought = side.job.order.iter().any(|i| i.product.name.as_str() == product);
        match bill.lines.iter().find(|l| l.product == product) {
            Some(line) => Some(Some(line.cost)),
            // What is not bought at all costs nothing; what has no price is not known.
            None if bought => None,
            None => Some(None),
        }
    };
    let items =
        packs.into_iter().filter(|(_, (_, before, after))| before != after).map(|(product, (pack, before, after))| {
            let cost = cost(old, product).zip(cost(new, product)).and_then(|(a, b)| match (a, b) {
                (Some(a), Some(b)) => less(b, a),
                (None, Some(b)) => Some(b),
                (Some(a), None) => less(Money::zero(a.currency), a),
                (None, None) => None,
            });
            ItemChange { product: Symbol::new(product), pack, before, after, cost }
        });
    let goods = |side: Side<'_>| side.bill.filter(|b| b.is_complete()).map(|b| b.total);
    let goods = goods(new).zip(goods(old)).and_then(|(b, a)| less(b, a));
    let labor = labor_total(new.labor).zip(labor_total(old.labor)).and_then(|(b, a)| less(b, a));
    let worked = |side: Side<'_>| (!side.labor.is_empty()).then(|| crew_days(side.labor));
    let ends = new.schedule.zip(old.schedule);
    ChangeOrder {
        items: items.collect(),
        total: goods.zip(labor).and_then(|(g, l)| g.plus(l).ok()),
        goods,
        labor,
        crew_days: worked(new).zip(worked(old)).map(|(b, a)| b - a),
        calendar_days: ends.and_then(|(b, a)| a.end.until(b.end).ok()).map(|span| span.get_days()),
    }
}

fn less(a: Money, b: Money) -> Option<Money> {
    a.plus(Money { amount: -b.amount, currency: b.currency }).ok()
}
