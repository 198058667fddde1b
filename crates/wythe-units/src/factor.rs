//! Conversion factors: exact rationals in 128-bit parts, wide enough for every unit but the
//! degree of arc.

use num_integer::Integer;
use num_rational::Ratio;

use crate::{ArithmeticError, Scalar};

/// How many coherent SI units one unit is.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Factor {
    /// An exact rational, positive, in lowest terms.
    Exact(Ratio<i128>),
    /// A positive float: the degree of arc, or a product too large to stay exact.
    Approx(f64),
}

impl Factor {
    /// One.
    pub const ONE: Factor = Factor::Exact(Ratio::new_raw(1, 1));

    /// The exact positive factor `numerator / denominator`; used to build tables.
    pub(crate) fn exact(numerator: i128, denominator: i128) -> Factor {
        let divisor = numerator.gcd(&denominator).max(1);
        Factor::Exact(Ratio::new_raw(numerator / divisor, denominator.max(1) / divisor))
    }

    /// The factor a number stands for, if it is positive.
    pub fn from_scalar(value: Scalar) -> Option<Factor> {
        if value.signum() <= 0 {
            return None;
        }
        Some(match value.as_ratio() {
            Some((n, d)) => Factor::exact(i128::from(n), i128::from(d)),
            None => Factor::Approx(value.to_f64()),
        })
    }

    /// The nearest float.
    pub fn to_f64(self) -> f64 {
        match self {
            Factor::Exact(r) => *r.numer() as f64 / *r.denom() as f64,
            Factor::Approx(x) => x,
        }
    }

    /// The factor as a number, exact when it fits in 64-bit parts.
    pub fn to_scalar(self) -> Scalar {
        match self {
            Factor::Exact(r) => Scalar::from_i128(*r.numer(), *r.denom()).unwrap_or(Scalar::Approx(self.to_f64())),
            Factor::Approx(x) => Scalar::Approx(x),
        }
    }

    /// The product; exact while it fits.
    pub fn times(self, other: Factor) -> Factor {
        if let (Factor::Exact(a), Factor::Exact(b)) = (self, other)
            && let Some(product) = product(a, b)
        {
            return Factor::Exact(product);
        }
        Factor::Approx(self.to_f64() * other.to_f64())
    }

    /// The reciprocal.
    pub fn recip(self) -> Factor {
        match self {
            Factor::Exact(r) => Factor::Exact(Ratio::new_raw(*r.denom(), *r.numer())),
            Factor::Approx(x) => Factor::Approx(1.0 / x),
        }
    }

    /// A value in this unit, in coherent SI. Exact when value and factor are and the answer fits;
    /// a factor with longer parts (the perm) gives a float, as its products never fit.
    pub fn to_si(self, value: Scalar) -> Result<Scalar, ArithmeticError> {
        if value.is_zero() {
            return Ok(Scalar::ZERO);
        }
        if let (Factor::Exact(factor), Scalar::Exact(_)) = (self, value)
            && let (Ok(above), Ok(below)) = (i64::try_from(*factor.numer()), i64::try_from(*factor.denom()))
        {
            return value.checked_mul(Scalar::Exact(Ratio::new_raw(above, below)));
        }
        Scalar::approx(value.to_f64() * self.to_f64())
    }

    /// A value in coherent SI, in this unit.
    pub fn of_si(self, value: Scalar) -> Result<Scalar, ArithmeticError> {
        match (self, value) {
            (Factor::Exact(_), Scalar::Exact(_)) => self.recip().to_si(value),
            _ => Scalar::approx(value.to_f64() / self.to_f64()),
        }
    }
}

fn product(a: Ratio<i128>, b: Ratio<i128>) -> Option<Ratio<i128>> {
    let left = a.numer().gcd(b.denom()).max(1);
    let right = b.numer().gcd(a.denom()).max(1);
    let n = (a.numer() / left).checked_mul(b.numer() / right)?;
    let d = (a.denom() / right).checked_mul(b.denom() / left)?;
    Some(Ratio::new_raw(n, d))
}
