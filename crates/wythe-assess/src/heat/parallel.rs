//! Parts where framing and insulation lie side by side, by the two limits of ISO 6946:2017, 6.7.2: the rim between its
//! joists and the insulated floor over a space.

use uom::si::f64::{HeatTransfer, Ratio};
use wythe_model::ThermalResistance;
use wythe_physics::heat::combined::{CombinedResistance, HeatPath, combined};
use wythe_physics::heat::film::{HeatFlow, inside_film, inside_film_us, outside_film_us};
use wythe_physics::quantity::insulance_us;

use super::loss::{RIM_BOARD, RIM_INSULATION};
use crate::Assumptions;
use crate::assumption::{ASSUMED, COMMON};
use crate::figure::share;

/// A part with parallel paths, by both limits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ParallelPart {
    /// What it is.
    pub name: &'static str,
    /// Total resistance with heat in parallel paths.
    pub upper: ThermalResistance,
    /// Total resistance with planes of one temperature.
    pub lower: ThermalResistance,
    /// Upper over lower limit; over 1.5 the method does not hold.
    pub ratio: Ratio,
    /// Transmittance by the mean of the limits; none where the method does not hold.
    pub transmittance: Option<HeatTransfer>,
}

/// Joists of 1-1/2 in at 16 in.
const JOISTS: f64 = 1.5 / 16.0;
/// Resistance of softwood, h·ft²·°F/Btu an inch (ASHRAE Handbook of Fundamentals, building materials table, from memory).
const SOFTWOOD: f64 = 1.25;
/// Batt between the joists of an insulated floor, in the depth of a 2x10.
const FLOOR_INSULATION: f64 = 19.0;
const JOIST_DEPTH: f64 = 9.25;
/// Deck and finish over it.
const DECK: f64 = 1.6;
/// Depth of the insulation on the rim, in inches: a 2x4's.
const RIM_DEPTH: f64 = 3.5;

fn paths(
    films: [ThermalResistance; 2],
    between: f64,
    wood: f64,
    over: f64,
) -> Result<CombinedResistance, wythe_physics::PhysicsError> {
    let path = |part: f64, r: f64| HeatPath { share: share(part), layers: vec![insulance_us(r), insulance_us(over)] };
    combined(films[0], &[path(1.0 - JOISTS, between), path(JOISTS, wood)], films[1])
}

fn rim() -> Result<CombinedResistance, wythe_physics::PhysicsError> {
    paths([inside_film_us(), outside_film_us()], RIM_INSULATION, RIM_DEPTH * SOFTWOOD, RIM_BOARD)
}

fn floor() -> Result<CombinedResistance, wythe_physics::PhysicsError> {
    let film = inside_film(HeatFlow::Downward);
    paths([film, film], FLOOR_INSULATION, JOIST_DEPTH * SOFTWOOD, DECK)
}

fn note(assumed: &mut Assumptions) {
    assumed.note("joists beside insulation", "1-1/2 in at 16 in, softwood of R-1.25 an inch", COMMON);
}

/// The resistance of the insulation on the rim with the joist ends through it, films and rim board left out.
pub(super) fn rim_insulation(assumed: &mut Assumptions) -> ThermalResistance {
    note(assumed);
    assumed.note("insulation of a rim that is called insulated", "R-13, 3-1/2 in between the joists", ASSUMED);
    let around = inside_film_us() + outside_film_us() + insulance_us(RIM_BOARD);
    rim().map_or_else(|_| insulance_us(RIM_INSULATION), |r| r.resistance - around)
}

/// The resistance of the insulated floor over a space, films left out.
pub(crate) fn insulated_floor(assumed: &mut Assumptions) -> ThermalResistance {
    note(assumed);
    assumed.note(
        "floor over a vented space",
        "R-19 between 2x10 joists, deck and finish of R-1.6",
        "International Energy Conservation Code table R402.1.2, floor, zones 3 and 4 (from memory)",
    );
    let films = inside_film(HeatFlow::Downward) * 2.0;
    floor().map_or_else(|_| insulance_us(FLOOR_INSULATION + DECK), |r| r.resistance - films)
}

/// The parts of a foundation that have parallel paths.
pub(super) fn parts(rim_insulated: bool) -> Vec<ParallelPart> {
    let part = |name, found: Result<CombinedResistance, _>| {
        let found = found.ok()?;
        Some(ParallelPart {
            name,
            upper: found.upper,
            lower: found.lower,
            ratio: found.limit_ratio,
            transmittance: found.within_method().then_some(found.transmittance),
        })
    };
    let rim = if rim_insulated { part("rim between its joists", rim()) } else { None };
    rim.into_iter().chain(part("floor over a vented space, between its joists", floor())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use wythe_physics::quantity::r_value_us;

    // By hand, in h·ft²·°F/Btu. Rim: films .68 and .17, board 1.88; paths 13 and 4.375, of .90625 and .09375.
    // Upper: 1/(.90625/15.73 + .09375/7.105) = 14.123; lower: 2.73 + 1/(.90625/13 + .09375/4.375) = 13.702.
    #[test]
    fn rim_by_hand() {
        let rim = parts(true)[0];
        assert!((r_value_us(rim.upper) - 14.123).abs() < 0.002, "{}", r_value_us(rim.upper));
        assert!((r_value_us(rim.lower) - 13.702).abs() < 0.002, "{}", r_value_us(rim.lower));
        assert!(rim.transmittance.is_some() && rim.ratio.value < 1.5);
        assert_eq!(parts(false).len(), 1);
    }
}
