//! What stands in a field of a table: text for people, and the figure behind it for programs.

use serde::Serialize;
use serde::ser::{SerializeMap as _, Serializer};

/// A field.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Nothing.
    Empty,
    /// Text.
    Text(String),
    /// A whole number.
    Count(u64),
    /// A figure without a unit, shown with so many places.
    Number(f64, usize),
    /// A quantity: as it is shown, and its figure in the SI unit named.
    Quantity {
        /// As it is shown.
        shown: String,
        /// Its figure in SI.
        si: f64,
        /// The SI unit.
        unit: &'static str,
    },
    /// Money: an exact decimal and its currency.
    Money {
        /// The amount.
        amount: String,
        /// The currency.
        currency: String,
    },
    /// Yes or no.
    Mark(bool),
}

impl Cell {
    /// Text.
    pub fn text(text: impl Into<String>) -> Cell {
        Cell::Text(text.into())
    }

    /// As people read it.
    pub fn shown(&self) -> String {
        match self {
            Cell::Empty => String::new(),
            Cell::Text(text) => text.clone(),
            Cell::Count(n) => n.to_string(),
            Cell::Number(n, places) => format!("{n:.places$}"),
            Cell::Quantity { shown, .. } => shown.clone(),
            Cell::Money { amount, currency } => format!("{amount} {currency}"),
            Cell::Mark(true) => "yes".into(),
            Cell::Mark(false) => String::new(),
        }
    }
}

impl Serialize for Cell {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        match self {
            Cell::Empty => out.serialize_none(),
            Cell::Text(text) => out.serialize_str(text),
            Cell::Count(n) => out.serialize_u64(*n),
            // A figure that is none is `null` in JSON.
            Cell::Number(n, _) => out.serialize_f64(*n),
            Cell::Mark(mark) => out.serialize_bool(*mark),
            Cell::Quantity { shown, si, unit } => {
                let mut map = out.serialize_map(Some(3))?;
                map.serialize_entry("shown", shown)?;
                map.serialize_entry("si", si)?;
                map.serialize_entry("unit", unit)?;
                map.end()
            }
            Cell::Money { amount, currency } => {
                let mut map = out.serialize_map(Some(2))?;
                map.serialize_entry("amount", amount)?;
                map.serialize_entry("currency", currency)?;
                map.end()
            }
        }
    }
}
