//! The number inside a quantity: an exact rational while it fits in 64-bit parts, else a finite
//! binary float. Every operation is total.

use std::cmp::Ordering;
use std::fmt;
use std::hash::{Hash, Hasher};
use std::ops::Neg;

use num_rational::Ratio;
use num_traits::ToPrimitive;

use crate::rational::{add_exact, cmp_exact, gcd_wide, mul_exact, positive_denominator};

/// Two numbers of which at least one is approximate are equal when they differ by no more than
/// this share of the larger. Two exact numbers are compared exactly.
pub const TOLERANCE: f64 = 1e-9;

/// A difference no larger than this share of its operands is rounding error of binary floats
/// (a few units in the last place) and is taken as zero.
const CANCELLATION: f64 = 8.0 * f64::EPSILON;

/// Whole numbers up to here are exact in a binary float.
const F64_WHOLE: u64 = 1 << 53;

/// Why an operation on numbers has no answer.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, thiserror::Error)]
pub enum ArithmeticError {
    /// The divisor is zero.
    #[error("division by zero")]
    DivisionByZero,
    /// The answer is too large for a number, or is no number at all.
    #[error("the result is too large to be a number")]
    NotFinite,
    /// An even root of a negative number.
    #[error("a negative number has no such root")]
    NegativeRoot,
}

/// A number: exact while it fits, finite always.
///
/// `==` and hashing are structural (the same number held exactly and approximately are two
/// values); the language's `==` and `<` are [`Scalar::compare`], with [`TOLERANCE`].
#[derive(Clone, Copy)]
pub enum Scalar {
    /// An exact rational in lowest terms with a positive denominator.
    Exact(Ratio<i64>),
    /// A finite binary float, once an exact result no longer fits.
    Approx(f64),
}

impl Scalar {
    /// Zero, exactly.
    pub const ZERO: Scalar = Scalar::Exact(Ratio::new_raw(0, 1));
    /// One, exactly.
    pub const ONE: Scalar = Scalar::Exact(Ratio::new_raw(1, 1));

    /// A whole number.
    pub const fn int(value: i64) -> Scalar {
        Scalar::Exact(Ratio::new_raw(value, 1))
    }

    /// The exact fraction `numerator / denominator`.
    pub fn ratio(numerator: i64, denominator: i64) -> Result<Scalar, ArithmeticError> {
        Scalar::from_i128(i128::from(numerator), i128::from(denominator))
    }

    /// A finite float; what is not finite is refused.
    pub fn approx(value: f64) -> Result<Scalar, ArithmeticError> {
        if value.is_finite() {
            // Adding zero turns -0 into 0, so that equal numbers have equal bits.
            Ok(Scalar::Approx(value + 0.0))
        } else {
            Err(ArithmeticError::NotFinite)
        }
    }

    /// The fraction in lowest terms, exact when both parts fit in 64 bits.
    pub(crate) fn from_i128(numerator: i128, denominator: i128) -> Result<Scalar, ArithmeticError> {
        if denominator == 0 {
            return Err(ArithmeticError::DivisionByZero);
        }
        let divisor = gcd_wide(numerator.unsigned_abs(), denominator.unsigned_abs());
        let small = |part: i128| {
            // The divisor is at most the larger part; one that does not fit back into i128 is
            // 2^127 itself, and then the float below serves.
            let divisor = i128::try_from(divisor).ok().filter(|&d| d != 0)?;
            i64::try_from(part / divisor).ok()
        };
        if let (Some(n), Some(d)) = (small(numerator), small(denominator))
            && let Some(exact) = positive_denominator(n, d)
        {
            return Ok(Scalar::Exact(exact));
        }
        Scalar::approx(numerator as f64 / denominator as f64)
    }

    /// Whether the number is held exactly.
    pub fn is_exact(self) -> bool {
        matches!(self, Scalar::Exact(_))
    }

    /// Numerator and denominator of an exact number.
    pub fn as_ratio(self) -> Option<(i64, i64)> {
        match self {
            Scalar::Exact(r) => Some((*r.numer(), *r.denom())),
            Scalar::Approx(_) => None,
        }
    }

