//! `section`: the crawl wall in its ground in two dimensions, at the mesh in use and at ones coarser and finer, with the
//! loss each gives.

use std::io;
use std::time::{Duration, Instant};

use uom::si::f64::{Length, ThermalConductivity};
use uom::si::length::meter;
use uom::si::thermal_conductivity::watt_per_meter_kelvin;
use wythe_physics::heat::section::mesh::Fineness;
use wythe_physics::heat::section::solve::solve;
use wythe_physics::heat::section::wall_ground::{INSIDE, WallGround, default_fineness, equivalent_conductivity};
use wythe_physics::quantity::{celsius, insulance_si, insulance_us};

use crate::timing::median;
use crate::workplace::Workplace;

const ROUNDS: usize = 5;
/// What the design asks for: a second, at a mesh whose refinement changes the loss by less than half a percent.
const LIMIT: Duration = Duration::from_secs(1);

pub(crate) fn run(_: &Workplace) -> io::Result<()> {
    let m = Length::new::<meter>;
    let lambda = ThermalConductivity::new::<watt_per_meter_kelvin>;
    let block = equivalent_conductivity(m(0.194), insulance_us(1.04)).map_err(io::Error::other)?;
    let wall = WallGround {
        half_width: m(2.1),
        depth: m(0.6),
        height: m(0.3),
        wall_thickness: m(0.194),
        wall_conductivity: block,
        insulation_thickness: m(0.051),
        insulation_conductivity: lambda(0.024),
        bare_band: m(0.1),
        soil_conductivity: lambda(1.0),
        floor: insulance_si(0.0),
        wall_film: insulance_si(0.13),
        floor_film: insulance_si(0.17),
        outside_film: insulance_si(0.04),
        inside: celsius(20.0),
        outside: celsius(0.0),
    };
    let section = wall.section().map_err(io::Error::other)?;
    let own = default_fineness(wall.half_width);
    let mut loss_in_use = None;
    // Half, one and two cells where there is one now, and so on: the finer ones are what the one in use is held to.
    for (name, scale) in [("coarser", 2.0), ("in use", 1.0), ("finer", 0.5), ("finest", 0.25)] {
        let growth = 1.0 + (own.growth.value - 1.0) * scale;
        let fineness = Fineness { finest: own.finest * scale, coarsest: own.coarsest * scale, growth: growth.into() };
        let mut times = Vec::new();
        let mut found = (0, 0.0);
        for _ in 0..ROUNDS {
            let start = Instant::now();
            let solved = solve(&section, &fineness).map_err(io::Error::other)?;
            times.push(start.elapsed());
            found = (solved.cells, solved.heat_from.get(INSIDE).map_or(0.0, |q| q.value));
        }
        if name == "in use" {
            loss_in_use = Some(found.1);
        }
        let change = loss_in_use
            .map_or(String::new(), |own| format!("{:+.3} % of the loss in use", 100.0 * (found.1 / own - 1.0)));
        let limit = if name == "in use" { format!(" (limit {LIMIT:?})") } else { String::new() };
        let time = 1_000.0 * median(times).as_secs_f64();
        println!("{name:>8}: {:>6} cells, {time:>7.1} ms{limit}, {:.2} W/m {change}", found.0, found.1);
    }
    Ok(())
}
