//! Quantities the unit library does not name: areal thermal resistance, permeance and
//! permeability, relative humidity, and the US units of the trade.
//!
//! The unit library's `btu` is the thermochemical one; the trade means the International Table
//! Btu, so every US factor here is built on 1 Btu(IT) = 1055.055 852 62 J (exact).

use uom::si::f64::{
    Area, HeatTransfer, Length, Pressure, Ratio, TemperatureInterval, ThermalConductance, ThermalConductivity,
    ThermodynamicTemperature, Time,
};
use uom::si::{ISQ, Quantity, SI};
use uom::typenum::{N1, P1, P2, P3, Z0};

use crate::admit;
use crate::error::Result;

/// Areal thermal resistance, m²·K/W: the R-value.
pub type ThermalInsulance = Quantity<ISQ<Z0, N1, P3, Z0, P1, Z0, Z0>, SI<f64>, f64>;

/// Linear thermal transmittance ψ, W/(m·K); the dimension of a conductivity.
pub type LinearTransmittance = ThermalConductivity;

/// Point thermal transmittance χ, W/K; the dimension of a conductance.
pub type PointTransmittance = ThermalConductance;

/// Volumetric heat capacity ρc, J/(m³·K).
pub type VolumetricHeatCapacity = Quantity<ISQ<N1, P1, uom::typenum::N2, Z0, N1, Z0, Z0>, SI<f64>, f64>;

/// Heat capacity of a body, J/K.
pub type HeatCapacity = Quantity<ISQ<P2, P1, uom::typenum::N2, Z0, N1, Z0, Z0>, SI<f64>, f64>;

/// One International Table Btu in joules (exact by definition).
pub(crate) const BTU_IT: f64 = 1_055.055_852_62;
/// One foot in metres (exact by definition).
pub(crate) const FOOT: f64 = 0.3048;
/// One US R-value, h·ft²·°F/Btu, in m²·K/W.
pub(crate) const R_US: f64 = 3_600.0 * FOOT * FOOT / (1.8 * BTU_IT);
/// One grain in kilograms (exact by definition).
pub(crate) const GRAIN: f64 = 6.479_891e-5;
/// One conventional inch of mercury at 0 °C, in pascals.
pub(crate) const INCH_OF_MERCURY: f64 = 3_386.389;
/// One US perm, gr/(h·ft²·inHg), in kg/(s·m²·Pa).
pub(crate) const US_PERM: f64 = GRAIN / (3_600.0 * FOOT * FOOT * INCH_OF_MERCURY);
/// One US perm-inch in kg/(s·m·Pa).
pub(crate) const US_PERM_INCH: f64 = US_PERM * FOOT / 12.0;

/// Celsius zero in kelvin.
pub(crate) const ZERO_CELSIUS: f64 = 273.15;

/// An areal thermal resistance from a number of m²·K/W.
#[must_use]
pub fn insulance_si(square_metre_kelvin_per_watt: f64) -> ThermalInsulance {
    ThermalInsulance {
        dimension: std::marker::PhantomData,
        units: std::marker::PhantomData,
        value: square_metre_kelvin_per_watt,
    }
}

/// An areal thermal resistance from a US R-value, h·ft²·°F/Btu.
#[must_use]
pub fn insulance_us(r_value: f64) -> ThermalInsulance {
    insulance_si(r_value * R_US)
}

/// The US R-value, h·ft²·°F/Btu, of an areal thermal resistance: for display.
#[must_use]
pub fn r_value_us(resistance: ThermalInsulance) -> f64 {
    resistance.value / R_US
}

/// A volumetric heat capacity from a number of J/(m³·K).
#[must_use]
pub fn volumetric_heat_capacity(joule_per_cubic_metre_kelvin: f64) -> VolumetricHeatCapacity {
    VolumetricHeatCapacity {
        dimension: std::marker::PhantomData,
        units: std::marker::PhantomData,
        value: joule_per_cubic_metre_kelvin,
    }
}

/// A temperature from degrees Celsius.
#[must_use]
pub fn celsius(degrees: f64) -> ThermodynamicTemperature {
    kelvin(degrees + ZERO_CELSIUS)
}

