//! Figures of heat and moisture as fields, in US or SI units; programs always get SI.

use uom::si::f64::{
    Area, Energy, HeatTransfer, Length, Mass, MassRate, Ratio, ThermalConductance, ThermalConductivity,
    ThermodynamicTemperature, VolumeRate,
};
use wythe_model::{Interval, Permeance, ThermalResistance};
use wythe_units::UnitSystem;

use crate::tables::{Cell, Shower};

/// Exact or conventional factors from SI to US units: Btu(IT), foot, pound, grain, US pint.
const BTU: f64 = 1_055.055_852_62;
const FOOT: f64 = 0.3048;
const POUND: f64 = 0.453_592_37;
const PINT: f64 = 0.473_176_473;
const PERM: f64 = 5.721_35e-11;
/// 1 Btu/(h·°F) in W/K.
const BTU_PER_HOUR: f64 = BTU / 3_600.0 * 1.8;

/// Shows the figures of a repository.
#[derive(Clone, Copy)]
pub(super) struct Figures<'a> {
    show: &'a Shower<'a>,
    us: bool,
}

fn cell(shown: String, si: f64, unit: &'static str) -> Cell {
    Cell::Quantity { shown, si, unit }
}

impl<'a> Figures<'a> {
    pub(super) fn new(show: &'a Shower<'a>) -> Self {
        Figures { show, us: show.display.system == UnitSystem::Us }
    }

    pub(super) fn length(&self, length: Length) -> Cell {
        self.show.length(length)
    }

    /// The thickness of a layer; of a film in mils where units are those of the United States.
    pub(super) fn thickness(&self, thickness: Length) -> Cell {
        let si = thickness.value;
        if si >= 0.003 {
            return self.length(thickness);
        }
        let shown = if self.us { format!("{:.0} mil", si / 2.54e-5) } else { format!("{:.2} mm", 1_000.0 * si) };
        cell(shown, si, "m")
    }

    pub(super) fn area(&self, area: Area) -> Cell {
        let si = area.value;
        if self.us {
            return cell(format!("{:.1} ft2", si / FOOT / FOOT), si, "m2");
        }
        cell(format!("{si:.2} m2"), si, "m2")
    }

    pub(super) fn share(&self, share: Ratio) -> Cell {
        cell(format!("{:.1} %", 100.0 * share.value), share.value, "1")
    }

    pub(super) fn u(&self, u: HeatTransfer) -> Cell {
        let si = u.value;
        let shown = if self.us {
            format!("{:.4} Btu/(h ft2 degF)", si / BTU_PER_HOUR * FOOT * FOOT)
        } else {
            format!("{si:.3} W/(m2 K)")
        };
        cell(shown, si, "W/(m2 K)")
    }

    /// A transmittance with its bounds, where it has some.
    pub(super) fn u_range(&self, u: Interval<HeatTransfer>) -> Cell {
        let mid = self.u(u.mid);
        let number = |u: HeatTransfer| {
            if self.us { format!("{:.4}", u.value / BTU_PER_HOUR * FOOT * FOOT) } else { format!("{:.3}", u.value) }
        };
        let (low, high) = (number(u.low), number(u.high));
        if low == high {
            return mid;
        }
        cell(format!("{} ({low} to {high})", mid.shown()), u.mid.value, "W/(m2 K)")
    }

    pub(super) fn resistance(&self, r: Interval<ThermalResistance>) -> Cell {
        let number = |r: ThermalResistance| {
            if self.us { format!("{:.2}", us_r_value(r)) } else { format!("{:.3}", r.value) }
        };
        let (low, mid, high) = (number(r.low), number(r.mid), number(r.high));
        let mut shown = if self.us { format!("R-{mid}") } else { format!("{mid} m2 K/W") };
        if low != high {
            shown += &format!(" ({low} to {high})");
        }
        cell(shown, r.mid.value, "m2 K/W")
    }

