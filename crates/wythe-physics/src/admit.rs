//! Admission of inputs: each function passes a plain SI value through or names what is wrong.

use std::borrow::Cow;

use crate::error::{PhysicsError, Result};

/// Passes a finite value.
pub(crate) fn finite(what: impl Into<Cow<'static, str>>, value: f64) -> Result<f64> {
    if value.is_finite() { Ok(value) } else { Err(PhysicsError::NotFinite { what: what.into() }) }
}

/// Passes a finite value above zero.
pub(crate) fn positive(what: impl Into<Cow<'static, str>>, value: f64, unit: &'static str) -> Result<f64> {
    let what = what.into();
    finite(what.clone(), value)?;
    if value > 0.0 { Ok(value) } else { Err(PhysicsError::NotPositive { what, value, unit }) }
}

/// Passes a finite value within a closed range.
pub(crate) fn within(
    what: impl Into<Cow<'static, str>>,
    value: f64,
    low: f64,
    high: f64,
    unit: &'static str,
) -> Result<f64> {
    let what = what.into();
    finite(what.clone(), value)?;
    if (low..=high).contains(&value) {
        Ok(value)
    } else {
        Err(PhysicsError::OutOfRange { what, value, low, high, unit })
    }
}

/// Passes a finite value that is zero or more.
pub(crate) fn not_negative(what: impl Into<Cow<'static, str>>, value: f64, unit: &'static str) -> Result<f64> {
    within(what, value, 0.0, f64::MAX, unit)
}
