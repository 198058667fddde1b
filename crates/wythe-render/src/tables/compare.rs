//! The differences of two revisions as tables, each with the line of source that made it.

use wythe_bill::compare::{Amount, Figure, Group, Subject};
use wythe_model::quantity::Measure;
use wythe_takeoff::compare::Change;

use super::{Cell, Document, Shower, Table};

/// The differences. `because` gives for a change the lines that made it, each with its place.
pub fn comparison(
    title: String,
    changes: &[Change<Subject, Figure>],
    show: &Shower<'_>,
    because: impl Fn(&Change<Subject, Figure>) -> Vec<String>,
) -> Document {
    let mut document = Document::new("comparison", title);
    if changes.is_empty() {
        document.remarks.push("Nothing differs.".into());
    }
    let groups = [
        (Group::Cost, "cost", "Cost"),
        (Group::Order, "order", "Order"),
        (Group::Quantity, "quantities", "Net quantities"),
        (Group::Thermal, "walls", "Walls"),
        (Group::Finding, "findings", "Findings"),
        (Group::Schedule, "schedule", "Schedule"),
    ];
    for (group, key, title) in groups {
        let mut table = Table::new(
            key,
            title,
            &[
                ("house", "house"),
                ("what", "what"),
                ("old", ">before"),
                ("new", ">after"),
                ("difference", ">difference"),
                ("because", "because"),
            ],
        );
        for change in changes.iter().filter(|c| c.key().group == group) {
            let (old, new) = match change {
                Change::Added { new, .. } => (None, Some(&new.amount)),
                Change::Removed { old, .. } => (Some(&old.amount), None),
                Change::Changed { old, new, .. } => (Some(&old.amount), Some(&new.amount)),
            };
            table.row(vec![
                Cell::text(&change.key().house),
                Cell::text(&change.key().name),
                old.map_or(Cell::Empty, |a| amount(a, show)),
                new.map_or(Cell::Empty, |a| amount(a, show)),
                difference(old, new, show),
                Cell::text(because(change).join("; ")),
            ]);
        }
        document.tables.push(table);
    }
    document
}

/// A figure as a field.
pub(super) fn amount(amount: &Amount, show: &Shower<'_>) -> Cell {
    match amount {
        Amount::Measure(m) => show.measure(*m),
        Amount::Units(n, unit) => Cell::text(format!("{n} {unit}")),
        Amount::Money(m) => show.money(*m),
        Amount::Transmittance(u) => show.transmittance(*u),
        Amount::Resistance(r) => show.resistance(*r),
        Amount::Days(d) => Cell::Number(d.value, 2),
        Amount::Date(d) => Cell::text(d.to_string()),
        Amount::Found(severity) => Cell::text(severity.word()),
    }
}

/// What came on top, with its sign.
fn difference(old: Option<&Amount>, new: Option<&Amount>, show: &Shower<'_>) -> Cell {
    let signed = |more: bool, cell: Cell| Cell::text(format!("{}{}", if more { "+" } else { "-" }, cell.shown()));
    match (old, new) {
        (Some(Amount::Measure(a)), Some(Amount::Measure(b))) => match (a, b) {
            (Measure::Area(a), Measure::Area(b)) => signed(b > a, show.area((*b - *a).abs())),
            (Measure::Length(a), Measure::Length(b)) => signed(b > a, show.length((*b - *a).abs())),
            (Measure::Volume(a), Measure::Volume(b)) => signed(b > a, show.volume((*b - *a).abs())),
            (Measure::Count(a), Measure::Count(b)) => signed(b > a, Cell::Count(a.abs_diff(*b))),
            _ => Cell::Empty,
        },
        (Some(Amount::Units(a, _)), Some(Amount::Units(b, _))) => signed(b > a, Cell::Count(a.abs_diff(*b))),
        (Some(Amount::Money(a)), Some(Amount::Money(b))) if a.currency == b.currency => {
            let more = b.amount.checked_sub(a.amount).unwrap_or_default();
            let sign = if more.is_sign_negative() { "" } else { "+" };
            Cell::text(format!("{sign}{more:.2} {}", b.currency))
        }
        (Some(Amount::Days(a)), Some(Amount::Days(b))) => {
            let more = b.value - a.value;
            Cell::text(format!("{}{more:.2}", if more < 0.0 { "" } else { "+" }))
        }
        (Some(Amount::Date(a)), Some(Amount::Date(b))) => {
            let days = a.until(*b).map(|span| span.get_days()).unwrap_or(0);
            Cell::text(format!("{}{days} days", if days < 0 { "" } else { "+" }))
        }
        (None, Some(_)) => Cell::text("new"),
        (Some(_), None) => Cell::text("gone"),
        _ => Cell::Empty,
    }
}
