//! Tests of plain numbers that also refuse infinities and what is not a number.

/// Over nought and finite.
pub(crate) fn positive(v: f64) -> bool {
    v > 0.0 && v.is_finite()
}

/// Nought or more and finite.
pub(crate) fn not_negative(v: f64) -> bool {
    v >= 0.0 && v.is_finite()
}
