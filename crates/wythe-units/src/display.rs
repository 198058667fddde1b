//! Quantities as text: in the preferred unit of their dimension, or in a given one.

use std::cmp::Ordering;

use crate::decimal::{Decimal, MAX_PLACES, decimal, mixed_fraction, places_for};
use crate::preferred::{places_of, preferred_unit};
use crate::{
    CompoundUnit, Dim, Kind, Quantity, QuantityError, RValueForm, Scalar, UnitSystem, absolute_in, currency_decimals,
    format_feet_inches, unit_named,
};

/// How quantities are shown.
#[derive(Clone, Debug)]
pub struct DisplayOptions {
    /// The system of units.
    pub system: UnitSystem,
    /// Lengths in the US system are shown to the nearest part of an inch: 16 for sixteenths.
    pub inch_parts: u32,
    /// Units that replace the preferred ones, each for its dimension and a kind.
    preferred: Vec<(Option<Kind>, CompoundUnit)>,
}

impl Default for DisplayOptions {
    fn default() -> DisplayOptions {
        DisplayOptions::new(UnitSystem::Us)
    }
}

impl DisplayOptions {
    /// The preferred units of a system.
    pub fn new(system: UnitSystem) -> DisplayOptions {
        DisplayOptions { system, inch_parts: 16, preferred: Vec::new() }
    }

    /// Shows quantities of the unit's dimension, and of this kind, in this unit.
    pub fn prefer(&mut self, kind: Option<Kind>, unit: CompoundUnit) {
        self.preferred.retain(|(of, old)| (*of, old.dim()) != (kind, unit.dim()));
        self.preferred.push((kind, unit));
    }

    fn preference(&self, dim: Dim, kind: Option<Kind>) -> Option<&CompoundUnit> {
        let wanted = |of: Option<Kind>| {
            let mut rows = self.preferred.iter();
            rows.find(|(kind, unit)| unit.dim() == dim && *kind == of).map(|(_, unit)| unit)
        };
        wanted(kind).or_else(|| wanted(None))
    }
}

/// A quantity as text.
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
pub struct Shown {
    /// The text.
    pub text: String,
    /// Whether the text stands for another value than the quantity's (more than the declared
    /// tolerance away): the exact one is then worth showing on demand.
    pub is_rounded: bool,
}

/// How much finer than usual to show.
type Detail = u8;

/// A quantity in the preferred unit of its dimension. A temperature is taken as a difference; see
/// [`show_point`].
pub fn show(quantity: Quantity, options: &DisplayOptions) -> Shown {
    show_detailed(quantity, options, 0)
}

/// The text of [`show`].
pub fn format_quantity(quantity: Quantity, options: &DisplayOptions) -> String {
    show(quantity, options).text
}

/// An absolute temperature as a reading in °F or °C; other points (elevations) as [`show`].
pub fn show_point(quantity: Quantity, options: &DisplayOptions) -> Shown {
    if quantity.dim != Dim::TEMPERATURE {
        return show(quantity, options);
    }
    let preferred = options.preference(quantity.dim, None).filter(|unit| unit.offset().is_some());
    let name = if options.system == UnitSystem::Us { "°F" } else { "°C" };
    let usual = unit_named(name).map(CompoundUnit::from);
    let shown = preferred.or(usual.as_ref()).and_then(|unit| show_point_in(quantity, unit).ok());
    shown.unwrap_or_else(|| show(quantity, options))
}

/// The text of [`show_point`].
pub fn format_point(quantity: Quantity, options: &DisplayOptions) -> String {
    show_point(quantity, options).text
}

/// A quantity in a given unit. A degree counts as a difference; see [`show_point_in`].
pub fn show_in(quantity: Quantity, unit: &CompoundUnit) -> Result<Shown, QuantityError> {
    let value = quantity.in_unit(unit)?;
    Ok(value_in(value, unit, places_of(unit), 0))
}

/// The text of [`show_in`].
pub fn format_in(quantity: Quantity, unit: &CompoundUnit) -> Result<String, QuantityError> {
    Ok(show_in(quantity, unit)?.text)
}

