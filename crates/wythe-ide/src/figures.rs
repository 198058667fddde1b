//! Figures of the building as text in the units of the repository.

use wythe_model::quantity::Measure;
use wythe_units::{
    ArithmeticError, CompoundUnit, DisplayOptions, Quantity, UnitSystem, format_in, format_quantity, unit_named,
};

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

/// A thickness as text: of a sheet or a film in mil, where the repository shows inches.
pub(crate) fn thickness(value: uom::si::f64::Length, options: &DisplayOptions) -> String {
    let thin = value.value < 0.003;
    let mil = unit_named("mil").map(CompoundUnit::from).filter(|_| thin && options.system == UnitSystem::Us);
    let shown = mil.and_then(|unit| format_in(Quantity::try_from(value).ok()?, &unit).ok());
    shown.unwrap_or_else(|| figure(value, options))
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
