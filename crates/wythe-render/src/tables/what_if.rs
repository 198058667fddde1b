//! The outcomes of a what-if side by side, those that nothing else beats marked.

use wythe_bill::outcome::Outcome;

use super::{Cell, Document, Shower, Table};

/// One row a way: the values varied, the outcome, and whether nothing beats it. `None` is a way that cannot be
/// worked out.
pub fn what_if(
    house: &str,
    varied: &[String],
    ways: &[(Vec<String>, Option<Outcome>, bool)],
    show: &Shower<'_>,
) -> Document {
    let mut document = Document::new("what_if", format!("What if, for {house}"));
    document.complete = ways.iter().all(|w| w.1.is_some());
    document.remarks.push(
        "Marked: nothing else here is at least as good in cost, R, sheets, crew-days, moisture and errors and better in one."
            .into(),
    );
    if ways.iter().filter_map(|w| w.1.as_ref()).all(|o| o.damp.is_none()) {
        document.remarks.push("No moisture: the site names no weather, or its file cannot be used.".into());
    } else {
        document
            .remarks
            .push("Moisture: a year of the space in service. The mold index is screening, no proof.".into());
    }
    let mut table = Table::new(
        "ways",
        "",
        &[
            ("way", "way"),
            ("total", ">total"),
            ("goods", ">goods"),
            ("labor", ">labor"),
            ("sheets", ">sheets"),
            ("pieces", ">pieces"),
            ("r", ">R wall and board"),
            ("u", ">U of walls"),
            ("humidity", ">most humid day"),
            ("mold_index", ">mold index"),
            ("crew_days", ">crew-days"),
            ("errors", ">errors"),
            ("warnings", ">warnings"),
            ("unbeaten", "unbeaten"),
        ],
    );
    for (values, outcome, unbeaten) in ways {
        let way: Vec<String> = varied.iter().zip(values).map(|(name, value)| format!("{name} {value}")).collect();
        let mut cells = vec![Cell::text(way.join(", "))];
        if let Some(o) = outcome {
            let money = |m: Option<wythe_bill::cost::Money>| m.map_or(Cell::Empty, |m| show.money(m));
            cells.extend([
                money(o.total),
                money(o.goods),
                money(o.labor),
                Cell::Count(o.sheets),
                Cell::Count(o.pieces),
                o.thermal.map_or(Cell::Empty, |t| show.resistance(t.board)),
                o.thermal.map_or(Cell::Empty, |t| show.transmittance(t.u)),
                o.damp.map_or(Cell::Empty, |d| show.share(d.humidity)),
                o.damp.map_or(Cell::Empty, |d| Cell::Number(d.mold.value, 2)),
                o.crew_days.map_or(Cell::Empty, |d| Cell::Number(d.value, 2)),
                Cell::Count(o.errors as u64),
                Cell::Count(o.warnings as u64),
                Cell::Mark(*unbeaten),
            ]);
        } else {
            cells.push(Cell::text("cannot be worked out"));
        }
        table.row(cells);
    }
    document.tables.push(table);
    document
}
