//! A change order as tables: what is bought differently, price, days, the lines that changed, and where to sign.

use wythe_bill::change::ChangeOrder;

use super::bid::signatures;
use super::{Cell, Document, Shower, Table};

/// A change order; `because` are the changed lines of the text.
pub fn change_order(title: String, order: &ChangeOrder, because: &[String], show: &Shower<'_>) -> Document {
    let mut document = Document::new("change_order", title);
    document.complete = order.total.is_some();
    if !document.complete {
        document
            .remarks
            .push("INCOMPLETE: a price or the cost of an hour is missing; the difference is not whole.".into());
    }
    document
        .remarks
        .push("The difference between two orders counted whole, in whole packs. Nothing here sizes structure.".into());
    let mut items = Table::new(
        "items",
        "Goods",
        &[
            ("product", "product"),
            ("pack", "pack"),
            ("before", ">before"),
            ("after", ">after"),
            ("difference", ">difference"),
            ("cost", ">cost"),
        ],
    );
    for item in &order.items {
        items.row(vec![
            Cell::text(item.product.as_str()),
            Cell::text(&item.pack),
            Cell::Count(item.before),
            Cell::Count(item.after),
            Cell::Number(item.after as f64 - item.before as f64, 0),
            item.cost.map_or(Cell::Empty, |m| show.money(m)),
        ]);
    }
    document.tables.push(items);
    let mut sums = Table::new("sums", "Price and days", &[("what", ""), ("difference", ">difference")]);
    let money = |m: Option<_>| m.map_or(Cell::text("not known"), |m| show.money(m));
    sums.row(vec![Cell::text("goods with tax"), money(order.goods)]);
    sums.row(vec![Cell::text("labor"), money(order.labor)]);
    sums.row(vec![Cell::text("price of this change"), money(order.total)]);
    sums.row(vec![Cell::text("crew-days"), order.crew_days.map_or(Cell::Empty, |d| Cell::Number(d.value, 2))]);
    if let Some(days) = order.calendar_days {
        sums.row(vec![Cell::text("calendar days"), Cell::Number(f64::from(days), 0)]);
    }
    document.tables.push(sums);
    if !because.is_empty() {
        let mut lines = Table::new("because", "Because", &[("line", "changed line")]);
        because.iter().for_each(|l| lines.row(vec![Cell::text(l)]));
        document.tables.push(lines);
    }
    document.tables.push(signatures());
    document
}
