//! Saturation pressure of water vapor: over ice, over liquid water, and the simpler form of
//! ISO 13788. They differ below 0 °C, so each has its own name and none is the default.
//!
//! ASHRAE psychrometrics use ice below the triple point; weather services report relative
//! humidity and dew point over liquid water at every temperature; ISO 13788 uses its own curve.

use uom::si::f64::{Pressure, ThermodynamicTemperature};

use crate::admit;
use crate::error::Result;
use crate::quantity::{ZERO_CELSIUS, kelvin, pascal};

/// Triple point of water, °C: the switch between ice and water in [`saturation`].
const TRIPLE_POINT: f64 = 0.01;
/// Range of the equations, °C.
const LOW: f64 = -100.0;
const HIGH: f64 = 200.0;

/// Natural logarithm of the saturation pressure (Pa) over ice at a temperature in kelvin.
/// ASHRAE Fundamentals, psychrometrics, equation 5 (Hyland and Wexler 1983).
fn ln_over_ice(t: f64) -> f64 {
    -5.674_535_9e3 / t
        + 6.392_524_7
        + t * (-9.677_843e-3 + t * (6.221_570_1e-7 + t * (2.074_782_5e-9 - t * 9.484_024e-13)))
        + 4.163_501_9 * t.ln()
}

/// Natural logarithm of the saturation pressure (Pa) over liquid water at a temperature in
/// kelvin. ASHRAE Fundamentals, psychrometrics, equation 6 (Hyland and Wexler 1983).
fn ln_over_water(t: f64) -> f64 {
    -5.800_220_6e3 / t
        + 1.391_499_3
        + t * (-4.864_023_9e-2 + t * (4.176_476_8e-5 - t * 1.445_209_3e-8))
        + 6.545_967_3 * t.ln()
}

fn slope_over_ice(t: f64) -> f64 {
    5.674_535_9e3 / (t * t) - 9.677_843e-3
        + t * (2.0 * 6.221_570_1e-7 + t * (3.0 * 2.074_782_5e-9 - t * 4.0 * 9.484_024e-13))
        + 4.163_501_9 / t
}

fn slope_over_water(t: f64) -> f64 {
    5.800_220_6e3 / (t * t) - 4.864_023_9e-2 + t * (2.0 * 4.176_476_8e-5 - t * 3.0 * 1.445_209_3e-8) + 6.545_967_3 / t
}

/// Saturation pressure (Pa) at a temperature in °C, over ice below the triple point: no range
/// check, for inner loops whose temperatures are already admitted.
pub(crate) fn saturation_pa(t_celsius: f64) -> f64 {
    let t = t_celsius + ZERO_CELSIUS;
    if t_celsius <= TRIPLE_POINT { ln_over_ice(t).exp() } else { ln_over_water(t).exp() }
}

/// Saturation pressure (Pa) over liquid water at a temperature in °C: no range check.
pub(crate) fn saturation_over_water_pa(t_celsius: f64) -> f64 {
    ln_over_water(t_celsius + ZERO_CELSIUS).exp()
}

fn admit_temperature(temperature: ThermodynamicTemperature, high: f64) -> Result<f64> {
    admit::within("temperature", temperature.value - ZERO_CELSIUS, LOW - 1e-9, high + 1e-9, "°C")
}

/// Saturation pressure over ice, −100 °C to the triple point (0.01 °C).
///
/// # Errors
/// A temperature outside that range.
pub fn saturation_over_ice(temperature: ThermodynamicTemperature) -> Result<Pressure> {
    admit_temperature(temperature, TRIPLE_POINT)?;
    Ok(pascal(ln_over_ice(temperature.value).exp()))
}

/// Saturation pressure over liquid water, −100 to 200 °C; below 0 °C it is that of supercooled
/// water, the convention of weather services.
///
/// # Errors
/// A temperature outside that range.
pub fn saturation_over_water(temperature: ThermodynamicTemperature) -> Result<Pressure> {
    admit_temperature(temperature, HIGH)?;
    Ok(pascal(ln_over_water(temperature.value).exp()))
}

/// Saturation pressure by the ASHRAE convention: over ice up to the triple point, over water
/// above it.
///
/// # Errors
/// A temperature outside −100 to 200 °C.
pub fn saturation(temperature: ThermodynamicTemperature) -> Result<Pressure> {
    let t = admit_temperature(temperature, HIGH)?;
    Ok(pascal(saturation_pa(t)))
}

/// Saturation pressure (Pa) at a temperature in °C by ISO 13788: no range check.
pub(crate) fn saturation_iso_13788_pa(t: f64) -> f64 {
    if t >= 0.0 { 610.5 * (17.269 * t / (237.3 + t)).exp() } else { 610.5 * (21.875 * t / (265.5 + t)).exp() }
}

/// Saturation pressure by ISO 13788:2012 equations E.7 and E.8, for use with that method only.
///
/// # Errors
/// A temperature outside −100 to 200 °C.
pub fn saturation_iso_13788(temperature: ThermodynamicTemperature) -> Result<Pressure> {
    let t = admit_temperature(temperature, HIGH)?;
    Ok(pascal(saturation_iso_13788_pa(t)))
}

