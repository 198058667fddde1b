//! Dimensions, units and exact quantities, in US and SI notation.
//!
//! A [`Quantity`] is a number in coherent SI with its dimension. Numbers stay exact rationals as
//! long as they fit, so that 20 ft is 240 in and not a hair less; conversion factors are exact by
//! the definitions in NIST SP 811. Every operation is total: what has no answer is a typed error.
//!
//! May import `wythe-source` (interned names) and `uom` (compile-time typed quantities, the form
//! the physics takes). No input or output, clock or environment.
//!
//! Start at [`Scalar`] (the number), then [`Dim`] (the dimension), [`Unit`] and [`CompoundUnit`]
//! (what a value is written in), [`Quantity`], and [`DisplayOptions`] (how it is shown).

mod compound;
mod currency;
mod decimal;
mod dim;
mod dim_words;
mod display;
mod factor;
mod kind;
mod length;
mod lumber;
mod nominal;
mod number;
mod preferred;
mod quantity;
mod rational;
mod rvalue;
mod scalar;
mod table;
mod temperature;
mod type_names;
mod typed;
mod unit;

pub use compound::{CompoundUnit, CompoundUnitError, UnitTerm};
pub use currency::currency_decimals;
pub use dim::{Dim, DimOverflow};
pub use display::{
    DisplayOptions, Shown, format_distinct, format_in, format_point, format_point_in, format_quantity, show, show_in,
    show_point, show_point_in,
};
pub use factor::Factor;
pub use kind::Kind;
pub use length::{LengthLiteralError, canonical_length_us, format_feet_inches, parse_length_marks};
pub use lumber::{LumberLiteralError, LumberSize, parse_lumber};
pub use nominal::Nominal;
pub use number::NumberError;
pub use preferred::{UnitSystem, preferred_unit};
pub use quantity::{Quantity, QuantityError};
pub use rvalue::{RValueError, RValueForm, parse_r_value};
pub use scalar::{ArithmeticError, Scalar, TOLERANCE};
pub use table::{all_units, unit_named};
pub use temperature::{absolute_from, absolute_in, difference_from};
pub use type_names::TYPE_NAMES;
pub use typed::{ArealThermalResistance, MassFlow, Permeance, ThermalTransmittance, VaporPermeability};
pub use unit::Unit;
