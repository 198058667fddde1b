//! Surface films: the resistance of the air at a surface, by direction of heat flow.

use crate::quantity::{ThermalInsulance, insulance_si, insulance_us};

/// Direction of the heat flow at a surface.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum HeatFlow {
    /// Through a wall.
    Horizontal,
    /// Up, through a ceiling, or from below into a cold floor.
    Upward,
    /// Down, through a floor.
    Downward,
}

/// Inside surface resistance R_si, ISO 6946:2017 table 7: 0.13, 0.10 and 0.17 m²·K/W.
#[must_use]
pub fn inside_film(flow: HeatFlow) -> ThermalInsulance {
    insulance_si(match flow {
        HeatFlow::Horizontal => 0.13,
        HeatFlow::Upward => 0.10,
        HeatFlow::Downward => 0.17,
    })
}

/// Outside surface resistance R_se, ISO 6946:2017 table 7: 0.04 m²·K/W.
#[must_use]
pub fn outside_film() -> ThermalInsulance {
    insulance_si(0.04)
}

/// Inside surface resistance for the check of mold and condensation at a surface,
/// ISO 13788:2012 clause 4.4.1: 0.25 m²·K/W (a sheltered corner).
#[must_use]
pub fn sheltered_film() -> ThermalInsulance {
    insulance_si(0.25)
}

/// US still-air film of a vertical surface: 0.68 h·ft²·°F/Btu (ASHRAE Fundamentals, surface
/// conductance table).
#[must_use]
pub fn inside_film_us() -> ThermalInsulance {
    insulance_us(0.68)
}

/// US outside film at 15 mph wind: 0.17 h·ft²·°F/Btu (ASHRAE Fundamentals, from memory).
#[must_use]
pub fn outside_film_us() -> ThermalInsulance {
    insulance_us(0.17)
}