    /// The whole number this is, if it is one and fits (a float counts when it is whole).
    pub fn as_whole(self) -> Option<i64> {
        match self {
            Scalar::Exact(r) => (*r.denom() == 1).then_some(*r.numer()),
            Scalar::Approx(x) => (x.fract().abs() <= 0.0 && x.abs() < F64_WHOLE as f64).then_some(x as i64),
        }
    }

    /// The nearest float; correctly rounded, so that it keeps the order of exact numbers.
    pub fn to_f64(self) -> f64 {
        match self {
            Scalar::Approx(x) => x,
            Scalar::Exact(r) => {
                let (n, d) = (*r.numer(), *r.denom());
                if n.unsigned_abs() <= F64_WHOLE && d.unsigned_abs() <= F64_WHOLE {
                    n as f64 / d as f64
                } else {
                    r.to_f64().unwrap_or(n as f64 / d as f64)
                }
            }
        }
    }

    /// Whether the number is zero.
    pub fn is_zero(self) -> bool {
        match self {
            Scalar::Exact(r) => *r.numer() == 0,
            Scalar::Approx(x) => x.abs() <= 0.0,
        }
    }

    /// −1, 0 or 1.
    pub fn signum(self) -> i32 {
        match self {
            Scalar::Exact(r) => r.numer().signum() as i32,
            Scalar::Approx(x) if x > 0.0 => 1,
            Scalar::Approx(x) if x < 0.0 => -1,
            Scalar::Approx(_) => 0,
        }
    }

    /// The absolute value.
    pub fn abs(self) -> Scalar {
        if self.signum() < 0 { -self } else { self }
    }

    /// The sum.
    pub fn checked_add(self, other: Scalar) -> Result<Scalar, ArithmeticError> {
        if let (Scalar::Exact(a), Scalar::Exact(b)) = (self, other)
            && let Some(sum) = add_exact(a, b)
        {
            return Ok(Scalar::Exact(sum));
        }
        let (a, b) = (self.to_f64(), other.to_f64());
        let sum = a + b;
        if sum.abs() <= CANCELLATION * a.abs().max(b.abs()) {
            return Ok(Scalar::Approx(0.0));
        }
        Scalar::approx(sum)
    }

    /// The difference.
    pub fn checked_sub(self, other: Scalar) -> Result<Scalar, ArithmeticError> {
        self.checked_add(-other)
    }

    /// The product.
    pub fn checked_mul(self, other: Scalar) -> Result<Scalar, ArithmeticError> {
        if let (Scalar::Exact(a), Scalar::Exact(b)) = (self, other)
            && let Some(product) = mul_exact(a, b)
        {
            return Ok(Scalar::Exact(product));
        }
        Scalar::approx(self.to_f64() * other.to_f64())
    }

    /// The quotient.
    pub fn checked_div(self, other: Scalar) -> Result<Scalar, ArithmeticError> {
        if other.is_zero() {
            return Err(ArithmeticError::DivisionByZero);
        }
        if let (Scalar::Exact(a), Scalar::Exact(b)) = (self, other)
            && let Some(inverse) = positive_denominator(*b.denom(), *b.numer())
            && let Some(quotient) = mul_exact(a, inverse)
        {
            return Ok(Scalar::Exact(quotient));
        }
        Scalar::approx(self.to_f64() / other.to_f64())
    }

    /// The whole power; zero to a negative power is a division by zero.
    pub fn checked_pow(self, exponent: i8) -> Result<Scalar, ArithmeticError> {
        let mut power = Scalar::ONE;
        for _ in 0..exponent.unsigned_abs() {
            power = power.checked_mul(self)?;
        }
        if exponent < 0 { Scalar::ONE.checked_div(power) } else { Ok(power) }
    }

