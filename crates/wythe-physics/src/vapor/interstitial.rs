//! Monthly condensation and drying inside a build-up, ISO 13788:2012 clause 6, over all planes.
//!
//! The vapor pressure through the build-up is a taut string under the saturation curve, held at
//! saturation at every plane that is still wet. Limits of the method, to be printed with every
//! result: steady months, no liquid flow, no storage in the materials, no air leakage, constant
//! conductivities, no latent heat.

use uom::si::areal_mass_density::kilogram_per_square_meter;
use uom::si::f64::{ArealMassDensity, Length, ThermodynamicTemperature};

use super::permeance::STILL_AIR;
use crate::admit;
use crate::air::saturation::saturation_iso_13788_pa;
use crate::error::{PhysicsError, Result};
use crate::quantity::{RelativeHumidity, ThermalInsulance, ZERO_CELSIUS, celsius};

/// One layer, from the inside out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VaporLayer {
    /// Thermal resistance; may be zero for a membrane.
    pub resistance: ThermalInsulance,
    /// Equivalent air layer.
    pub s_d: Length,
}

/// The build-up, from the inside out.
#[derive(Debug, Clone, PartialEq)]
pub struct VaporSection {
    /// Inside film: 0.25 m²·K/W in the standard's check.
    pub inside_film: ThermalInsulance,
    /// Layers from the inside out.
    pub layers: Vec<VaporLayer>,
    /// Outside film; zero against earth.
    pub outside_film: ThermalInsulance,
}

/// Air on both sides in one month.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VaporMonth {
    /// Inside temperature.
    pub inside: ThermodynamicTemperature,
    /// Inside relative humidity.
    pub inside_humidity: RelativeHumidity,
    /// Outside temperature (of the soil, against earth).
    pub outside: ThermodynamicTemperature,
    /// Outside relative humidity (1 against damp earth).
    pub outside_humidity: RelativeHumidity,
    /// Days in the month.
    pub days: u16,
}

/// Water put in at the start, between two layers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BuiltInWater {
    /// The plane: 1 lies after the first layer.
    pub after_layer: usize,
    /// Amount per area.
    pub amount: ArealMassDensity,
}

/// One month's result at each plane between layers.
#[derive(Debug, Clone, PartialEq)]
pub struct MonthAtPlanes {
    /// Index into the months given.
    pub month: usize,
    /// Temperature at each plane.
    pub temperatures: Vec<ThermodynamicTemperature>,
    /// Water that condensed (positive) or dried (negative) at each plane.
    pub change: Vec<ArealMassDensity>,
    /// Water held at each plane at the end of the month.
    pub held: Vec<ArealMassDensity>,
    /// Whether vapor is above saturation at the inside surface itself.
    pub surface_condensation: bool,
}

/// Verdict over the year.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum InterstitialVerdict {
    /// No condensation in any month.
    Free,
    /// Condensation that dries within the year.
    DriesOut,
    /// Water remains after a year: it would build up.
    Accumulates,
}

/// A year of months at every plane.
#[derive(Debug, Clone, PartialEq)]
pub struct InterstitialYear {
    /// Months in the order computed, beginning with the first that condenses.
    pub months: Vec<MonthAtPlanes>,
    /// Most water held at all planes together at the end of any month.
    pub peak: ArealMassDensity,
    /// The verdict.
    pub verdict: InterstitialVerdict,
}

/// Layers of more resistance than this are split, ISO 13788:2012 clause 6.3.2, m²·K/W.
const SPLIT_ABOVE: f64 = 0.25;

/// The section cut into sub-layers, in plain numbers.
struct Cut {
    /// Resistance from inside air to each node, film included.
    resistance: Vec<f64>,
    /// Air layer from the inside surface to each node.
    s_d: Vec<f64>,
    /// Node index of the plane after each layer but the last.
    planes: Vec<usize>,
    total_resistance: f64,
}

impl VaporSection {
    fn cut(&self) -> Result<Cut> {
        if self.layers.is_empty() {
            return Err(PhysicsError::Empty { what: "list of layers".into() });
        }
        let mut r = admit::not_negative("inside film", self.inside_film.value, "m²·K/W")?;
        let outside = admit::not_negative("outside film", self.outside_film.value, "m²·K/W")?;
        let (mut resistance, mut s_d, mut planes) = (vec![r], vec![0.0], Vec::new());
        let mut s = 0.0;
        for (index, layer) in self.layers.iter().enumerate() {
            let name = |part: &str| format!("{part} of layer {}", index + 1);
            let lr = admit::not_negative(name("resistance"), layer.resistance.value, "m²·K/W")?;
            let ls = admit::positive(name("air layer"), layer.s_d.value, "m")?;
            admit::within(name("resistance"), lr, 0.0, 1_000.0, "m²·K/W")?;
            let parts = (lr / SPLIT_ABOVE).ceil().max(1.0);
            for _ in 0..parts as usize {
                r += lr / parts;
                s += ls / parts;
                resistance.push(r);
                s_d.push(s);
            }
            if index + 1 < self.layers.len() {
                planes.push(resistance.len() - 1);
            }
        }
        let total = admit::positive("total resistance", r + outside, "m²·K/W")?;
        Ok(Cut { resistance, s_d, planes, total_resistance: total })
    }
}

