//! The state of moist air: humidity ratio, dew point, wet bulb, enthalpy and density from
//! temperature, relative humidity and pressure.

use uom::si::available_energy::joule_per_kilogram;
use uom::si::f64::{AvailableEnergy, MassDensity, Pressure, Ratio, SpecificVolume, ThermodynamicTemperature};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::specific_volume::cubic_meter_per_kilogram;

use super::saturation::{dew_point, saturation_pa};
use crate::admit;
use crate::error::Result;
use crate::quantity::{RelativeHumidity, ZERO_CELSIUS, celsius, pascal, ratio};

/// Ratio of the molar masses of water and dry air (ASHRAE Fundamentals, psychrometrics).
pub(crate) const MASS_RATIO: f64 = 0.621_945;
/// Gas constant of dry air, J/(kg·K) (ASHRAE Fundamentals, psychrometrics).
pub(crate) const GAS_CONSTANT_DRY_AIR: f64 = 287.042;
/// Standard pressure at sea level, Pa.
pub(crate) const STANDARD_PRESSURE: f64 = 101_325.0;

/// Pressure of the standard atmosphere at an altitude, ASHRAE Fundamentals, psychrometrics,
/// equation 3; −5000 to 11 000 m.
///
/// # Errors
/// An altitude outside that range.
pub fn standard_pressure(altitude: uom::si::f64::Length) -> Result<Pressure> {
    let z = admit::within("altitude", altitude.value, -5_000.0, 11_000.0, "m")?;
    Ok(pascal(STANDARD_PRESSURE * (1.0 - 2.255_77e-5 * z).powf(5.255_9)))
}

/// Moist air, admitted: every derived property is finite.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MoistAir {
    /// °C.
    temperature: f64,
    /// Pa.
    vapor: f64,
    /// Pa.
    saturation: f64,
    /// Pa.
    pressure: f64,
}

impl MoistAir {
    /// Air of a temperature and relative humidity, the humidity referred to [`saturation`]
    /// (over ice below the triple point).
    ///
    /// # Errors
    /// A temperature outside −100 to 100 °C, a pressure outside 20 to 200 kPa, or vapor that
    /// would be more than half the pressure.
    ///
    /// [`saturation`]: super::saturation::saturation
    pub fn new(temperature: ThermodynamicTemperature, humidity: RelativeHumidity, pressure: Pressure) -> Result<Self> {
        let t = admit::within("air temperature", temperature.value - ZERO_CELSIUS, -100.0, 100.0, "°C")?;
        let p = admit::within("air pressure", pressure.value, 20_000.0, 200_000.0, "Pa")?;
        let saturation = saturation_pa(t);
        let vapor = admit::within("vapor pressure", saturation * humidity.value(), 0.0, 0.5 * p, "Pa")?;
        Ok(Self { temperature: t, vapor, saturation, pressure: p })
    }

    /// Air of a temperature and humidity ratio W.
    ///
    /// # Errors
    /// As [`MoistAir::new`]; also a negative ratio, or one above saturation.
    pub fn from_humidity_ratio(
        temperature: ThermodynamicTemperature,
        humidity_ratio: Ratio,
        pressure: Pressure,
    ) -> Result<Self> {
        let mut air = Self::new(temperature, RelativeHumidity::SATURATED, pressure)?;
        let w = admit::within(
            "humidity ratio",
            humidity_ratio.value,
            0.0,
            air.humidity_ratio().value * (1.0 + 1e-12),
            "kg/kg",
        )?;
        air.vapor = air.pressure * w / (MASS_RATIO + w);
        Ok(air)
    }

    /// Temperature.
    #[must_use]
    pub fn temperature(&self) -> ThermodynamicTemperature {
        celsius(self.temperature)
    }

    /// Total pressure.
    #[must_use]
    pub fn pressure(&self) -> Pressure {
        pascal(self.pressure)
    }

