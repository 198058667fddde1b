//! What was assumed and what the result is not, as tables at the end of a document.

use wythe_assess::{Assumption, Assumptions};

use crate::tables::{Cell, Document, Table};

/// Adds the assumptions and cautions of all houses, each once.
pub(super) fn add<'a>(
    document: &mut Document,
    assumptions: impl Iterator<Item = &'a Assumptions>,
    cautions: impl Iterator<Item = &'a &'static str>,
) {
    let mut all: Vec<&Assumption> = Vec::new();
    for assumption in assumptions.flat_map(Assumptions::iter) {
        if !all.contains(&assumption) {
            all.push(assumption);
        }
    }
    let mut table = Table::new(
        "assumptions",
        "Assumed, where the plans say nothing",
        &[("what", "what"), ("value", "value"), ("source", "source")],
    );
    for assumption in all {
        table.row(vec![
            Cell::text(assumption.what),
            Cell::text(assumption.value.as_ref()),
            Cell::text(assumption.source),
        ]);
    }
    document.tables.push(table);
    let mut seen: Vec<&str> = Vec::new();
    let mut table = Table::new("cautions", "What this is not", &[("caution", "caution")]);
    for caution in cautions {
        if !seen.contains(caution) {
            seen.push(caution);
            table.row(vec![Cell::text(*caution)]);
        }
    }
    document.tables.push(table);
}

/// The name of a month, from 1.
pub(super) fn month(number: u8) -> &'static str {
    const NAMES: [&str; 12] = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
    usize::from(number).checked_sub(1).and_then(|n| NAMES.get(n)).copied().unwrap_or("")
}