/// Plain values of a month.
struct Air {
    saturation: Vec<f64>,
    temperatures: Vec<f64>,
    inside: f64,
    outside: f64,
    seconds: f64,
    surface_condensation: bool,
}

fn air_of(cut: &Cut, month: &VaporMonth, number: usize) -> Result<Air> {
    let celsius_of = |part: &str, t: ThermodynamicTemperature| {
        admit::within(format!("{part} temperature of month {}", number + 1), t.value - ZERO_CELSIUS, -60.0, 60.0, "°C")
    };
    let t_i = celsius_of("inside", month.inside)?;
    let t_e = celsius_of("outside", month.outside)?;
    admit::within(format!("days of month {}", number + 1), f64::from(month.days), 1.0, 366.0, "d")?;
    let temperatures: Vec<f64> = cut.resistance.iter().map(|r| t_i - (t_i - t_e) * r / cut.total_resistance).collect();
    let saturation: Vec<f64> = temperatures.iter().map(|&t| saturation_iso_13788_pa(t)).collect();
    let last = saturation.len() - 1;
    let inside = saturation_iso_13788_pa(t_i) * month.inside_humidity.value();
    let outside = saturation_iso_13788_pa(t_e) * month.outside_humidity.value();
    Ok(Air {
        inside: inside.min(saturation[0]),
        outside: outside.min(saturation[last]),
        surface_condensation: inside > saturation[0] * (1.0 + 1e-12),
        seconds: 86_400.0 * f64::from(month.days),
        saturation,
        temperatures,
    })
}

/// Rate of condensation at every node, kg/(m²·s), negative for drying, given the wet nodes.
fn rates(cut: &Cut, air: &Air, held: &[f64]) -> Vec<f64> {
    let last = cut.s_d.len() - 1;
    let pressure = |node: usize| match node {
        0 => air.inside,
        n if n == last => air.outside,
        n => air.saturation[n],
    };
    // Lower convex hull of the saturation points, restarted at each wet node: the taut string.
    let mut string: Vec<usize> = vec![0];
    let mut anchor = 0;
    for (node, &water) in held.iter().enumerate().skip(1) {
        while string.len() > anchor + 1 {
            let (a, b) = (string[string.len() - 2], string[string.len() - 1]);
            let slope_ab = (pressure(b) - pressure(a)) / (cut.s_d[b] - cut.s_d[a]);
            let slope_an = (pressure(node) - pressure(a)) / (cut.s_d[node] - cut.s_d[a]);
            if slope_ab >= slope_an {
                string.pop();
            } else {
                break;
            }
        }
        string.push(node);
        if water > 0.0 {
            anchor = string.len() - 1;
        }
    }
    let mut out = vec![0.0; last + 1];
    for window in string.windows(3) {
        let [a, b, c] = [window[0], window[1], window[2]];
        let inflow = (pressure(a) - pressure(b)) / (cut.s_d[b] - cut.s_d[a]);
        let outflow = (pressure(b) - pressure(c)) / (cut.s_d[c] - cut.s_d[b]);
        out[b] = STILL_AIR * (inflow - outflow);
    }
    out
}

/// Runs one month, letting planes run dry within it.
fn run_month(cut: &Cut, air: &Air, held: &mut [f64]) {
    let mut left = air.seconds;
    // Each pass ends the month or dries at least one node, so that passes are bounded.
    for _ in 0..=2 * held.len() {
        let rate = rates(cut, air, held);
        let mut step = left;
        for (node, &r) in rate.iter().enumerate() {
            if r < 0.0 && held[node] > 0.0 {
                step = step.min(held[node] / -r);
            }
        }
        for (node, &r) in rate.iter().enumerate() {
            held[node] += r * step;
            if held[node] < 1e-12 {
                held[node] = 0.0;
            }
        }
        left -= step;
        if left <= 0.0 {
            break;
        }
    }
}

fn areal(value: f64) -> ArealMassDensity {
    ArealMassDensity::new::<kilogram_per_square_meter>(value)
}

