//! What does another board, a higher wall or a wider gap do to price, sheets and R?

use wythe_bill::outcome::Outcome;
use wythe_model::ThermalResistance;
use wythe_units::{DisplayOptions, Quantity, format_quantity};

use super::{Answer, named};
use crate::House;
use crate::words::say;

/// A change and the house before and after it.
#[derive(Clone, Copy, Debug)]
pub struct Change<'a> {
    /// What is changed.
    pub name: &'a str,
    /// To what.
    pub value: &'a str,
    /// The house as drawn.
    pub before: &'a Outcome,
    /// The house with the change; nothing where it cannot be built so.
    pub after: Option<&'a Outcome>,
}

/// The answer for a change.
pub fn change(house: &House<'_>, change: &Change<'_>) -> Answer {
    let w = house.words;
    let head = say!(w, "ask-change", name = named(change.name), value = crate::html::clean(change.value));
    let Some(after) = change.after else { return Answer::of(vec![head, say!(w, "ask-change-not")]) };
    let before = change.before;
    let mut lines = vec![head];
    let money = |o: &Outcome| o.total.or(o.goods);
    match (money(before), money(after)) {
        (Some(a), Some(b)) => {
            let more = b.amount.checked_sub(a.amount).map_or_else(String::new, |d| format!("{d:+.2}"));
            lines.push(say!(
                w,
                "ask-change-price",
                before = format!("{:.2}", a.amount),
                after = format!("{:.2} {}", b.amount, b.currency),
                more = more
            ));
        }
        _ => lines.push(say!(w, "ask-change-no-price")),
    }
    lines.push(say!(w, "ask-change-sheets", before = before.sheets, after = after.sheets));
    if let (Some(a), Some(b)) = (before.thermal, after.thermal) {
        let r = |r: ThermalResistance| {
            Quantity::try_from(r)
                .map_or_else(|_| String::new(), |q| format_quantity(q, &DisplayOptions::new(house.system)))
        };
        lines.push(say!(w, "ask-change-r", before = r(a.r), after = r(b.r)));
        lines.push(say!(w, "ask-change-r-board", before = r(a.board), after = r(b.board)));
    }
    if let (Some(a), Some(b)) = (before.crew_days, after.crew_days) {
        lines.push(say!(w, "ask-change-days", before = format!("{:.1}", a.value), after = format!("{:.1}", b.value)));
    }
    if after.errors > before.errors {
        lines.push(say!(w, "ask-change-errors", count = after.errors - before.errors));
    }
    Answer::of(lines)
}
