//! Heat between a floor and the ground, ISO 13370: [`slab`] on ground with [`edge`] insulation,
//! [`suspended`] floors, [`basement`]s, the [`periodic`] part over the year, and [`crawl`],
//! which says which form a crawl space takes and why.

use std::f64::consts::PI;

use uom::si::f64::{Area, Length, ThermalConductivity};

use crate::admit;
use crate::error::Result;
use crate::quantity::{ThermalInsulance, VolumetricHeatCapacity, conductivity_si, metre, volumetric_heat_capacity};

pub mod basement;
pub mod crawl;
pub mod edge;
pub mod periodic;
pub mod slab;
pub mod suspended;

/// Thermal properties of the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Soil {
    /// Thermal conductivity λ.
    pub conductivity: ThermalConductivity,
    /// Volumetric heat capacity ρc.
    pub heat_capacity: VolumetricHeatCapacity,
}

impl Soil {
    /// Clay or silt: 1.5 W/(m·K), 3.0 MJ/(m³·K), ISO 13370:2017 table 7.
    #[must_use]
    pub fn clay() -> Self {
        Self { conductivity: conductivity_si(1.5), heat_capacity: volumetric_heat_capacity(3.0e6) }
    }

    /// Sand or gravel: 2.0 W/(m·K), 2.0 MJ/(m³·K), ISO 13370:2017 table 7.
    #[must_use]
    pub fn sand() -> Self {
        Self { conductivity: conductivity_si(2.0), heat_capacity: volumetric_heat_capacity(2.0e6) }
    }

    /// Homogeneous rock: 3.5 W/(m·K), 2.0 MJ/(m³·K), ISO 13370:2017 table 7.
    #[must_use]
    pub fn rock() -> Self {
        Self { conductivity: conductivity_si(3.5), heat_capacity: volumetric_heat_capacity(2.0e6) }
    }

    pub(crate) fn lambda(&self) -> Result<f64> {
        admit::within("soil conductivity", self.conductivity.value, 0.05, 20.0, "W/(m·K)")
    }
}

/// Plan of a floor on the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FloorPlan {
    /// Area A of the floor.
    pub area: Area,
    /// Exposed perimeter P: the length of wall between the heated inside and the outside.
    pub perimeter: Length,
}

impl FloorPlan {
    /// Characteristic dimension B = A/(0.5 P), ISO 13370:2017 clause 6.
    ///
    /// # Errors
    /// An area or perimeter that is not positive (a house with no exposed perimeter has no
    /// characteristic dimension), or a perimeter too short to enclose a strip of the area.
    pub fn characteristic_dimension(&self) -> Result<Length> {
        let (area, perimeter) = self.admitted()?;
        Ok(metre(area / (0.5 * perimeter)))
    }

    pub(crate) fn admitted(&self) -> Result<(f64, f64)> {
        Ok((
            admit::positive("floor area", self.area.value, "m²")?,
            admit::positive("exposed perimeter", self.perimeter.value, "m")?,
        ))
    }
}

/// Resistances above the ground, shared by the forms.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FloorResistances {
    /// Inside film of the floor.
    pub inside_film: ThermalInsulance,
    /// Floor build-up; zero for bare earth.
    pub floor: ThermalInsulance,
    /// Outside film.
    pub outside_film: ThermalInsulance,
}

/// Total equivalent thickness d_t = w + λ(R_si + R_f + R_se), ISO 13370:2017 equation 3 (edition
/// of 2007: equation 3 as well).
pub(crate) fn equivalent_thickness(wall: Length, lambda: f64, resistances: &FloorResistances) -> Result<f64> {
    let w = admit::not_negative("wall thickness", wall.value, "m")?;
    let si = admit::not_negative("inside film", resistances.inside_film.value, "m²·K/W")?;
    let f = admit::not_negative("floor resistance", resistances.floor.value, "m²·K/W")?;
    let se = admit::not_negative("outside film", resistances.outside_film.value, "m²·K/W")?;
    admit::positive("equivalent thickness", w + lambda * (si + f + se), "m")
}

/// U of a floor with an effective equivalent thickness: the two branches of ISO 13370, which do
/// not meet exactly at d_t = B.
pub(crate) fn floor_transmittance(b: f64, d_t: f64, lambda: f64) -> f64 {
    if d_t < b { 2.0 * lambda / (PI * b + d_t) * (PI * b / d_t + 1.0).ln() } else { lambda / (0.457 * b + d_t) }
}
