//! Heat of a foundation: walls band by band, the ground by ISO 13370, the whole space by part, and the cold spots.
//!
//! Start at [`heat`]. Walls are worked out with the surface films of the US handbook, as the language's own
//! `transmittance` does; the ground with those of the standard.

mod ground;
mod loss;
mod parallel;
mod report;
mod section;
mod spots;
mod wall;

pub use ground::{Form, GroundHeat};
pub(crate) use ground::{ground_insulation, soil, vent_area};
pub use loss::LossPart;
pub(crate) use loss::{RIM_HEIGHT, plug, rim};
pub use parallel::ParallelPart;
pub(crate) use parallel::insulated_floor;
pub use report::{BandHeat, BareBand, FastenerBridge, HeatReport, HeatSeason, LayerFigure, Spot, WallHeat};
pub use section::SectionCheck;
pub(crate) use spots::{SILL, monthly_air, sill_factor};
pub(crate) use wall::{resistance as resistance_of, walls};

use wythe_findings::Finding;
use wythe_model::Foundation;
use wythe_physics::PhysicsError;

use crate::envelope::Envelope;
use crate::moisture::service_year;
use crate::weather::SiteWeather;
use crate::{Assessed, Assumptions, fault, heat_cautions};

/// The heat of a foundation. With weather, the cold spots of the coldest month and the heat of a season come with it.
pub fn heat(f: &Foundation, weather: Option<&SiteWeather>) -> Assessed<HeatReport> {
    let mut findings = fault::products(f);
    if findings.iter().any(|finding| finding.severity == wythe_findings::Severity::Error) {
        return Assessed { report: None, findings };
    }
    let report = match Envelope::of(f) {
        Err(finding) => {
            findings.push(*finding);
            None
        }
        Ok(envelope) => match work_out(f, &envelope, weather, &mut findings) {
            Ok(report) => Some(report),
            Err(error) => {
                findings.push(fault::refused(&error, f.origin, f.name.as_str()));
                None
            }
        },
    };
    Assessed { report, findings }
}

fn work_out(
    f: &Foundation,
    envelope: &Envelope,
    weather: Option<&SiteWeather>,
    findings: &mut Vec<Finding>,
) -> Result<HeatReport, PhysicsError> {
    let mut assumed = Assumptions::default();
    let walls = wall::walls(f, &mut assumed, findings)?;
    let ground = ground::ground(f, envelope, &walls, &mut assumed)?;
    let parts = loss::parts(f, envelope, &walls, &ground, &mut assumed)?;
    let section = section::section(f, envelope, &walls, &ground, &mut assumed)?;
    let (spots, season) = match weather {
        None => (Vec::new(), None),
        Some(weather) => {
            let year = service_year(f, envelope, &walls, &weather.year, &mut assumed)?;
            let spots = spots::spots(f, &walls, &ground, &weather.year, &year, &mut assumed)?;
            (spots, Some(spots::season(&walls, &parts, &weather.year)))
        }
    };
    let complete = walls.iter().all(|w| !w.exposed || !w.bands.is_empty());
    Ok(HeatReport {
        foundation: f.name,
        envelope: envelope.clone(),
        walls,
        ground,
        parts,
        parallel: parallel::parts(f.sill.rim_insulated),
        section,
        spots,
        season,
        complete,
        assumptions: assumed,
        cautions: heat_cautions(f),
    })
}
