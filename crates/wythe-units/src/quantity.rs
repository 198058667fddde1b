//! A number with its dimension, in coherent SI, and the arithmetic dimensions allow.

use std::cmp::Ordering;
use std::ops::Neg;

use crate::{ArithmeticError, CompoundUnit, Dim, DimOverflow, Kind, Scalar};

/// Why an operation on quantities has no answer.
#[derive(Clone, Copy, PartialEq, Eq, Debug, thiserror::Error)]
pub enum QuantityError {
    /// The two sides measure different things.
    #[error("{} cannot join {}", .left.describe(), .right.describe())]
    Dimension {
        /// Dimension of the left side.
        left: Dim,
        /// Dimension of the right side, or what was due.
        right: Dim,
    },
    /// The same dimension, but things the trade does not add.
    #[error("{} cannot join {}", .dim.describe_kind(*.left), .dim.describe_kind(*.right))]
    Kind {
        /// The dimension both have.
        dim: Dim,
        /// Kind of the left side.
        left: Option<Kind>,
        /// Kind of the right side.
        right: Option<Kind>,
    },
    /// The numbers have no answer.
    #[error(transparent)]
    Arithmetic(#[from] ArithmeticError),
    /// The dimension has no answer.
    #[error(transparent)]
    Overflow(#[from] DimOverflow),
}

/// A value in coherent SI with its dimension, and its kind if it has one.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Quantity {
    /// The number of coherent SI units (and of nominal units).
    pub value: Scalar,
    /// What it measures.
    pub dim: Dim,
    /// Keeps apart what has the same dimension and another meaning.
    pub kind: Option<Kind>,
}

impl Quantity {
    /// A value in coherent SI.
    pub const fn new(value: Scalar, dim: Dim) -> Quantity {
        Quantity { value, dim, kind: None }
    }

    /// A plain number.
    pub const fn number(value: Scalar) -> Quantity {
        Quantity::new(value, Dim::NONE)
    }

    /// A value in a unit. A degree is taken as a difference; for a reading on its scale see
    /// [`crate::absolute_from`].
    pub fn of(value: Scalar, unit: &CompoundUnit) -> Result<Quantity, ArithmeticError> {
        Ok(Quantity { value: unit.to_si(value)?, dim: unit.dim(), kind: unit.kind() })
    }

    /// The same value under a kind (or under none): the open conversion `GrossArea(x)`.
    pub fn with_kind(self, kind: Option<Kind>) -> Result<Quantity, QuantityError> {
        match kind {
            Some(kind) if kind.dim() != self.dim => Err(QuantityError::Dimension { left: self.dim, right: kind.dim() }),
            kind => Ok(Quantity { kind, ..self }),
        }
    }

    /// The sum of two of the same dimension and kind.
    pub fn checked_add(self, other: Quantity) -> Result<Quantity, QuantityError> {
        self.same_sort(other)?;
        Ok(Quantity { value: self.value.checked_add(other.value)?, ..self })
    }

    /// The difference of two of the same dimension and kind.
    pub fn checked_sub(self, other: Quantity) -> Result<Quantity, QuantityError> {
        self.same_sort(other)?;
        Ok(Quantity { value: self.value.checked_sub(other.value)?, ..self })
    }

    /// The product; drops kinds.
    pub fn checked_mul(self, other: Quantity) -> Result<Quantity, QuantityError> {
        let dim = self.dim.mul(other.dim)?;
        Ok(Quantity::new(self.value.checked_mul(other.value)?, dim))
    }

    /// The quotient; drops kinds.
    pub fn checked_div(self, other: Quantity) -> Result<Quantity, QuantityError> {
        let dim = self.dim.div(other.dim)?;
        Ok(Quantity::new(self.value.checked_div(other.value)?, dim))
    }

    /// A multiple by a plain number; keeps the kind.
    pub fn scaled(self, by: Scalar) -> Result<Quantity, ArithmeticError> {
        Ok(Quantity { value: self.value.checked_mul(by)?, ..self })
    }

    /// The whole power; drops the kind.
    pub fn checked_pow(self, exponent: i8) -> Result<Quantity, QuantityError> {
        Ok(Quantity::new(self.value.checked_pow(exponent)?, self.dim.pow(exponent)?))
    }

    /// The square root; drops the kind.
    pub fn checked_sqrt(self) -> Result<Quantity, QuantityError> {
        Ok(Quantity::new(self.value.checked_sqrt()?, self.dim.root(2)?))
    }

    /// The absolute value.
    pub fn abs(self) -> Quantity {
        Quantity { value: self.value.abs(), ..self }
    }

    /// The order of two of the same dimension and kind, by [`Scalar::compare`].
    pub fn compare(self, other: Quantity) -> Result<Ordering, QuantityError> {
        self.same_sort(other)?;
        Ok(self.value.compare(other.value))
    }

    /// How many of a unit this is. A degree counts as a difference; for a reading on its scale
    /// see [`crate::absolute_in`].
    pub fn in_unit(self, unit: &CompoundUnit) -> Result<Scalar, QuantityError> {
        if self.dim != unit.dim() {
            return Err(QuantityError::Dimension { left: self.dim, right: unit.dim() });
        }
        Ok(unit.of_si(self.value)?)
    }

    /// Whether the value is zero.
    pub fn is_zero(self) -> bool {
        self.value.is_zero()
    }

    fn same_sort(self, other: Quantity) -> Result<(), QuantityError> {
        if self.dim != other.dim {
            return Err(QuantityError::Dimension { left: self.dim, right: other.dim });
        }
        if self.kind != other.kind {
            let (left, right) = (self.kind, other.kind);
            return Err(QuantityError::Kind { dim: self.dim, left, right });
        }
        Ok(())
    }
}

impl Neg for Quantity {
    type Output = Quantity;

    fn neg(self) -> Quantity {
        Quantity { value: -self.value, ..self }
    }
}

const _: () = assert!(size_of::<Quantity>() <= 48);
