//! Permeance and permeability, the equivalent air layer s_d, and layers in series.
//!
//! Permeability has the dimension of a time and permeance that of an inverse velocity, so both
//! are types of their own. An s_d needs the permeability of still air it refers to; this crate
//! uses the 2·10⁻¹⁰ kg/(m·s·Pa) of ISO 13788 throughout.

use uom::si::areal_mass_density::kilogram_per_square_meter;
use uom::si::f64::{Area, ArealMassDensity, Length, MassRate, Pressure, Time};
use uom::si::mass_rate::kilogram_per_second;

use crate::admit;
use crate::error::{PhysicsError, Result};
use crate::quantity::{US_PERM, US_PERM_INCH, metre};

/// Permeability of still air, kg/(m·s·Pa), ISO 13788:2012 clause 4.2 (taken there as constant).
pub(crate) const STILL_AIR: f64 = 2.0e-10;

/// Water vapor permeance W, kg/(s·m²·Pa).
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Permeance(f64);

/// Water vapor permeability δ, kg/(s·m·Pa).
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Permeability(f64);

impl Permeance {
    /// From kg/(s·m²·Pa).
    ///
    /// # Errors
    /// A value that is not positive.
    pub fn si(value: f64) -> Result<Self> {
        admit::positive("permeance", value, "kg/(s·m²·Pa)").map(Self)
    }

    /// From US perms, gr/(h·ft²·inHg).
    ///
    /// # Errors
    /// A value that is not positive.
    pub fn us_perms(perms: f64) -> Result<Self> {
        admit::positive("permeance", perms, "perm").map(|p| Self(p * US_PERM))
    }

    /// From the thickness of still air with the same resistance.
    ///
    /// # Errors
    /// A value that is not positive.
    pub fn from_air_layer(s_d: Length) -> Result<Self> {
        admit::positive("equivalent air layer", s_d.value, "m").map(|s| Self(STILL_AIR / s))
    }

    /// Number of US perms: for display.
    #[must_use]
    pub fn to_us_perms(self) -> f64 {
        self.0 / US_PERM
    }

    /// Number of kg/(s·m²·Pa).
    #[must_use]
    pub fn to_si(self) -> f64 {
        self.0
    }

    /// Thickness of still air with the same resistance, s_d.
    #[must_use]
    pub fn air_layer(self) -> Length {
        metre(STILL_AIR / self.0)
    }

    /// Vapor that passes an area under a pressure difference; negative against the direction.
    #[must_use]
    pub fn flow(self, area: Area, high: Pressure, low: Pressure) -> MassRate {
        MassRate::new::<kilogram_per_second>(self.0 * area.value * (high.value - low.value))
    }

    /// Vapor that passes a unit area over a time.
    #[must_use]
    pub fn passed(self, high: Pressure, low: Pressure, time: Time) -> ArealMassDensity {
        ArealMassDensity::new::<kilogram_per_square_meter>(self.0 * (high.value - low.value) * time.value)
    }
}

impl Permeability {
    /// From kg/(s·m·Pa).
    ///
    /// # Errors
    /// A value that is not positive.
    pub fn si(value: f64) -> Result<Self> {
        admit::positive("permeability", value, "kg/(s·m·Pa)").map(Self)
    }

    /// From US perm-inches.
    ///
    /// # Errors
    /// A value that is not positive.
    pub fn us_perm_inches(value: f64) -> Result<Self> {
        admit::positive("permeability", value, "perm-in").map(|p| Self(p * US_PERM_INCH))
    }

    /// From the vapor resistance factor μ: δ = δ₀/μ.
    ///
    /// # Errors
    /// A factor below 1, which would be more open than air.
    pub fn from_resistance_factor(mu: uom::si::f64::Ratio) -> Result<Self> {
        admit::within("vapor resistance factor", mu.value, 1.0, 1e9, "").map(|mu| Self(STILL_AIR / mu))
    }

    /// Permeance of a thickness.
    ///
    /// # Errors
    /// A thickness that is not positive.
    pub fn of_thickness(self, thickness: Length) -> Result<Permeance> {
        admit::positive("layer thickness", thickness.value, "m").map(|d| Permeance(self.0 / d))
    }
}

/// Permeance of layers in series: resistances add, so permeances add as reciprocals.
///
/// # Errors
/// An empty list.
pub fn in_series(layers: &[Permeance]) -> Result<Permeance> {
    if layers.is_empty() {
        return Err(PhysicsError::Empty { what: "list of layers".into() });
    }
    Ok(Permeance(1.0 / layers.iter().map(|layer| 1.0 / layer.0).sum::<f64>()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::air::saturation::saturation;
    use crate::quantity::{GRAIN, fahrenheit, pascal, square_metre};
    use proptest::prelude::*;

    fn perms(value: f64) -> Permeance {
        Permeance::us_perms(value).unwrap()
    }

    // 1 perm = 5.7214e-11 kg/(s·m²·Pa), that is an s_d of 3.496 m at 2e-10: unit arithmetic.
    #[test]
    fn a_perm_is_three_and_a_half_metres_of_air() {
        assert!((perms(1.0).air_layer().value - 3.496).abs() < 5e-4);
    }

    // 2.4 perm (8 in hollow block) and 0.6 perm in series: 0.48 perm.
    #[test]
    fn reciprocals_add() {
        let both = in_series(&[perms(2.4), perms(0.6)]).unwrap();
        assert!((both.to_us_perms() - 0.48).abs() < 1e-12);
        assert!(in_series(&[]).is_err());
    }

    // 0.06 perm over 1000 ft², 60 °F saturated to 60 °F at 60 %: 12.53 gr/h, from Hyland-Wexler
    // saturation and the definition of the perm.
    #[test]
    fn flow_through_a_sheet() {
        let p = saturation(fahrenheit(60.0)).unwrap();
        let area = square_metre(1000.0 * 0.3048 * 0.3048);
        let flow = perms(0.06).flow(area, p, pascal(0.6 * p.value));
        let grains = flow.value * 3600.0 / GRAIN;
        assert!((grains - 12.53).abs() < 0.01, "{grains}");
    }

    proptest! {
        #[test]
        fn a_series_is_tighter_than_its_tightest_layer(a in 0.01f64..50.0, b in 0.01f64..50.0) {
            let both = in_series(&[perms(a), perms(b)]).unwrap().to_us_perms();
            prop_assert!(both < a.min(b));
            prop_assert!(both >= 0.5 * a.min(b) - 1e-12);
        }
    }
}
