//! One unit: what it measures and how much of it.

use crate::preferred::UnitSystem;
use crate::{Dim, Factor, Kind, Nominal, Scalar};

/// A unit that can be written after a number.
#[derive(Clone, Debug)]
pub struct Unit {
    /// As written: `ft`, `°F`, `perm_in`.
    pub symbol: &'static str,
    /// What it measures.
    pub dim: Dim,
    /// Coherent SI units in one of it.
    pub factor: Factor,
    /// For a temperature scale: what is added to a reading, in this unit, to count from absolute
    /// zero (459.67 for °F). None for every unit without a zero of its own.
    pub offset: Option<Scalar>,
    /// The kind of quantity it makes, beyond the dimension.
    pub kind: Option<Kind>,
    /// The system it belongs to; none for those used in both.
    pub system: Option<UnitSystem>,
    /// Its name in words: "foot".
    pub singular: &'static str,
    /// Its plural in words: "feet".
    pub plural: &'static str,
}

impl Unit {
    /// The factor as a number: exact when it fits in 64-bit parts.
    pub fn factor_scalar(&self) -> Scalar {
        self.factor.to_scalar()
    }

    /// The nominal unit this is, for a currency or a counting unit.
    pub fn nominal(&self) -> Option<Nominal> {
        self.dim.as_nominal()
    }
}
