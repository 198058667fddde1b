//! Moisture content of wood in equilibrium with air, by the Wood Handbook's equation.

use uom::si::f64::{Ratio, ThermodynamicTemperature};

use crate::admit;
use crate::error::Result;
use crate::quantity::{RelativeHumidity, ZERO_CELSIUS, ratio};

/// Equilibrium moisture content as a share of dry mass at `t` °C and relative humidity `h`:
/// Wood Handbook (USDA FPL-GTR-190), chapter 4, equation 4-5, Hailwood and Horrobin's two-hydrate
/// form. A public copy misprints the T² term of K tenfold; the handbook's table decides.
pub(crate) fn equilibrium(t: f64, h: f64) -> f64 {
    let w = 349.0 + 1.29 * t + 0.0135 * t * t;
    let k = 0.805 + 7.36e-4 * t - 2.73e-6 * t * t;
    let k1 = 6.27 - 9.38e-3 * t - 3.03e-4 * t * t;
    let k2 = 1.91 + 4.07e-2 * t - 2.93e-4 * t * t;
    let kh = k * h;
    let first = k1 * kh;
    let second = k1 * k2 * kh * kh;
    18.0 / w * (kh / (1.0 - kh) + (first + 2.0 * second) / (1.0 + first + second))
}

/// Equilibrium moisture content of wood, share of dry mass.
///
/// The equation describes adsorbed water; it ends at fiber saturation, near 28 to 30 %.
///
/// # Errors
/// A temperature outside −20 to 60 °C, beyond which the fit was not made.
pub fn equilibrium_moisture(temperature: ThermodynamicTemperature, humidity: RelativeHumidity) -> Result<Ratio> {
    let t = admit_temperature(temperature)?;
    Ok(ratio(equilibrium(t, humidity.value())))
}

/// Relative humidity at which wood of a moisture content neither gains nor loses water; saturated
/// above fiber saturation.
///
/// # Errors
/// A temperature outside −20 to 60 °C, a moisture content outside 0 to 3.
pub fn equilibrium_humidity(temperature: ThermodynamicTemperature, moisture: Ratio) -> Result<RelativeHumidity> {
    let t = admit_temperature(temperature)?;
    let m = admit::within("wood moisture content", moisture.value, 0.0, 3.0, "")?;
    let (mut low, mut high) = (0.0, 1.0);
    if m >= equilibrium(t, 1.0) {
        return Ok(RelativeHumidity::SATURATED);
    }
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if equilibrium(t, middle) < m {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(RelativeHumidity::clamped(0.5 * (low + high)))
}

fn admit_temperature(temperature: ThermodynamicTemperature) -> Result<f64> {
    admit::within("wood temperature", temperature.value - ZERO_CELSIUS, -20.0, 60.0, "°C")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{celsius, fahrenheit};
    use proptest::prelude::*;

    // Wood Handbook table 4-2 at 70 °F (from memory): 6.2, 9.2, 12.0, 16.0, 20.5 and 23.9 % at
    // 30, 50, 65, 80, 90 and 95 %. The handbook's Fahrenheit constants, rounded apart from the
    // Celsius ones used here, give the second column: they agree within 0.012.
    #[test]
    fn handbook_row_at_seventy_fahrenheit() {
        for (rh, equation, table) in [
            (30.0, 6.17, 6.2),
            (50.0, 9.25, 9.2),
            (65.0, 11.96, 12.0),
            (80.0, 16.00, 16.0),
            (90.0, 20.49, 20.5),
            (95.0, 23.90, 23.9),
        ] {
            let h = RelativeHumidity::percent(rh).unwrap();
            let m = 100.0 * equilibrium_moisture(fahrenheit(70.0), h).unwrap().value;
            assert!((m - equation).abs() < 0.012, "{rh}: {m}");
            assert!((m - table).abs() < 0.1, "{rh}: {m}");
        }
    }

    proptest! {
        #[test]
        fn isotherm_rises_and_inverts(t in -10.0f64..45.0, h in 0.01f64..0.97) {
            let m = equilibrium_moisture(celsius(t), RelativeHumidity::clamped(h)).unwrap();
            let more = equilibrium_moisture(celsius(t), RelativeHumidity::clamped(h + 0.01)).unwrap();
            prop_assert!(more > m);
            let back = equilibrium_humidity(celsius(t), m).unwrap();
            prop_assert!((back.value() - h).abs() < 1e-9);
        }
    }
}
