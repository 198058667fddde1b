//! Units put together: `USD per sheet`, `W per m K`.

use crate::{ArithmeticError, Dim, Factor, Kind, Nominal, Scalar, Unit};

/// Most names a compound unit is made of.
const MAX_TERMS: usize = 16;

/// One name in a compound unit.
#[derive(Clone, Debug)]
pub enum UnitTerm {
    /// A unit of the table.
    Known(&'static Unit),
    /// A counting unit the program declares.
    Nominal(Nominal),
    /// A unit the program declares by another: name, dimension, and what one of it is in coherent
    /// SI (a positive number).
    Declared(&'static str, Dim, Factor),
}

impl UnitTerm {
    /// As written.
    pub fn symbol(&self) -> &'static str {
        match self {
            UnitTerm::Known(unit) => unit.symbol,
            UnitTerm::Nominal(unit) => unit.name().as_str(),
            UnitTerm::Declared(name, ..) => name,
        }
    }

    /// What it measures.
    pub fn dim(&self) -> Dim {
        match self {
            UnitTerm::Known(unit) => unit.dim,
            UnitTerm::Nominal(unit) => Dim::nominal(*unit),
            UnitTerm::Declared(_, dim, _) => *dim,
        }
    }

    fn factor(&self) -> Factor {
        match self {
            UnitTerm::Known(unit) => unit.factor,
            UnitTerm::Nominal(_) => Factor::ONE,
            UnitTerm::Declared(_, _, factor) => *factor,
        }
    }
}

impl From<&'static Unit> for UnitTerm {
    fn from(unit: &'static Unit) -> UnitTerm {
        UnitTerm::Known(unit)
    }
}

impl From<Nominal> for UnitTerm {
    fn from(unit: Nominal) -> UnitTerm {
        UnitTerm::Nominal(unit)
    }
}

/// Why names do not make a unit.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, thiserror::Error)]
pub enum CompoundUnitError {
    /// No name at all.
    #[error("a unit is due here")]
    Empty,
    /// More names than any unit needs.
    #[error("a unit is made of at most 16 names")]
    TooLong,
    /// The dimension or factor does not fit.
    #[error("the unit is too large to be of use")]
    Overflow,
}

/// A unit as a program writes it: names above the line, then `per` and names below it.
#[derive(Clone, Debug)]
pub struct CompoundUnit {
    dim: Dim,
    factor: Factor,
    offset: Option<Scalar>,
    kind: Option<Kind>,
    text: String,
}

impl CompoundUnit {
    /// The unit of the names above and below the line. A degree among other names is a
    /// difference; alone it keeps its zero ([`CompoundUnit::offset`]).
    pub fn new(above: &[UnitTerm], below: &[UnitTerm]) -> Result<CompoundUnit, CompoundUnitError> {
        if above.is_empty() && below.is_empty() {
            return Err(CompoundUnitError::Empty);
        }
        if above.len() + below.len() > MAX_TERMS {
            return Err(CompoundUnitError::TooLong);
        }
        if let ([UnitTerm::Known(unit)], []) = (above, below) {
            return Ok(CompoundUnit::from(*unit));
        }
        let (mut dim, mut factor) = (Dim::NONE, Factor::ONE);
        for term in above {
            dim = dim.mul(term.dim()).map_err(|_| CompoundUnitError::Overflow)?;
            factor = factor.times(term.factor());
        }
        for term in below {
            dim = dim.div(term.dim()).map_err(|_| CompoundUnitError::Overflow)?;
            factor = factor.times(term.factor().recip());
        }
        let float = factor.to_f64();
        if !float.is_finite() || float <= 0.0 {
            return Err(CompoundUnitError::Overflow);
        }
        let text = spell(above, below);
        Ok(CompoundUnit { dim, factor, offset: None, kind: None, text })
    }

    /// What it measures.
    pub fn dim(&self) -> Dim {
        self.dim
    }

    /// Coherent SI units in one of it.
    pub fn factor(&self) -> Factor {
        self.factor
    }

    /// For a single degree: what is added to a reading to count from absolute zero.
    pub fn offset(&self) -> Option<Scalar> {
        self.offset
    }

    /// The kind of quantity the unit makes by itself (`perm_in`, `deg`).
    pub fn kind(&self) -> Option<Kind> {
        self.kind
    }

    /// As written after a number: `USD per sheet`.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// A value in this unit, in coherent SI, without any zero shift.
    pub fn to_si(&self, value: Scalar) -> Result<Scalar, ArithmeticError> {
        self.factor.to_si(value)
    }

    /// A value in coherent SI, in this unit, without any zero shift.
    pub fn of_si(&self, value: Scalar) -> Result<Scalar, ArithmeticError> {
        self.factor.of_si(value)
    }
}

impl From<&'static Unit> for CompoundUnit {
    fn from(unit: &'static Unit) -> CompoundUnit {
        CompoundUnit {
            dim: unit.dim,
            factor: unit.factor,
            offset: unit.offset,
            kind: unit.kind,
            text: unit.symbol.to_owned(),
        }
    }
}

impl From<Nominal> for CompoundUnit {
    fn from(unit: Nominal) -> CompoundUnit {
        CompoundUnit {
            dim: Dim::nominal(unit),
            factor: Factor::ONE,
            offset: None,
            kind: None,
            text: unit.name().as_str().to_owned(),
        }
    }
}

impl std::fmt::Display for CompoundUnit {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.pad(&self.text)
    }
}

fn spell(above: &[UnitTerm], below: &[UnitTerm]) -> String {
    let join = |terms: &[UnitTerm]| terms.iter().map(UnitTerm::symbol).collect::<Vec<_>>().join(" ");
    match (above, below) {
        (above, []) => join(above),
        ([], below) => format!("per {}", join(below)),
        (above, below) => format!("{} per {}", join(above), join(below)),
    }
}