/// Gathers what sub-layer nodes hold onto the planes between layers: condensate inside a split
/// layer is reported at its outer plane, or its inner one for the last layer.
fn at_planes(cut: &Cut, nodes: &[f64]) -> Vec<f64> {
    let mut out = vec![0.0; cut.planes.len()];
    if out.is_empty() {
        return out;
    }
    for (node, &value) in nodes.iter().enumerate() {
        let plane = cut.planes.partition_point(|&p| p < node).min(out.len() - 1);
        out[plane] += value;
    }
    out
}

fn month_result(cut: &Cut, air: &Air, month: usize, before: &[f64], after: &[f64]) -> MonthAtPlanes {
    let (old, new) = (at_planes(cut, before), at_planes(cut, after));
    MonthAtPlanes {
        month,
        temperatures: cut.planes.iter().map(|&n| celsius(air.temperatures[n])).collect(),
        change: new.iter().zip(&old).map(|(n, o)| areal(n - o)).collect(),
        held: new.into_iter().map(areal).collect(),
        surface_condensation: air.surface_condensation,
    }
}

/// A year of condensation and drying, beginning with the first month that condenses after one
/// that does not (ISO 13788:2012 clause 6.4).
///
/// # Errors
/// Inadmissible layers or months, or no months.
pub fn interstitial_year(section: &VaporSection, months: &[VaporMonth]) -> Result<InterstitialYear> {
    let cut = section.cut()?;
    let airs = admit_months(&cut, months)?;
    let condenses: Vec<bool> =
        airs.iter().map(|air| rates(&cut, air, &vec![0.0; cut.s_d.len()]).iter().any(|&r| r > 1e-16)).collect();
    let count = months.len();
    let start = (0..count).find(|&m| condenses[m] && !condenses[(m + count - 1) % count]).unwrap_or(0);
    let mut held = vec![0.0; cut.s_d.len()];
    let mut out = Vec::with_capacity(count);
    let mut peak = 0.0_f64;
    for offset in 0..count {
        let month = (start + offset) % count;
        let before = held.clone();
        run_month(&cut, &airs[month], &mut held);
        peak = peak.max(held.iter().sum());
        out.push(month_result(&cut, &airs[month], month, &before, &held));
    }
    let verdict = if !condenses.contains(&true) {
        InterstitialVerdict::Free
    } else if held.iter().sum::<f64>() > 1e-9 {
        InterstitialVerdict::Accumulates
    } else {
        InterstitialVerdict::DriesOut
    };
    Ok(InterstitialYear { months: out, peak: areal(peak), verdict })
}

/// How built-in water dries.
#[derive(Debug, Clone, PartialEq)]
pub struct Drying {
    /// Months computed, from the start.
    pub months: Vec<MonthAtPlanes>,
    /// Number of months until all planes are dry; none if water remains after ten years.
    pub dry_after: Option<usize>,
}

/// Drying of water built in between two layers (a wet wall covered), ISO 13788:2012 clause 7:
/// runs the months around from `start` until every plane is dry, ten years at most.
///
/// # Errors
/// As [`interstitial_year`]; a plane that does not exist, an amount that is not positive, a start
/// beyond the months.
pub fn drying(section: &VaporSection, months: &[VaporMonth], start: usize, water: &BuiltInWater) -> Result<Drying> {
    let cut = section.cut()?;
    let airs = admit_months(&cut, months)?;
    let amount = admit::positive("built-in water", water.amount.value, "kg/m²")?;
    let node = water.after_layer.checked_sub(1).and_then(|plane| cut.planes.get(plane).copied()).ok_or_else(|| {
        PhysicsError::Contradiction {
            what: "plane of built-in water".into(),
            why: format!("must lie after a layer between 1 and {}", cut.planes.len()).into(),
        }
    })?;
    if start >= months.len() {
        return Err(PhysicsError::Contradiction {
            what: "first month".into(),
            why: "is beyond the months given".into(),
        });
    }
    let mut held = vec![0.0; cut.s_d.len()];
    held[node] = amount;
    let mut out = Vec::new();
    let mut dry_after = None;
    for offset in 0..10 * months.len() {
        let month = (start + offset) % months.len();
        let before = held.clone();
        run_month(&cut, &airs[month], &mut held);
        out.push(month_result(&cut, &airs[month], month, &before, &held));
        if held.iter().sum::<f64>() <= 1e-9 {
            dry_after = Some(offset + 1);
            break;
        }
    }
    Ok(Drying { months: out, dry_after })
}

fn admit_months(cut: &Cut, months: &[VaporMonth]) -> Result<Vec<Air>> {
    if months.is_empty() {
        return Err(PhysicsError::Empty { what: "list of months".into() });
    }
    months.iter().enumerate().map(|(number, month)| air_of(cut, month, number)).collect()
}
