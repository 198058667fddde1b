//! The order list and its cost as tables.

use rust_decimal::Decimal;
use wythe_bill::Job;
use wythe_bill::cost::{Money, PriceBook};
use wythe_bill::labor::{HouseLabor, labor_total};
use wythe_bill::order::OrderItem;
use wythe_takeoff::price::PricedBill;

use super::{Cell, Document, Shower, Table};

/// A pack as the order names it: `100 pc`, `sheet`.
pub(super) fn pack(item: &OrderItem) -> String {
    if item.pack > 1 { format!("{} {}", item.pack, item.unit) } else { item.unit.to_string() }
}

/// The order of a job, priced where there is a price list.
pub fn order(
    job: &Job,
    priced: Option<(&PriceBook, &PricedBill)>,
    labor: &[HouseLabor],
    show: &Shower<'_>,
) -> Document {
    let names: Vec<&str> = job.houses.iter().map(|f| f.name.as_str()).collect();
    let mut document = Document::new("order", format!("Order for {}", names.join(", ")));
    document.complete = job.is_complete() && priced.is_some_and(|(_, bill)| bill.is_complete());
    if !document.complete {
        document.remarks.push("INCOMPLETE: something is not counted or has no price; see the findings.".into());
    }
    if let Some((book, _)) = priced {
        let dated = book.sheet.dated.map_or(String::new(), |d| format!(", prices of {d}"));
        document.remarks.push(format!("Prices: {} ({}{dated}).", book.sheet.name, book.file));
    }
    document.remarks.push(
        "Order quantities only: nothing here sizes structure. Check the list against what is on site before ordering."
            .into(),
    );
    let mut table = Table::new(
        "order",
        "",
        &[
            ("product", "product"),
            ("packs", ">order"),
            ("pack", "pack"),
            ("units", ">units"),
            ("needed", ">needed"),
            ("left", ">left"),
            ("least", ">least"),
            ("vendor", "vendor"),
            ("price", ">price"),
            ("cost", ">cost"),
            ("of_it_waste", ">of it waste"),
            ("list_line", ">list line"),
            ("phases", "used in"),
        ],
    );
    for item in &job.order {
        let line = priced.and_then(|(_, bill)| bill.lines.iter().find(|l| l.product == item.product.name.as_str()));
        let packs = line.map_or(item.packs(), |l| l.packs);
        let name = line.map_or_else(|| pack(item), |l| named(l.units, l.packs, item));
        let phases: Vec<&str> = item.phases.iter().map(|p| p.as_str()).collect();
        table.row(vec![
            Cell::text(item.product.name.as_str()),
            Cell::Count(packs),
            Cell::text(name),
            Cell::Count(line.map_or(item.units, |l| l.units)),
            Cell::Number(item.needed.value, 2),
            Cell::Number((line.map_or(item.packs() * item.pack, |l| l.units) as f64 - item.needed.value).max(0.0), 2),
            item.bound.map_or(Cell::Empty, Cell::Count),
            line.map_or(Cell::Empty, |l| Cell::text(&l.vendor)),
            line.map_or(Cell::Empty, |l| show.money(l.price)),
            line.map_or(Cell::Empty, |l| show.money(l.cost)),
            line.map_or(Cell::Empty, |l| show.money(l.waste)),
            line.map_or(Cell::Empty, |l| Cell::Count(l.list_line)),
            Cell::text(phases.join(", ")),
        ]);
    }
    document.tables.push(table);
    if let Some((book, bill)) = priced {
        document.tables.push(totals(book, bill, labor, show));
    }
    document
}

/// Units in one pack of what is sold.
fn named(units: u64, packs: u64, item: &OrderItem) -> String {
    match units.checked_div(packs) {
        Some(1) | None => item.unit.to_string(),
        Some(each) => format!("{each} {}", item.unit),
    }
}

fn totals(book: &PriceBook, bill: &PricedBill, labor: &[HouseLabor], show: &Shower<'_>) -> Table {
    let mut table = Table::new("totals", "Totals", &[("what", ""), ("amount", ">amount")]);
    let percent = book.sheet.tax.checked_mul(Decimal::ONE_HUNDRED).unwrap_or_default().normalize();
    let mut row = |what: String, money: Money| table.row(vec![Cell::text(what), show.money(money)]);
    row("goods".into(), bill.goods);
    row("of it waste".into(), bill.waste);
    if !bill.allowances.amount.is_zero() {
        row("allowances".into(), bill.allowances);
    }
    row(format!("tax {percent} %"), bill.tax);
    row("goods with tax".into(), bill.total);
    if let Some(cost) = labor_total(labor) {
        row("labor".into(), cost);
        if let Ok(all) = bill.total.plus(cost) {
            row("total".into(), all);
        }
    }
    table
}
