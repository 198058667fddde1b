//! Edge insulation of a slab, ISO 13370 annex D (2017; annex B in 2007): a strip laid flat or
//! set upright along the perimeter.

use std::f64::consts::PI;

use uom::si::f64::{HeatTransfer, Length};

use super::Soil;
use super::slab::GroundFloor;
use crate::admit;
use crate::error::Result;
use crate::quantity::{LinearTransmittance, ThermalInsulance, conductivity_si, transmittance_si};

/// How the strip lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum EdgePosition {
    /// Flat, along the perimeter, the extent being its width.
    Horizontal,
    /// Upright, below the ground, the extent being its depth.
    Vertical,
}

/// A strip of insulation along the perimeter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EdgeInsulation {
    /// How it lies.
    pub position: EdgePosition,
    /// Width or depth D.
    pub extent: Length,
    /// Thickness d_n of the insulation.
    pub thickness: Length,
    /// Resistance R_n of the insulation.
    pub resistance: ThermalInsulance,
}

/// Linear transmittance ψ of edge insulation, zero or negative: it lowers the loss.
///
/// # Errors
/// An extent that is not positive, or insulation with less resistance than the soil it displaces.
pub fn edge_transmittance(edge: &EdgeInsulation, floor: &GroundFloor, soil: &Soil) -> Result<LinearTransmittance> {
    let lambda = soil.lambda()?;
    let extent = admit::positive("extent of edge insulation", edge.extent.value, "m")?;
    let d_n = admit::positive("thickness of edge insulation", edge.thickness.value, "m")?;
    let r_n = admit::positive("resistance of edge insulation", edge.resistance.value, "m²·K/W")?;
    let added = admit::not_negative(
        "resistance of edge insulation less that of the soil it displaces",
        r_n - d_n / lambda,
        "m²·K/W",
    )?;
    let d_t = floor.equivalent_thickness.value;
    let d_added = added * lambda;
    let reach = match edge.position {
        EdgePosition::Horizontal => extent,
        EdgePosition::Vertical => 2.0 * extent,
    };
    let psi = -lambda / PI * ((reach / d_t + 1.0).ln() - (reach / (d_t + d_added) + 1.0).ln());
    Ok(conductivity_si(psi))
}

/// Transmittance of a floor with edge insulation: U₀ + 2ψ/B.
#[must_use]
pub fn with_edge_insulation(floor: &GroundFloor, psi: LinearTransmittance) -> HeatTransfer {
    transmittance_si(floor.transmittance.value + 2.0 * psi.value / floor.characteristic_dimension.value)
}
