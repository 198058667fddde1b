//! Thermal literals of the trade: `R-10`, `RSI-1.76`, `U-0.06`.

use std::sync::LazyLock;

use crate::{Dim, Factor, NumberError, Quantity, Scalar, unit_named};

/// Which way a thermal literal is written.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum RValueForm {
    /// `R-10`, in h·ft²·°F/Btu.
    R,
    /// `RSI-1.76`, in m²·K/W.
    Rsi,
    /// `U-0.06`, in Btu/(h·ft²·°F).
    U,
}

impl RValueForm {
    /// The letters before the hyphen.
    pub const fn prefix(self) -> &'static str {
        match self {
            RValueForm::R => "R",
            RValueForm::Rsi => "RSI",
            RValueForm::U => "U",
        }
    }

    /// What the literal measures.
    pub const fn dim(self) -> Dim {
        match self {
            RValueForm::R | RValueForm::Rsi => Dim::AREAL_RESISTANCE,
            RValueForm::U => Dim::TRANSMITTANCE,
        }
    }

    /// Coherent SI units in one.
    pub(crate) fn factor(self) -> Factor {
        match self {
            RValueForm::R => *RESISTANCE,
            RValueForm::Rsi => Factor::ONE,
            RValueForm::U => RESISTANCE.recip(),
        }
    }
}

/// Square meter kelvins per watt in one h·ft²·°F/Btu.
static RESISTANCE: LazyLock<Factor> = LazyLock::new(|| {
    let part = |name| unit_named(name).map_or(Factor::ONE, |unit| unit.factor);
    part("h").times(part("ft2")).times(part("°F")).times(part("Btu").recip())
});

/// Why a text is not a thermal literal.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, thiserror::Error)]
pub enum RValueError {
    /// It does not start with `R-`, `RSI-` or `U-`.
    #[error("a thermal value starts with `R-`, `RSI-` or `U-`")]
    Prefix,
    /// The number is not one.
    #[error(transparent)]
    Number(#[from] NumberError),
}

/// Reads `R-10`, `RSI-1.76` or `U-0.06`.
pub fn parse_r_value(text: &str) -> Result<Quantity, RValueError> {
    let (prefix, number) = text.split_once('-').ok_or(RValueError::Prefix)?;
    let form = [RValueForm::R, RValueForm::Rsi, RValueForm::U]
        .into_iter()
        .find(|form| form.prefix() == prefix)
        .ok_or(RValueError::Prefix)?;
    let value = form.factor().to_si(Scalar::parse(number)?).map_err(|_| NumberError::TooLarge)?;
    Ok(Quantity::new(value, form.dim()))
}
