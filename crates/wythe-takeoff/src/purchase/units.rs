//! Whole purchase units, what is left of the last, and the share bought beyond need.

use crate::finite;
use uom::si::f64::Ratio;
use uom::si::ratio::ratio;

/// A number of whole units bought for a need counted in the same units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Purchase {
    /// Whole units to buy.
    pub units: u64,
    /// Units really needed, waste allowance included.
    pub needed: Ratio,
    /// Units left over after the job: bought less needed.
    pub remainder: Ratio,
    /// Of what is bought, the part that does not end up in the net work: allowance and remainder.
    pub waste_share: Ratio,
}

/// A need that cannot be bought.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum PurchaseError {
    /// Negative, or not a number, or beyond counting.
    #[error("the quantity needed is not a number of units")]
    Need,
    /// The unit bought holds nothing.
    #[error("the unit bought must hold something")]
    EmptyUnit,
    /// The waste allowance is negative or not a number.
    #[error("the waste allowance must not be negative")]
    Waste,
}

/// Slack that forgives rounding: a need of 3.0000000001 units is three.
const NEAR: f64 = 1e-9;

/// Largest number of units counted.
const MOST_UNITS: f64 = 1e12;

/// Buys whole units for a net need in units, with a waste allowance as a share of the need
/// (0.08 for 8 %).
pub fn whole_units(net: Ratio, waste: Ratio) -> Result<Purchase, PurchaseError> {
    let net = net.get::<ratio>();
    let waste = waste.get::<ratio>();
    if !finite::not_negative(net) {
        return Err(PurchaseError::Need);
    }
    if !finite::not_negative(waste) {
        return Err(PurchaseError::Waste);
    }
    let needed = net * (1.0 + waste);
    if needed > MOST_UNITS {
        return Err(PurchaseError::Need);
    }
    let units = (needed * (1.0 - NEAR)).ceil();
    let waste_share = if units > 0.0 { ((units - net) / units).max(0.0) } else { 0.0 };
    Ok(Purchase {
        units: units as u64,
        needed: Ratio::new::<ratio>(needed),
        remainder: Ratio::new::<ratio>((units - needed).max(0.0)),
        waste_share: Ratio::new::<ratio>(waste_share),
    })
}
