//! The yearly swing of heat to the ground, ISO 13370 annex H (2017; annex A in 2007): how much
//! follows the outside temperature and how far behind.

use std::f64::consts::PI;

use uom::si::f64::{Length, Ratio, Time};

use super::{FloorPlan, Soil};
use crate::admit;
use crate::error::Result;
use crate::quantity::{metre, ratio, second};

/// Seconds in a year, as the standard counts them.
pub(crate) const YEAR_SECONDS: f64 = 3.15e7;

/// Periodic penetration depth δ = √(3.15e7·λ/(π·ρc)): by the standard's rounded values
/// 2.2, 3.2 and 4.2 m for clay, sand and rock (ISO 13370:2017 table H.1).
///
/// # Errors
/// Soil properties that are not positive.
pub fn penetration_depth(soil: &Soil) -> Result<Length> {
    let lambda = soil.lambda()?;
    let capacity = admit::positive("soil heat capacity", soil.heat_capacity.value, "J/(m³·K)")?;
    Ok(metre((YEAR_SECONDS * lambda / (PI * capacity)).sqrt()))
}

/// Share of the steady conductance with which a floor follows the outside swing, and its lag.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OutsideSwing {
    /// H_pe over the steady conductance; below 1 for large floors.
    pub share: Ratio,
    /// Lag behind the outside temperature.
    pub lag: Time,
}

/// Outside periodic conductance of a floor below grade, as a share of its steady conductance:
/// H_pe = 0.37·P·λ·e^(−z/δ)·ln(δ/d_t + 1), lag 1 month (ISO 13370:2017 H.2.4; with z = 0 the slab
/// on ground of H.2.2).
///
/// # Errors
/// Inputs outside their range.
pub fn floor_swing(
    plan: &FloorPlan,
    soil: &Soil,
    equivalent_thickness: Length,
    depth: Length,
    steady_conductance: uom::si::f64::ThermalConductance,
) -> Result<OutsideSwing> {
    let (_, perimeter) = plan.admitted()?;
    let lambda = soil.lambda()?;
    let delta = penetration_depth(soil)?.value;
    let d_t = admit::positive("equivalent thickness", equivalent_thickness.value, "m")?;
    let z = admit::not_negative("depth below grade", depth.value, "m")?;
    let h = admit::positive("steady conductance", steady_conductance.value, "W/K")?;
    let h_pe = 0.37 * perimeter * lambda * (-z / delta).exp() * (delta / d_t + 1.0).ln();
    Ok(OutsideSwing { share: ratio((h_pe / h).min(1.0)), lag: second(YEAR_SECONDS / 12.0) })
}

/// Outside periodic conductance of walls below grade, as a share of their steady conductance:
/// H_pe = 0.37·P·λ·2(1 − e^(−z/δ))·ln(δ/d_w + 1), lag 1 month (ISO 13370:2017 H.2.4).
///
/// # Errors
/// Inputs outside their range.
pub fn wall_swing(
    plan: &FloorPlan,
    soil: &Soil,
    equivalent_thickness: Length,
    depth: Length,
    steady_conductance: uom::si::f64::ThermalConductance,
) -> Result<OutsideSwing> {
    let (_, perimeter) = plan.admitted()?;
    let lambda = soil.lambda()?;
    let delta = penetration_depth(soil)?.value;
    let d_w = admit::positive("equivalent thickness", equivalent_thickness.value, "m")?;
    let z = admit::positive("depth below grade", depth.value, "m")?;
    let h = admit::positive("steady conductance", steady_conductance.value, "W/K")?;
    let h_pe = 0.37 * perimeter * lambda * 2.0 * (1.0 - (-z / delta).exp()) * (delta / d_w + 1.0).ln();
    Ok(OutsideSwing { share: ratio((h_pe / h).min(1.0)), lag: second(YEAR_SECONDS / 12.0) })
}
