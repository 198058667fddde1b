//! Single figures in words, in the units of the repository, where no table shows them.

use uom::si::f64::{ThermalConductance, VolumeRate};
use wythe_units::UnitSystem;

/// 1 Btu/(h·°F) in W/K, by the International Table Btu.
const BTU_PER_HOUR: f64 = 1_055.055_852_62 / 3_600.0 * 1.8;
const FOOT: f64 = 0.3048;
/// A US pint in cubic meters, exact.
const PINT: f64 = 0.000_473_176_473;

/// Heat for each degree.
pub(crate) fn conductance(value: ThermalConductance, system: UnitSystem) -> String {
    match system {
        UnitSystem::Us => format!("{:.1} Btu/(h·°F)", value.value / BTU_PER_HOUR),
        UnitSystem::Si => format!("{:.1} W/K", value.value),
    }
}

/// Heat for each degree, as a figure for a plot.
pub(crate) fn conductance_figure(value: ThermalConductance, system: UnitSystem) -> f64 {
    if system == UnitSystem::Us { value.value / BTU_PER_HOUR } else { value.value }
}

/// The unit of [`conductance_figure`].
pub(crate) const fn conductance_unit(system: UnitSystem) -> &'static str {
    match system {
        UnitSystem::Us => "Btu/(h·°F)",
        UnitSystem::Si => "W/K",
    }
}

/// A flow of air.
pub(crate) fn flow(value: VolumeRate, system: UnitSystem) -> String {
    match system {
        UnitSystem::Us => format!("{:.0} cfm", value.value * 60.0 / FOOT.powi(3)),
        UnitSystem::Si => format!("{:.1} L/s", 1_000.0 * value.value),
    }
}

/// Water a day.
pub(crate) fn water(value: VolumeRate, system: UnitSystem) -> String {
    let day = value.value * 86_400.0;
    match system {
        UnitSystem::Us => format!("{:.0} pints a day", day / PINT),
        UnitSystem::Si => format!("{:.1} L a day", day * 1_000.0),
    }
}
