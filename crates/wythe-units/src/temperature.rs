//! Temperatures as readings on a scale and as differences.

use crate::{CompoundUnit, Dim, Quantity, QuantityError, Scalar, Unit};

/// A reading on the scale of a unit, as an absolute temperature in kelvin: 32 °F is 273.15 K.
/// A unit without a zero of its own (K) reads from absolute zero already.
pub fn absolute_from(unit: &Unit, reading: Scalar) -> Result<Quantity, QuantityError> {
    expect_temperature(unit.dim)?;
    let shifted = reading.checked_add(unit.offset.unwrap_or(Scalar::ZERO))?;
    Ok(Quantity::new(unit.factor.to_si(shifted)?, Dim::TEMPERATURE))
}

/// A number of degrees as a temperature difference: 9 °F is 5 K.
pub fn difference_from(unit: &Unit, degrees: Scalar) -> Result<Quantity, QuantityError> {
    expect_temperature(unit.dim)?;
    Ok(Quantity::new(unit.factor.to_si(degrees)?, Dim::TEMPERATURE))
}

/// The reading, on the scale of a unit, of an absolute temperature: 273.15 K reads 32 °F.
pub fn absolute_in(point: Quantity, unit: &CompoundUnit) -> Result<Scalar, QuantityError> {
    let shifted = point.in_unit(unit)?;
    Ok(shifted.checked_sub(unit.offset().unwrap_or(Scalar::ZERO))?)
}

fn expect_temperature(dim: Dim) -> Result<(), QuantityError> {
    if dim == Dim::TEMPERATURE { Ok(()) } else { Err(QuantityError::Dimension { left: dim, right: Dim::TEMPERATURE }) }
}