/// Inverse of [`saturation_iso_13788`], ISO 13788:2012 equations E.9 and E.10.
///
/// # Errors
/// A pressure that is not positive, or whose temperature lies outside −100 to 200 °C.
pub fn temperature_at_saturation_iso_13788(vapor: Pressure) -> Result<ThermodynamicTemperature> {
    let p = admit::positive("vapor pressure", vapor.value, "Pa")?;
    let x = (p / 610.5).ln();
    let t = if x >= 0.0 { 237.3 * x / (17.269 - x) } else { 265.5 * x / (21.875 - x) };
    admit::within("dew point", t, LOW, HIGH, "°C")?;
    Ok(kelvin(t + ZERO_CELSIUS))
}

/// Solves ln p_sat(T) = ln p by Newton's method from a starting temperature (kelvin).
fn invert(ln_p: f64, start: f64, value: fn(f64) -> f64, slope: fn(f64) -> f64) -> f64 {
    let mut t = start;
    for _ in 0..50 {
        let step = (value(t) - ln_p) / slope(t);
        // The curve of ln p over T is concave, so that a long first step may overshoot.
        t = (t - step.clamp(-50.0, 50.0)).clamp(ZERO_CELSIUS + LOW - 20.0, ZERO_CELSIUS + HIGH + 20.0);
        if step.abs() < 1e-10 {
            break;
        }
    }
    t
}

/// Dew point, by the ASHRAE convention the frost point below the triple point: the temperature
/// at which `vapor` is the [`saturation`] pressure.
///
/// # Errors
/// A pressure that is not positive, or whose dew point lies outside −100 to 200 °C.
pub fn dew_point(vapor: Pressure) -> Result<ThermodynamicTemperature> {
    let p = admit::positive("vapor pressure", vapor.value, "Pa")?;
    let t = dew_point_kelvin(p);
    admit_temperature(kelvin(t), HIGH)?;
    Ok(kelvin(t))
}

/// Dew point (kelvin) of a positive vapor pressure in pascals.
fn dew_point_kelvin(p: f64) -> f64 {
    let ln_p = p.ln();
    let triple = ZERO_CELSIUS + TRIPLE_POINT;
    if ln_p <= ln_over_ice(triple) {
        invert(ln_p, 255.0, ln_over_ice, slope_over_ice)
    } else {
        invert(ln_p, 290.0, ln_over_water, slope_over_water).max(triple)
    }
}

/// Dew point over liquid water at every temperature: the convention of weather services.
///
/// # Errors
/// A pressure that is not positive, or whose dew point lies outside −100 to 200 °C.
pub fn dew_point_over_water(vapor: Pressure) -> Result<ThermodynamicTemperature> {
    let p = admit::positive("vapor pressure", vapor.value, "Pa")?;
    let t = invert(p.ln(), 280.0, ln_over_water, slope_over_water);
    admit_temperature(kelvin(t), HIGH)?;
    Ok(kelvin(t))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{celsius, to_celsius};
    use proptest::prelude::*;

    // ISO 13788 curve, computed from the equations of the standard.
    #[test]
    fn iso_13788_curve_at_three_temperatures() {
        for (t, p) in [(-10.0, 259.33), (5.0, 871.86), (20.0, 2336.95)] {
            let got = saturation_iso_13788(celsius(t)).unwrap().value;
            assert!((got - p).abs() < 0.01, "{t} {got}");
        }
    }

    // Below freezing, air saturated over water is supersaturated over ice: about 10 % at −10 °C
    // (physical chemistry tables, from memory).
    #[test]
    fn water_and_ice_differ_below_freezing() {
        let ice = saturation_over_ice(celsius(-10.0)).unwrap();
        let water = saturation_over_water(celsius(-10.0)).unwrap();
        let excess = (water / ice).value;
        assert!((1.09..1.11).contains(&excess), "{excess}");
        assert!(saturation_over_ice(celsius(5.0)).is_err());
    }

    proptest! {
        #[test]
        fn dew_point_inverts_saturation(t in -90.0f64..190.0) {
            let p = saturation(celsius(t)).unwrap();
            let back = to_celsius(dew_point(p).unwrap());
            // The two branches leave a gap of 0.005 Pa at the triple point.
            prop_assert!((back - t).abs() < 1e-3, "{} {}", t, back);
        }

        #[test]
        fn dew_point_over_water_inverts_its_curve(t in -60.0f64..190.0) {
            let p = saturation_over_water(celsius(t)).unwrap();
            let back = to_celsius(dew_point_over_water(p).unwrap());
            prop_assert!((back - t).abs() < 1e-7);
        }

        #[test]
        fn iso_13788_inverts(t in -60.0f64..100.0) {
            let p = saturation_iso_13788(celsius(t)).unwrap();
            let back = to_celsius(temperature_at_saturation_iso_13788(p).unwrap());
            prop_assert!((back - t).abs() < 1e-9);
        }

        #[test]
        fn saturation_rises_with_temperature(t in -90.0f64..190.0, step in 0.1f64..5.0) {
            prop_assert!(saturation(celsius(t + step)).unwrap() > saturation(celsius(t)).unwrap());
        }
    }
}
