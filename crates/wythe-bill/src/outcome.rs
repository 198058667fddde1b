//! What a house comes to in a few figures: R, U, moisture, sheets, cost and days.

use uom::ConstZero as _;
use uom::si::f64::{Area, HeatTransfer, Ratio};
use wythe_model::geometry::Basis;
use wythe_model::quantity::{Films, wall_average, wall_bands};
use wythe_model::{Foundation, ThermalResistance};

use crate::Job;
use crate::cost::Money;
use crate::labor::{HouseLabor, crew_days, labor_total};
use wythe_takeoff::price::PricedBill;

/// The walls of a house as one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WallThermal {
    /// Transmittance over the inside of all walls, bands weighted by area.
    pub u: HeatTransfer,
    /// Its reciprocal.
    pub r: ThermalResistance,
    /// Resistance of the best band: board and wall, films left out.
    pub board: ThermalResistance,
}

/// The walls of a house as one; nothing where a wall has no known resistance.
pub fn wall_thermal(f: &Foundation, basis: Basis, films: Films) -> Option<WallThermal> {
    let (mut area, mut loss, mut board) = (Area::ZERO, None, ThermalResistance::ZERO);
    for wall in 0..f.walls.len() {
        let bands = wall_bands(f, wall, basis);
        let average = wall_average(&bands, films)?;
        area += average.area;
        let lost = average.u * average.area;
        loss = Some(loss.map_or(lost, |sum| sum + lost));
        board = bands.iter().map(|b| b.r_total).fold(board, ThermalResistance::max);
    }
    let u: HeatTransfer = loss? / area;
    (u > HeatTransfer::ZERO && u.is_finite()).then(|| WallThermal { u, r: ThermalResistance::from(1.0 / u), board })
}

/// The moisture of the space in service over a year.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Damp {
    /// Highest relative humidity of the air, as the mean of a day.
    pub humidity: Ratio,
    /// Highest mold index of the framing, 0 to 6.
    pub mold: Ratio,
}

/// A job in a few figures.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// Sheets of board.
    pub sheets: u64,
    /// Pieces of board.
    pub pieces: u64,
    /// Goods with tax; nothing where a price is missing.
    pub goods: Option<Money>,
    /// Labor.
    pub labor: Option<Money>,
    /// Both.
    pub total: Option<Money>,
    /// Crew-days, not rounded.
    pub crew_days: Option<Ratio>,
    /// The walls of the house with the highest transmittance.
    pub thermal: Option<WallThermal>,
    /// The space in service over a year, where the weather is known; set by whoever knows it.
    pub damp: Option<Damp>,
    /// Errors found in the plans.
    pub errors: usize,
    /// Warnings found in the plans.
    pub warnings: usize,
}

impl Outcome {
    /// The figures of a job.
    pub fn of(job: &Job, bill: Option<&PricedBill>, labor: Option<&[HouseLabor]>, films: Films) -> Outcome {
        let goods = bill.filter(|b| b.is_complete()).map(|b| b.total);
        let cost = labor.and_then(labor_total);
        let thermal = job.houses.iter().map(|f| wall_thermal(f, job.terms.basis, films));
        let worst = thermal
            .collect::<Option<Vec<_>>>()
            .and_then(|all| all.into_iter().reduce(|a, b| if b.u > a.u { b } else { a }));
        Outcome {
            sheets: job.boards.iter().map(|b| b.plan.bought as u64).sum(),
            pieces: job.boards.iter().map(|b| b.plan.pieces().count() as u64).sum(),
            goods,
            labor: cost,
            total: goods.zip(cost).and_then(|(a, b)| a.plus(b).ok()),
            crew_days: labor.map(crew_days),
            thermal: worst,
            damp: None,
            errors: 0,
            warnings: 0,
        }
    }
}
