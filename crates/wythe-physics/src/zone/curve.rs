//! The two curves of the inner loop as tables: saturation pressure and the wood isotherm.

use std::sync::LazyLock;

use crate::air::saturation::saturation_pa;
use crate::sorption::equilibrium;

const LOW: f64 = -80.0;
const HIGH: f64 = 100.0;
const PER_KELVIN: f64 = 10.0;

/// Saturation pressure every tenth of a kelvin; linear between, off by less than
/// 1e-4 of itself (at the kink of the triple point; 1e-5 elsewhere).
static SATURATION: LazyLock<Vec<f64>> = LazyLock::new(|| {
    (0..=((HIGH - LOW) * PER_KELVIN) as usize).map(|n| saturation_pa(LOW + n as f64 / PER_KELVIN)).collect()
});

const SORPTION_STEPS: usize = 512;

/// The wood isotherm at 15 °C at even steps of relative humidity.
static SORPTION: LazyLock<Vec<f64>> =
    LazyLock::new(|| (0..=SORPTION_STEPS).map(|n| equilibrium(15.0, n as f64 / SORPTION_STEPS as f64)).collect());

/// The tables, borrowed once so that the inner loop pays no check.
#[derive(Clone, Copy)]
pub(super) struct Curves {
    saturation: &'static [f64],
    sorption: &'static [f64],
}

impl Curves {
    pub(super) fn new() -> Self {
        Self { saturation: &SATURATION, sorption: &SORPTION }
    }

    /// Saturation pressure (Pa) at °C.
    pub(super) fn saturation(&self, t: f64) -> f64 {
        let x = ((t - LOW) * PER_KELVIN).clamp(0.0, (self.saturation.len() - 2) as f64);
        let n = (x as usize).min(self.saturation.len() - 2);
        let f = x - n as f64;
        self.saturation[n] + f * (self.saturation[n + 1] - self.saturation[n])
    }

    /// Moisture content (share of dry mass) in equilibrium with a relative humidity.
    pub(super) fn moisture(&self, humidity: f64) -> f64 {
        let x = humidity.clamp(0.0, 1.0) * SORPTION_STEPS as f64;
        let n = (x as usize).min(SORPTION_STEPS - 1);
        let f = x - n as f64;
        self.sorption[n] + f * (self.sorption[n + 1] - self.sorption[n])
    }

    /// Relative humidity in equilibrium with a moisture content, and the slope of moisture over
    /// humidity there. Above fiber saturation the humidity stays 1 and the slope stands for free
    /// water.
    pub(super) fn humidity(&self, moisture: f64) -> (f64, f64) {
        let last = self.sorption.len() - 1;
        if moisture >= self.sorption[last] {
            return (1.0, FREE_WATER_SLOPE);
        }
        let above = self.sorption.partition_point(|&m| m <= moisture).clamp(1, last);
        let (a, b) = (self.sorption[above - 1], self.sorption[above]);
        let f = ((moisture - a) / (b - a)).clamp(0.0, 1.0);
        ((above as f64 - 1.0 + f) / SORPTION_STEPS as f64, (b - a) * SORPTION_STEPS as f64)
    }
}

/// Slope of moisture over humidity above fiber saturation: large, so that the wood stays wet.
const FREE_WATER_SLOPE: f64 = 1.0e3;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tables_follow_their_curves() {
        let curves = Curves::new();
        for n in 0..1000 {
            let t = -40.0 + 0.0937 * f64::from(n);
            let exact = saturation_pa(t);
            assert!((curves.saturation(t) / exact - 1.0).abs() < 1e-4, "{t}");
        }
        for n in 0..=100 {
            let h = f64::from(n) / 100.0;
            let m = curves.moisture(h);
            assert!((m - equilibrium(15.0, h)).abs() < 2e-5);
            assert!((curves.humidity(m).0 - h).abs() < 1e-9);
        }
        assert!(curves.saturation(f64::NAN).is_nan());
        assert!(curves.saturation(-500.0) > 0.0);
    }
}
