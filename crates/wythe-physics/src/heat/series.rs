//! Layers in series: R-values add, and the transmittance is the reciprocal of their sum.

use uom::si::f64::{HeatTransfer, Length, ThermalConductivity};

use crate::admit;
use crate::error::{PhysicsError, Result};
use crate::quantity::{ThermalInsulance, insulance_si, transmittance_si};

/// A homogeneous layer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layer {
    /// Thickness d.
    pub thickness: Length,
    /// Thermal conductivity λ.
    pub conductivity: ThermalConductivity,
}

impl Layer {
    /// R = d/λ, ISO 6946:2017 clause 6.7.1.
    ///
    /// # Errors
    /// A thickness or conductivity that is not positive.
    pub fn resistance(&self) -> Result<ThermalInsulance> {
        let d = admit::positive("layer thickness", self.thickness.value, "m")?;
        let lambda = admit::positive("layer conductivity", self.conductivity.value, "W/(m·K)")?;
        Ok(insulance_si(d / lambda))
    }
}

/// Resistance and transmittance of a build-up with its films.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Series {
    /// Total resistance, films included.
    pub resistance: ThermalInsulance,
    /// U = 1/R.
    pub transmittance: HeatTransfer,
}

/// Total resistance of layers between an inside and an outside film, ISO 6946:2017 clause 6.7.1.
///
/// Pass a zero `outside` film for a wall against earth: the soil stands where the air would.
///
/// # Errors
/// An empty list of layers, a resistance that is not positive, a negative film.
pub fn series(inside: ThermalInsulance, layers: &[ThermalInsulance], outside: ThermalInsulance) -> Result<Series> {
    if layers.is_empty() {
        return Err(PhysicsError::Empty { what: "list of layers".into() });
    }
    let mut sum = admit::not_negative("inside film", inside.value, "m²·K/W")?
        + admit::not_negative("outside film", outside.value, "m²·K/W")?;
    for (index, layer) in layers.iter().enumerate() {
        sum += admit::positive(format!("resistance of layer {}", index + 1), layer.value, "m²·K/W")?;
    }
    Ok(Series { resistance: insulance_si(sum), transmittance: transmittance_si(1.0 / sum) })
}
