//! Money and shares as exact decimals; never floating point.

use rust_decimal::Decimal;
use std::fmt;
use std::str::FromStr;

/// A currency by its three-letter code (ISO 4217).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Currency([u8; 3]);

/// Not three letters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("a currency is three letters")]
pub struct NotACurrency;

impl FromStr for Currency {
    type Err = NotACurrency;

    fn from_str(text: &str) -> Result<Self, NotACurrency> {
        match text.as_bytes() {
            &[a, b, c] if text.bytes().all(|l| l.is_ascii_alphabetic()) => {
                Ok(Self([a, b, c].map(|l| l.to_ascii_uppercase())))
            }
            _ => Err(NotACurrency),
        }
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|&l| write!(f, "{}", char::from(l)))
    }
}

/// An amount in one currency.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Money {
    /// The amount.
    pub amount: Decimal,
    /// What it is counted in.
    pub currency: Currency,
}

/// Amounts that cannot be added.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum MoneyError {
    /// Two currencies.
    #[error("{0} and {1} do not add")]
    Currencies(Currency, Currency),
    /// Past what a decimal holds.
    #[error("the amount is too large")]
    TooLarge,
}

impl Money {
    /// Nought.
    pub fn zero(currency: Currency) -> Self {
        Self { amount: Decimal::ZERO, currency }
    }

    /// The sum, if both are in one currency.
    pub fn plus(self, other: Self) -> Result<Self, MoneyError> {
        if self.currency != other.currency {
            return Err(MoneyError::Currencies(self.currency, other.currency));
        }
        let amount = self.amount.checked_add(other.amount).ok_or(MoneyError::TooLarge)?;
        Ok(Self { amount, ..self })
    }

    /// The amount so many times.
    pub fn times(self, count: Decimal) -> Result<Self, MoneyError> {
        let amount = self.amount.checked_mul(count).ok_or(MoneyError::TooLarge)?;
        Ok(Self { amount, ..self })
    }

    /// A share of the amount, rounded to hundredths, halves to even.
    pub fn share(self, share: Share) -> Result<Self, MoneyError> {
        Ok(self.times(share.0)?.rounded())
    }

    /// Rounded to hundredths, halves to even.
    pub fn rounded(self) -> Self {
        Self { amount: self.amount.round_dp(2), ..self }
    }
}

impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:.2} {}", self.amount, self.currency)
    }
}

/// An exact share: 0.065 is 6.5 %.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Share(pub Decimal);

impl Share {
    /// From percent: 6.5 gives 0.065.
    pub fn percent(percent: Decimal) -> Self {
        Self(percent / Decimal::ONE_HUNDRED)
    }
}