    /// Partial pressure of the vapor.
    #[must_use]
    pub fn vapor_pressure(&self) -> Pressure {
        pascal(self.vapor)
    }

    /// Relative humidity.
    #[must_use]
    pub fn relative_humidity(&self) -> RelativeHumidity {
        RelativeHumidity::clamped(self.vapor / self.saturation)
    }

    /// Humidity ratio W = 0.621945·p_w/(p − p_w), kg of vapor per kg of dry air.
    #[must_use]
    pub fn humidity_ratio(&self) -> Ratio {
        ratio(humidity_ratio(self.vapor, self.pressure))
    }

    /// Dew point; the frost point below the triple point.
    ///
    /// # Errors
    /// Air drier than a dew point of −100 °C.
    pub fn dew_point(&self) -> Result<ThermodynamicTemperature> {
        dew_point(pascal(self.vapor))
    }

    /// Enthalpy per kg of dry air, zero for dry air at 0 °C: 1.006 t + W (2501 + 1.86 t) kJ/kg
    /// (ASHRAE Fundamentals, psychrometrics).
    #[must_use]
    pub fn enthalpy(&self) -> AvailableEnergy {
        let t = self.temperature;
        let w = humidity_ratio(self.vapor, self.pressure);
        AvailableEnergy::new::<joule_per_kilogram>(1_000.0 * (1.006 * t + w * (2_501.0 + 1.86 * t)))
    }

    /// Volume of the mixture per kg of dry air.
    #[must_use]
    pub fn specific_volume(&self) -> SpecificVolume {
        SpecificVolume::new::<cubic_meter_per_kilogram>(self.volume())
    }

    /// Density of the mixture.
    #[must_use]
    pub fn density(&self) -> MassDensity {
        let w = humidity_ratio(self.vapor, self.pressure);
        MassDensity::new::<kilogram_per_cubic_meter>((1.0 + w) / self.volume())
    }

    fn volume(&self) -> f64 {
        let w = humidity_ratio(self.vapor, self.pressure);
        GAS_CONSTANT_DRY_AIR * (self.temperature + ZERO_CELSIUS) * (1.0 + 1.607_858 * w) / self.pressure
    }

    /// Thermodynamic wet-bulb temperature, from the energy balance of adiabatic saturation
    /// (ASHRAE Fundamentals, psychrometrics, equations 33 and 35; ice below 0 °C).
    #[must_use]
    pub fn wet_bulb(&self) -> ThermodynamicTemperature {
        let w = humidity_ratio(self.vapor, self.pressure);
        // W computed from a trial wet bulb rises with it, so that bisection is safe.
        let mut low = self.temperature.min(-100.0 + 1e-9);
        if let Ok(dew) = self.dew_point() {
            low = dew.value - ZERO_CELSIUS;
        }
        let mut high = self.temperature;
        while high - low > 1e-9 {
            let middle = 0.5 * (low + high);
            if ratio_at_wet_bulb(self.temperature, middle, self.pressure) > w {
                high = middle;
            } else {
                low = middle;
            }
        }
        celsius(0.5 * (low + high))
    }
}

/// W of air at `t` whose wet bulb is `t_wb` (both °C) at pressure `p`.
fn ratio_at_wet_bulb(t: f64, t_wb: f64, p: f64) -> f64 {
    let w_s = humidity_ratio(saturation_pa(t_wb), p);
    if t_wb >= 0.0 {
        ((2_501.0 - 2.326 * t_wb) * w_s - 1.006 * (t - t_wb)) / (2_501.0 + 1.86 * t - 4.186 * t_wb)
    } else {
        ((2_830.0 - 0.24 * t_wb) * w_s - 1.006 * (t - t_wb)) / (2_830.0 + 1.86 * t - 2.1 * t_wb)
    }
}

/// W from vapor and total pressure (Pa); callers keep the vapor well below the total.
pub(crate) fn humidity_ratio(vapor: f64, pressure: f64) -> f64 {
    MASS_RATIO * vapor / (pressure - vapor)
}
