//! Fasteners through insulation as point thermal bridges.

use uom::si::f64::{Area, HeatTransfer, Length, ThermalConductivity};

use crate::admit;
use crate::error::{PhysicsError, Result};
use crate::quantity::{PointTransmittance, ThermalInsulance, conductance_si, transmittance_si};

/// A fastener that passes an insulation layer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fastener {
    /// Conductivity of the shank: about 50 W/(m·K) steel, 17 stainless, 0.25 plastic
    /// (ISO 10456, from memory).
    pub conductivity: ThermalConductivity,
    /// Cross-section of the shank.
    pub section: Area,
    /// Length of shank inside the insulation; shorter than the layer where the head is sunk.
    pub length_in_insulation: Length,
}

/// The insulation layer a fastener passes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FastenedLayer {
    /// Thickness d₀ of the layer.
    pub thickness: Length,
    /// Resistance R₁ of the layer.
    pub resistance: ThermalInsulance,
    /// Total resistance of the build-up without fasteners, films included.
    pub total: ThermalInsulance,
}

/// Point transmittance χ of one fastener from the approximate formula of ISO 6946:2017
/// annex F.3: χ = α·λ_f·A_f/d₀·(R₁/R_tot)², α = 0.8 for a full-depth shank and 0.8·d₁/d₀ for a
/// sunk one.
///
/// # Errors
/// Inputs that are not positive, a shank longer than the layer, a layer with more resistance
/// than the whole build-up.
pub fn fastener_transmittance(fastener: &Fastener, layer: &FastenedLayer) -> Result<PointTransmittance> {
    let lambda = admit::positive("fastener conductivity", fastener.conductivity.value, "W/(m·K)")?;
    let section = admit::positive("fastener section", fastener.section.value, "m²")?;
    let d0 = admit::positive("insulation thickness", layer.thickness.value, "m")?;
    let d1 = admit::positive("fastener length in the insulation", fastener.length_in_insulation.value, "m")?;
    let r1 = admit::positive("insulation resistance", layer.resistance.value, "m²·K/W")?;
    let total = admit::positive("total resistance", layer.total.value, "m²·K/W")?;
    if d1 > d0 * (1.0 + 1e-9) {
        return Err(PhysicsError::Contradiction {
            what: "fastener length in the insulation".into(),
            why: "is more than the insulation is thick".into(),
        });
    }
    if r1 > total {
        return Err(PhysicsError::Contradiction {
            what: "total resistance".into(),
            why: "is less than that of the insulation alone".into(),
        });
    }
    let alpha = 0.8 * d1 / d0;
    Ok(conductance_si(alpha * lambda * section / d0 * (r1 / total).powi(2)))
}

/// A transmittance with point bridges added: U + Σχ/A.
///
/// # Errors
/// A transmittance or area that is not positive, a negative bridge.
pub fn with_point_bridges(
    transmittance: HeatTransfer,
    bridges: PointTransmittance,
    area: Area,
) -> Result<HeatTransfer> {
    let u = admit::positive("transmittance", transmittance.value, "W/(m²·K)")?;
    let chi = admit::not_negative("point bridges", bridges.value, "W/K")?;
    let a = admit::positive("area", area.value, "m²")?;
    Ok(transmittance_si(u + chi / a))
}
