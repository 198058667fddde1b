//! Figures of the building as text in the units of the repository.

use wythe_model::quantity::Measure;
use wythe_units::{ArithmeticError, DisplayOptions, Quantity, UnitSystem, format_quantity};

/// A typed figure as text; a dash where it is no number.
pub(crate) fn figure<T>(value: T, options: &DisplayOptions) -> String
where
    Quantity: TryFrom<T, Error = ArithmeticError>,
{
    Quantity::try_from(value).map_or_else(|_| "–".into(), |q| format_quantity(q, options))
}

/// A measured amount as text.
pub(crate) fn measure(amount: Measure, options: &DisplayOptions) -> String {
    match amount {
        Measure::Area(area) => figure(area, options),
        Measure::Length(length) => figure(length, options),
        Measure::Count(count) => count.to_string(),
        Measure::Volume(volume) => figure(volume, options),
    }
}

/// A share as a whole percentage.
pub(crate) fn percent(share: f64) -> String {
    format!("{:.0} %", share * 100.0)
}

/// The options of the other system of units.
pub(crate) fn other_system(options: &DisplayOptions) -> DisplayOptions {
    DisplayOptions::new(match options.system {
        UnitSystem::Us => UnitSystem::Si,
        UnitSystem::Si => UnitSystem::Us,
    })
}