/// A temperature from degrees Fahrenheit.
#[must_use]
pub fn fahrenheit(degrees: f64) -> ThermodynamicTemperature {
    celsius((degrees - 32.0) / 1.8)
}

/// The number of degrees Celsius of a temperature: for display.
#[must_use]
pub fn to_celsius(temperature: ThermodynamicTemperature) -> f64 {
    temperature.value - ZERO_CELSIUS
}

/// The difference of two temperatures, `warm − cold`, which the unit library leaves out.
#[must_use]
pub fn difference(warm: ThermodynamicTemperature, cold: ThermodynamicTemperature) -> TemperatureInterval {
    TemperatureInterval::new::<uom::si::temperature_interval::kelvin>(warm.value - cold.value)
}

pub(crate) fn kelvin(value: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<uom::si::thermodynamic_temperature::kelvin>(value)
}

pub(crate) fn ratio(value: f64) -> Ratio {
    Ratio::new::<uom::si::ratio::ratio>(value)
}

pub(crate) fn metre(value: f64) -> Length {
    Length::new::<uom::si::length::meter>(value)
}

pub(crate) fn square_metre(value: f64) -> Area {
    Area::new::<uom::si::area::square_meter>(value)
}

pub(crate) fn pascal(value: f64) -> Pressure {
    Pressure::new::<uom::si::pressure::pascal>(value)
}

pub(crate) fn second(value: f64) -> Time {
    Time::new::<uom::si::time::second>(value)
}

pub(crate) fn transmittance_si(value: f64) -> HeatTransfer {
    HeatTransfer::new::<uom::si::heat_transfer::watt_per_square_meter_kelvin>(value)
}

pub(crate) fn conductivity_si(value: f64) -> ThermalConductivity {
    ThermalConductivity::new::<uom::si::thermal_conductivity::watt_per_meter_kelvin>(value)
}

pub(crate) fn conductance_si(value: f64) -> ThermalConductance {
    ThermalConductance::new::<uom::si::thermal_conductance::watt_per_kelvin>(value)
}

/// Relative humidity: vapor pressure over saturation pressure, between 0 and 1.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct RelativeHumidity(f64);

impl RelativeHumidity {
    /// Saturated air.
    pub const SATURATED: Self = Self(1.0);
    /// Air with no vapor.
    pub const DRY: Self = Self(0.0);

    /// From a ratio.
    ///
    /// # Errors
    /// [`crate::PhysicsError::OutOfRange`] below 0 or above 1.
    pub fn new(share: Ratio) -> Result<Self> {
        admit::within("relative humidity", share.value, 0.0, 1.0, "").map(Self)
    }

    /// From a number of percent.
    ///
    /// # Errors
    /// [`crate::PhysicsError::OutOfRange`] below 0 or above 100.
    pub fn percent(percent: f64) -> Result<Self> {
        admit::within("relative humidity", percent, 0.0, 100.0, "%").map(|p| Self(p / 100.0))
    }

    /// The value as a ratio between 0 and 1.
    #[must_use]
    pub fn ratio(self) -> Ratio {
        ratio(self.0)
    }

    /// A value already known to lie in range, or clamped to it.
    pub(crate) fn clamped(share: f64) -> Self {
        Self(share.clamp(0.0, 1.0))
    }

    pub(crate) fn value(self) -> f64 {
        self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // 1 h·ft²·°F/Btu = 0.176110 m²·K/W and 1 perm (0 °C) = 5.72135e-11 kg/(s·m²·Pa):
    // conversion tables of NIST SP 811 (from memory, agrees with the exact factors used here).
    #[test]
    fn us_units_agree_with_published_conversion_factors() {
        assert!((R_US - 0.176_110).abs() < 1e-6);
        assert!((US_PERM / 5.721_35e-11 - 1.0).abs() < 1e-5);
        assert!((US_PERM_INCH / 1.453_22e-12 - 1.0).abs() < 1e-5);
        assert!((r_value_us(insulance_us(10.0)) - 10.0).abs() < 1e-12);
    }

    #[test]
    fn relative_humidity_over_one_is_refused() {
        assert!(RelativeHumidity::percent(100.1).is_err());
        assert!(RelativeHumidity::percent(f64::NAN).is_err());
        assert!(RelativeHumidity::percent(100.0).is_ok());
    }
}