    pub(super) fn permeance(&self, p: Interval<Permeance>) -> Cell {
        let si = p.mid.value;
        let number = |p: Permeance| if self.us { p.value / PERM } else { p.value * 1e12 };
        let unit = if self.us { "perm" } else { "ng/(s m2 Pa)" };
        let mut shown = format!("{:.3} {unit}", number(p.mid));
        if p.low < p.high {
            shown += &format!(" ({:.3} to {:.3})", number(p.low), number(p.high));
        }
        cell(shown, si, "kg/(s m2 Pa)")
    }

    pub(super) fn conductance(&self, g: ThermalConductance) -> Cell {
        let si = g.value;
        let shown = if self.us { format!("{:.2} Btu/(h degF)", si / BTU_PER_HOUR) } else { format!("{si:.2} W/K") };
        cell(shown, si, "W/K")
    }

    pub(super) fn conductivity(&self, k: Interval<ThermalConductivity>) -> String {
        let number = |k: ThermalConductivity| if self.us { k.value / (BTU_PER_HOUR / FOOT) } else { k.value };
        let unit = if self.us { "Btu/(h ft degF)" } else { "W/(m K)" };
        if k.low < k.high {
            format!("{:.2} {unit} ({:.2} to {:.2})", number(k.mid), number(k.low), number(k.high))
        } else {
            format!("{:.2} {unit}", number(k.mid))
        }
    }

    /// Heat for each length of wall and degree.
    pub(super) fn along(&self, psi: ThermalConductivity) -> Cell {
        let si = psi.value;
        let shown = if self.us {
            format!("{:.3} Btu/(h ft degF)", si / (BTU_PER_HOUR / FOOT))
        } else {
            format!("{si:.3} W/(m K)")
        };
        cell(shown, si, "W/(m K)")
    }

    pub(super) fn temperature(&self, t: ThermodynamicTemperature) -> Cell {
        let c = t.value - 273.15;
        let shown = if self.us { format!("{:.1} degF", 1.8 * c + 32.0) } else { format!("{c:.1} degC") };
        cell(shown, t.value, "K")
    }

    pub(super) fn mass(&self, mass: Mass) -> Cell {
        let si = mass.value;
        let shown = if self.us { format!("{:.1} lb", si / POUND) } else { format!("{si:.1} kg") };
        cell(unsigned_nought(shown), si, "kg")
    }

    /// Water a day: pints where units are those of the United States.
    pub(super) fn water_a_day(&self, mass: Mass) -> Cell {
        let si = mass.value;
        let shown = if self.us { format!("{:.2} pint/day", si / PINT) } else { format!("{si:.2} L/day") };
        cell(shown, si / 86_400.0, "kg/s")
    }

    pub(super) fn water_rate(&self, rate: MassRate) -> Cell {
        let day = rate.value * 86_400.0;
        let shown = if self.us { format!("{:.1} pint/day", day / PINT) } else { format!("{day:.1} L/day") };
        cell(shown, rate.value, "kg/s")
    }

    pub(super) fn flow(&self, flow: VolumeRate) -> Cell {
        let si = flow.value;
        let shown =
            if self.us { format!("{:.1} cfm", si * 60.0 / FOOT.powi(3)) } else { format!("{:.1} L/s", 1_000.0 * si) };
        cell(shown, si, "m3/s")
    }

    pub(super) fn energy(&self, energy: Energy) -> Cell {
        cell(unsigned_nought(format!("{:.0} kWh", energy.value / 3.6e6)), energy.value, "J")
    }
}

/// Nought has no sign, however little is rounded to it.
fn unsigned_nought(shown: String) -> String {
    match shown.strip_prefix('-') {
        Some(rest) if !rest.bytes().any(|b| (b'1'..=b'9').contains(&b)) => rest.to_owned(),
        _ => shown,
    }
}

/// The US R-value of a resistance.
fn us_r_value(r: ThermalResistance) -> f64 {
    r.value * BTU_PER_HOUR / FOOT / FOOT
}