/// A point in a given unit: an absolute temperature as its reading, anything else as [`show_in`].
pub fn show_point_in(quantity: Quantity, unit: &CompoundUnit) -> Result<Shown, QuantityError> {
    let value = absolute_in(quantity, unit)?;
    Ok(value_in(value, unit, places_of(unit), 0))
}

/// The text of [`show_point_in`].
pub fn format_point_in(quantity: Quantity, unit: &CompoundUnit) -> Result<String, QuantityError> {
    Ok(show_point_in(quantity, unit)?.text)
}

/// Two quantities to be set against each other, such as found and due: shown finer than usual
/// where they differ but would read the same.
pub fn format_distinct(a: Quantity, b: Quantity, options: &DisplayOptions) -> (String, String) {
    let differ = a.compare(b).is_ok_and(|order| order != Ordering::Equal);
    let mut texts = (show(a, options).text, show(b, options).text);
    let mut detail = 1;
    while differ && texts.0 == texts.1 && detail <= MAX_PLACES {
        texts = (show_detailed(a, options, detail).text, show_detailed(b, options, detail).text);
        detail += 1;
    }
    texts
}

fn show_detailed(quantity: Quantity, options: &DisplayOptions, detail: Detail) -> Shown {
    let Quantity { value, dim, kind } = quantity;
    if let Some(unit) = options.preference(dim, kind)
        && let Ok(value) = unit.of_si(value)
    {
        return value_in(value, unit, places_of(unit), detail);
    }
    if dim == Dim::LENGTH && options.system == UnitSystem::Us {
        let parts = options.inch_parts.checked_shl(u32::from(detail)).filter(|&p| p <= 256);
        if let Some((text, is_rounded)) = parts.and_then(|p| format_feet_inches(value, p)) {
            return Shown { text, is_rounded };
        }
    }
    if value.signum() >= 0
        && let Some(form) = thermal_form(dim, options.system)
        && let Ok(number) = form.factor().of_si(value)
    {
        let shown = number_text(number, 2, 0, detail);
        return Shown { text: format!("{}-{}", form.prefix(), shown.text), is_rounded: shown.rounded };
    }
    match preferred_unit(dim, kind, options.system) {
        Some((unit, places)) => match unit.of_si(value) {
            Ok(value) => value_in(value, &unit, places, detail),
            Err(_) => bare(value, detail),
        },
        None => bare(value, detail),
    }
}

/// A plain number, or one whose unit cannot be written.
fn bare(value: Scalar, detail: Detail) -> Shown {
    let shown = number_text(value, 4, 0, detail);
    Shown { text: shown.text, is_rounded: shown.rounded }
}

fn thermal_form(dim: Dim, system: UnitSystem) -> Option<RValueForm> {
    match (dim, system) {
        (Dim::AREAL_RESISTANCE, UnitSystem::Us) => Some(RValueForm::R),
        (Dim::AREAL_RESISTANCE, UnitSystem::Si) => Some(RValueForm::Rsi),
        (Dim::TRANSMITTANCE, UnitSystem::Us) => Some(RValueForm::U),
        _ => None,
    }
}

fn value_in(value: Scalar, unit: &CompoundUnit, places: u8, detail: Detail) -> Shown {
    if unit.text() == "in"
        && let Some(text) = fraction_of_inch(value)
    {
        return Shown { text, is_rounded: false };
    }
    let shown = match unit.dim().as_money() {
        Some(currency) => {
            let digits = currency_decimals(currency);
            decimal(value, digits.saturating_add(detail), digits)
        }
        None => number_text(value, places, 0, detail),
    };
    Shown { text: format!("{} {}", shown.text, unit.text()), is_rounded: shown.rounded }
}

fn number_text(value: Scalar, places: u8, least: u8, detail: Detail) -> Decimal {
    decimal(value, places_for(value, places).saturating_add(detail), least)
}

/// `40-1/2 in` for what a tape shows exactly.
fn fraction_of_inch(value: Scalar) -> Option<String> {
    let (n, d) = value.as_ratio()?;
    let sign = if n < 0 { "-" } else { "" };
    let on_tape = d <= 64 && d.count_ones() == 1;
    on_tape.then(|| format!("{sign}{} in", mixed_fraction(n.checked_abs().unwrap_or(n), d)))
}
