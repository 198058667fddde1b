//! The mold index advanced hour by hour.

use uom::si::f64::ThermodynamicTemperature;

use super::class::{Decline, Sensitivity};
use crate::admit;
use crate::error::Result;
use crate::quantity::{RelativeHumidity, ZERO_CELSIUS};

/// Mold index M between 0 (none) and 6 (dense cover); 1 is the first growth seen under a
/// microscope, 3 the first seen by eye.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct MoldIndex(f64);

impl MoldIndex {
    /// An index.
    ///
    /// # Errors
    /// A value outside 0 to 6.
    pub fn new(value: f64) -> Result<Self> {
        admit::within("mold index", value, 0.0, 6.0, "").map(Self)
    }

    /// The number.
    #[must_use]
    pub fn value(self) -> f64 {
        self.0
    }
}

/// A surface on which the index is followed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MoldSurface {
    sensitivity: Sensitivity,
    decline: Decline,
    index: f64,
    /// Hours since conditions last favored growth.
    dry_hours: u32,
}

/// Lowest relative humidity (%) for growth at `t` °C.
fn critical_humidity(t: f64, lowest: f64) -> f64 {
    if t > 20.0 {
        return lowest;
    }
    (-0.002_67 * t.powi(3) + 0.160 * t * t - 3.13 * t + 100.0).max(lowest)
}

/// Weeks to the first microscopic growth on pine, W = SQ = 0; `ln_t` of °C, `ln_h` of %.
fn weeks_to_growth(ln_t: f64, ln_h: f64) -> f64 {
    (-0.68 * ln_t - 13.9 * ln_h + 66.02).exp()
}

impl MoldSurface {
    /// A clean surface.
    #[must_use]
    pub fn clean(sensitivity: Sensitivity, decline: Decline) -> Self {
        Self { sensitivity, decline, index: 0.0, dry_hours: 0 }
    }

    /// The index so far.
    #[must_use]
    pub fn index(&self) -> MoldIndex {
        MoldIndex(self.index.clamp(0.0, 6.0))
    }

    /// Advances the index by one hour at a surface temperature and humidity.
    ///
    /// # Errors
    /// A temperature outside −60 to 100 °C.
    pub fn advance(&mut self, temperature: ThermodynamicTemperature, humidity: RelativeHumidity) -> Result<MoldIndex> {
        let t = admit::within("surface temperature", temperature.value - ZERO_CELSIUS, -60.0, 100.0, "°C")?;
        self.hour(t, 100.0 * humidity.value());
        Ok(self.index())
    }

    /// One hour at `t` °C and `rh` %, both admitted.
    pub(crate) fn hour(&mut self, t: f64, rh: f64) {
        let constants = self.sensitivity.constants();
        let grows = t > 0.0 && t < 50.0 && rh >= constants.lowest;
        let critical = if grows { critical_humidity(t, constants.lowest) } else { 100.0 };
        if grows && rh >= critical && critical < 100.0 {
            self.dry_hours = 0;
            let x = (critical - rh) / (critical - 100.0);
            let highest = constants.a + constants.b * x - constants.c * x * x;
            let k2 = (1.0 - (2.3 * (self.index - highest)).exp()).max(0.0);
            if k2 > 0.0 {
                let (ln_t, ln_h) = (t.ln(), rh.ln());
                let weeks = weeks_to_growth(ln_t, ln_h);
                let (first, later) = constants.k1;
                let k1 = if self.index < 1.0 { first } else { later };
                self.index += k1 * k2 / (7.0 * 24.0 * weeks);
            }
        } else {
            self.dry_hours += 1;
            let per_hour = match self.dry_hours {
                0..=6 => 0.001_33,
                7..=24 => 0.0,
                _ => 0.000_667,
            };
            self.index = (self.index - per_hour * self.decline.factor()).max(0.0);
        }
    }
}

/// Lowest relative humidity at which mold grows at a temperature.
///
/// # Errors
/// A temperature outside 0 to 50 °C, where nothing grows.
pub fn critical_relative_humidity(
    temperature: ThermodynamicTemperature,
    sensitivity: Sensitivity,
) -> Result<RelativeHumidity> {
    let t = admit::within("surface temperature", temperature.value - ZERO_CELSIUS, 0.0, 50.0, "°C")?;
    RelativeHumidity::percent(critical_humidity(t, sensitivity.constants().lowest).min(100.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::celsius;

    // Hukka and Viitanen 1999, equations from memory: figures computed from them.
    #[test]
    fn critical_humidity_and_weeks() {
        for (t, want) in [(1.0, 97.027), (10.0, 82.030), (15.0, 80.039), (25.0, 80.0)] {
            assert!((critical_humidity(t, 80.0) - want).abs() < 1e-3);
        }
        for (t, rh, want) in [(20.0_f64, 97.0_f64, 1.484), (20.0, 90.0, 4.202), (5.0, 97.0, 3.808)] {
            assert!((weeks_to_growth(t.ln(), rh.ln()) - want).abs() < 1e-3);
        }
    }

    #[test]
    fn pine_after_four_wet_weeks() {
        let mut surface = MoldSurface::clean(Sensitivity::VerySensitive, Decline::Wood);
        for _ in 0..28 * 24 {
            surface.advance(celsius(20.0), RelativeHumidity::percent(97.0).unwrap()).unwrap();
        }
        assert!((surface.index().value() - 4.3575).abs() < 2e-3, "{:?}", surface.index());
    }

    // An independent code of the same equations: tests/reference/physics/mold.py.
    #[test]
    fn four_months_against_the_reference_table() {
        let mut table =
            csv::Reader::from_path(concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/reference/physics/mold.csv"))
                .unwrap();
        let rows: Vec<(String, u32, f64)> = table.deserialize().map(|r| r.unwrap()).collect();
        assert_eq!(rows.len(), 48);
        for (name, class) in [
            ("very_sensitive", Sensitivity::VerySensitive),
            ("sensitive", Sensitivity::Sensitive),
            ("medium", Sensitivity::MediumResistant),
            ("resistant", Sensitivity::Resistant),
        ] {
            let mut surface = MoldSurface::clean(class, Decline::Wood);
            let mut wanted = rows.iter().filter(|row| row.0 == name).peekable();
            for hour in 0..24 * 120 {
                let (t, rh) = match hour {
                    h if h < 24 * 40 => (20.0, 97.0),
                    h if h < 24 * 80 => (18.0, if h % 24 < 18 { 93.0 } else { 70.0 }),
                    _ => (15.0, 60.0),
                };
                surface.hour(t, rh);
                if let Some(row) = wanted.next_if(|row| row.1 == hour + 1) {
                    assert!((surface.index - row.2).abs() < 1e-6, "{name} {hour}");
                }
            }
            assert!(wanted.next().is_none());
        }
    }

    #[test]
    fn nothing_grows_cold_or_dry() {
        let mut surface = MoldSurface::clean(Sensitivity::VerySensitive, Decline::Wood);
        for t in [-20.0, -5.0, 0.0, 20.0, 60.0] {
            let rh = if t > 0.0 && t < 50.0 { 75.0 } else { 100.0 };
            for _ in 0..1000 {
                surface.advance(celsius(t), RelativeHumidity::percent(rh).unwrap()).unwrap();
            }
            assert!(surface.index().value() < 1e-12);
        }
        assert!(surface.advance(celsius(f64::NAN), RelativeHumidity::SATURATED).is_err());
    }
}