    /// The square root, exact for exact squares.
    pub fn checked_sqrt(self) -> Result<Scalar, ArithmeticError> {
        if self.signum() < 0 {
            return Err(ArithmeticError::NegativeRoot);
        }
        if let Some((n, d)) = self.as_ratio() {
            let (rn, rd) = (n.isqrt(), d.isqrt());
            if rn * rn == n && rd * rd == d {
                return Scalar::ratio(rn, rd);
            }
        }
        Scalar::approx(self.to_f64().sqrt())
    }

    /// The order the language sees: exact for two exact numbers, with [`TOLERANCE`] otherwise.
    pub fn compare(self, other: Scalar) -> Ordering {
        if let (Scalar::Exact(a), Scalar::Exact(b)) = (self, other) {
            return cmp_exact(a, b);
        }
        let (a, b) = (self.to_f64(), other.to_f64());
        if (a - b).abs() <= TOLERANCE * a.abs().max(b.abs()) {
            return Ordering::Equal;
        }
        a.total_cmp(&b)
    }

    /// A total order for sorting, consistent with `==`: by value, exact before approximate.
    pub fn total_cmp(self, other: Scalar) -> Ordering {
        match (self, other) {
            (Scalar::Exact(a), Scalar::Exact(b)) => cmp_exact(a, b),
            (Scalar::Approx(a), Scalar::Approx(b)) => a.total_cmp(&b),
            (a, b) => a.to_f64().total_cmp(&b.to_f64()).then(b.is_exact().cmp(&a.is_exact())),
        }
    }

    /// The nearest whole number, halves away from zero.
    pub fn round(self) -> Scalar {
        match self {
            Scalar::Exact(r) => {
                let (n, d) = (i128::from(*r.numer()), i128::from(*r.denom()));
                let twice = 2 * n.abs() + d;
                let whole = twice.div_euclid(2 * d.max(1)) * n.signum();
                Scalar::from_i128(whole, 1).unwrap_or(Scalar::ZERO)
            }
            Scalar::Approx(x) => Scalar::Approx(x.round() + 0.0),
        }
    }

    /// The largest whole number not above this one.
    pub fn floor(self) -> Scalar {
        match self {
            Scalar::Exact(r) => Scalar::int(r.numer().div_euclid((*r.denom()).max(1))),
            Scalar::Approx(x) => Scalar::Approx(snapped(x).floor() + 0.0),
        }
    }

    /// The smallest whole number not below this one: what is bought when the piece is whole.
    pub fn ceil(self) -> Scalar {
        -((-self).floor())
    }
}

/// A float within rounding error of a whole number is that number, so that 4.000000000000001
/// sheets are four.
fn snapped(x: f64) -> f64 {
    if (x - x.round()).abs() <= TOLERANCE * x.abs() { x.round() } else { x }
}

impl Neg for Scalar {
    type Output = Scalar;

    fn neg(self) -> Scalar {
        match self {
            Scalar::Exact(r) => match r.numer().checked_neg() {
                Some(n) => Scalar::Exact(Ratio::new_raw(n, *r.denom())),
                None => Scalar::Approx(-self.to_f64()),
            },
            Scalar::Approx(x) => Scalar::Approx(0.0 - x),
        }
    }
}

impl PartialEq for Scalar {
    fn eq(&self, other: &Scalar) -> bool {
        self.total_cmp(*other) == Ordering::Equal
    }
}

impl Eq for Scalar {}

impl Hash for Scalar {
    fn hash<H: Hasher>(&self, state: &mut H) {
        match self {
            Scalar::Exact(r) => (*r.numer(), *r.denom()).hash(state),
            Scalar::Approx(x) => x.to_bits().hash(state),
        }
    }
}

impl From<i64> for Scalar {
    fn from(value: i64) -> Scalar {
        Scalar::int(value)
    }
}

/// Every digit of an exact number (`81/2`), or the shortest decimal of a float.
impl fmt::Display for Scalar {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Scalar::Exact(r) => r.fmt(f),
            Scalar::Approx(x) => x.fmt(f),
        }
    }
}

impl fmt::Debug for Scalar {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Scalar::Exact(r) => write!(f, "{r}"),
            Scalar::Approx(x) => write!(f, "~{x}"),
        }
    }
}
