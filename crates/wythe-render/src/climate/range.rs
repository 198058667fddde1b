//! Moisture as a range: percentiles of the outcomes with the inputs that matter most, and what was varied.

use wythe_assess::moisture::RangeReport;

use crate::tables::{Cell, Table};

/// How many influential inputs are named.
const NAMED: usize = 3;
/// Under this rank correlation an input does not matter.
const SLIGHT: f64 = 0.15;

/// The ranges of houses as tables to put into a document.
pub fn range_tables(reports: &[RangeReport]) -> Vec<Table> {
    let mut outcomes = Table::new(
        "ranges",
        "In service, as a range",
        &[
            ("house", "house"),
            ("outcome", "outcome"),
            ("unit", "unit"),
            ("p05", ">5 %"),
            ("p50", ">middle"),
            ("p95", ">95 %"),
            ("lowest", ">lowest"),
            ("highest", ">highest"),
            ("matters", "what matters most"),
        ],
    );
    let mut inputs = Table::new(
        "varied",
        "What was varied",
        &[
            ("house", "house"),
            ("input", "input"),
            ("range", "range"),
            ("source", "source"),
            ("samples", ">samples"),
            ("seed", ">seed"),
        ],
    );
    for report in reports {
        let house = report.foundation.as_str();
        for spread in &report.outcomes {
            let strong = spread.influences.iter().filter_map(|i| Some((i.name.as_str(), i.correlation?.value)));
            let named: Vec<String> = strong
                .filter(|(_, c)| c.abs() >= SLIGHT)
                .take(NAMED)
                .map(|(name, c)| format!("{name} ({c:+.2})"))
                .collect();
            // Nought has no sign.
            let number = |value: f64| Cell::Number(value + 0.0, if value.abs() >= 100.0 { 0 } else { 2 });
            table_row(
                &mut outcomes,
                house,
                spread.name,
                spread.unit,
                &named,
                [
                    number(spread.p05),
                    number(spread.p50),
                    number(spread.p95),
                    number(spread.lowest),
                    number(spread.highest),
                ],
            );
        }
        for input in &report.inputs {
            inputs.row(vec![
                Cell::text(house),
                Cell::text(input.name),
                Cell::text(input.range.clone()),
                Cell::text(input.source),
                Cell::Count(report.plan.samples as u64),
                Cell::Count(report.plan.seed),
            ]);
        }
    }
    vec![outcomes, inputs]
}

fn table_row(table: &mut Table, house: &str, name: &str, unit: &str, named: &[String], figures: [Cell; 5]) {
    let mut row = vec![Cell::text(house), Cell::text(name), Cell::text(unit)];
    row.extend(figures);
    row.push(Cell::text(named.join(", ")));
    table.row(row);
}
