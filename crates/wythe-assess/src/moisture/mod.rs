//! Moisture of a foundation, hour by hour over a year of weather: the states of the space side by side, what it
//! takes to keep it dry, when it may be closed, and condensation inside the walls.
//!
//! Start at [`moisture`]. Rules ask only for [`service_figures`], which costs one state; plots for [`states`], whose
//! [`StateYear`]s hold the hours (`year.hours`: temperature of the air, its humidity, moisture of the framing, mold index)
//! and their months (`year.months`). The loss of heat by part stands in `HeatReport::parts`.

mod close_in;
mod memo;
mod range;
mod report;
mod scenarios;
mod section;
mod sizing;
mod space;

pub use close_in::{CloseInDate, Start};
pub use memo::ServiceMemo;
pub use range::{RangeInput, RangePlan, RangeReport, ranges};
pub use report::{MoistureOptions, MoistureReport, ServiceFigures, StateRole, StateYear};
pub use section::SectionMoisture;
pub use sizing::{CodeLeast, ComputedLoad, Sizing};

use std::sync::Arc;

use wythe_findings::Finding;
use wythe_model::{Foundation, SpaceKind};
use wythe_physics::PhysicsError;
use wythe_physics::weather::{WeatherOrigin, WeatherYear};
use wythe_physics::zone::result::ZoneYear;
use wythe_physics::zone::scenario::Scenario;
use wythe_physics::zone::simulate::simulate;
use wythe_physics::zone::space::CrawlSpace;

use crate::envelope::Envelope;
use crate::heat::{WallHeat, walls};
use crate::weather::SiteWeather;
use crate::{Assessed, Assumptions, fault, moisture_cautions};

/// A case ready to run: what both [`moisture`] and [`ranges`] build on.
struct Case {
    envelope: Envelope,
    walls: Vec<WallHeat>,
    space: CrawlSpace,
    service: Scenario,
    assumed: Assumptions,
}

/// The moisture of a foundation over a year of weather.
pub fn moisture(f: &Foundation, weather: &SiteWeather, options: &MoistureOptions) -> Assessed<MoistureReport> {
    assessed(f, |findings| {
        let case = prepare(f, findings)?;
        let Some(case) = case else { return Ok(None) };
        work_out(f, weather, options, case).map(Some)
    })
}

/// The states alone, hour by hour and month by month, without sizes, sections and the date of closing: what a plot needs.
pub fn states(f: &Foundation, weather: &SiteWeather, options: &MoistureOptions) -> Assessed<Vec<StateYear>> {
    assessed(f, |findings| {
        let Some(mut case) = prepare(f, findings)? else { return Ok(None) };
        run(f, weather, options, &mut case).map(Some)
    })
}

/// The figures of the space in service that rules ask for; a space that has been worked out in the same weather and is
/// as it was is taken from the memo.
pub fn service_figures(f: &Foundation, weather: &Arc<SiteWeather>, memo: &ServiceMemo) -> Assessed<ServiceFigures> {
    assessed(f, |findings| {
        let Some(case) = prepare(f, findings)? else { return Ok(None) };
        memo.figures(case.space, case.service, weather).map(Some)
    })
}

fn assessed<T>(f: &Foundation, work: impl FnOnce(&mut Vec<Finding>) -> Result<Option<T>, PhysicsError>) -> Assessed<T> {
    let mut findings = fault::products(f);
    if findings.iter().any(|finding| finding.severity == wythe_findings::Severity::Error) {
        return Assessed { report: None, findings };
    }
    let report = work(&mut findings).unwrap_or_else(|error| {
        findings.push(fault::refused(&error, f.origin, f.name.as_str()));
        None
    });
    Assessed { report, findings }
}

fn prepare(f: &Foundation, findings: &mut Vec<Finding>) -> Result<Option<Case>, PhysicsError> {
    let envelope = match Envelope::of(f) {
        Ok(envelope) => envelope,
        Err(finding) => {
            findings.push(*finding);
            return Ok(None);
        }
    };
    // The films and fasteners of the steady walls are no part of the zone; their notes stay out.
    let walls = walls(f, &mut Assumptions::default(), findings)?;
    let mut assumed = Assumptions::default();
    let space = space::designed(f, &envelope, &walls, &mut assumed)?;
    let service = in_service(f, &envelope, &mut assumed)?;
    Ok(Some(Case { envelope, walls, space, service, assumed }))
}

fn in_service(f: &Foundation, envelope: &Envelope, assumed: &mut Assumptions) -> Result<Scenario, PhysicsError> {
    match f.space {
        SpaceKind::Closed => scenarios::closed(f, envelope, assumed),
        SpaceKind::Vented => scenarios::vented(f, envelope, assumed),
    }
}

/// The year of the space in service, for what hangs on its air.
pub(crate) fn service_year(
    f: &Foundation,
    envelope: &Envelope,
    walls: &[WallHeat],
    weather: &WeatherYear,
    assumed: &mut Assumptions,
) -> Result<ZoneYear, PhysicsError> {
    let space = space::designed(f, envelope, walls, assumed)?;
    let service = in_service(f, envelope, assumed)?;
    simulate(&space, &service, weather)
}

fn work_out(
    f: &Foundation,
    weather: &SiteWeather,
    options: &MoistureOptions,
    mut case: Case,
) -> Result<MoistureReport, PhysicsError> {
    case.assumed.note("sill plate, where it is coldest", crate::heat::SILL, crate::assumption::ASSUMED);
    weather_notes(weather, &mut case.assumed);
    let states = run(f, weather, options, &mut case)?;
    let Case { envelope, walls, space, service, assumed } = &mut case;
    let Some(in_service) = states.iter().find(|s| s.role == StateRole::Service) else {
        return Err(PhysicsError::Empty { what: "list of states".into() });
    };
    let sections = section::sections(f, walls, &weather.year, &in_service.year, assumed)?;
    let sizing = sizing::sizing(f, envelope, space, service, &weather.year, assumed)?;
    let close_in = if f.space == SpaceKind::Closed && options.close_in {
        close_in::dates(f, envelope, space, service, &weather.year, options, assumed)?
    } else {
        Vec::new()
    };
    Ok(MoistureReport {
        foundation: f.name,
        weather: weather.path.clone(),
        origin: weather.year.origin(),
        start: options.start.unwrap_or(FIRST_OF_MARCH),
        envelope: envelope.clone(),
        states,
        sections,
        sizing,
        close_in,
        assumptions: std::mem::take(assumed),
        cautions: moisture_cautions(f),
    })
}

/// The day on which the framing goes up where nobody has named one.
const FIRST_OF_MARCH: Start = Start { month: 3, day: 1 };

/// Runs the states, construction first.
fn run(
    f: &Foundation,
    weather: &SiteWeather,
    options: &MoistureOptions,
    case: &mut Case,
) -> Result<Vec<StateYear>, PhysicsError> {
    let Case { envelope, space, service, assumed, .. } = case;
    let start = options.start.unwrap_or(FIRST_OF_MARCH);
    let construction = scenarios::construction(f, envelope, space, start.hour(&weather.year), assumed)?;
    let mut runs: Vec<(StateRole, &CrawlSpace, &Scenario)> =
        vec![(StateRole::Construction, space, &construction), (StateRole::Service, space, service)];
    let counterpart;
    if f.space == SpaceKind::Closed {
        counterpart = (space::vented_counterpart(space, assumed)?, scenarios::vented(f, envelope, assumed)?);
        runs.push((StateRole::Compared, &counterpart.0, &counterpart.1));
    }
    runs.into_iter()
        .map(|(role, space, scenario)| Ok(StateYear { role, year: simulate(space, scenario, &weather.year)? }))
        .collect()
}

fn weather_notes(weather: &SiteWeather, assumed: &mut Assumptions) {
    if weather.year.origin() == WeatherOrigin::SynthesizedFromMonths {
        assumed.note(
            "hours of the weather",
            "made from monthly means with a daily swing: spells of muggy or cold days are missing, so extremes are \
             understated; 10 K of swing and 3 m/s of wind where they are not given",
            crate::assumption::ASSUMED,
        );
        let pressure = weather.year.hours().first().map_or(0.0, |h| h.pressure.value / 100.0);
        let at = match weather.altitude {
            Some(altitude) => format!("{pressure:.0} hPa at {:.0} m above the sea", altitude.value),
            None => format!("{pressure:.0} hPa of sea level: the site states no altitude"),
        };
        assumed.note("pressure of the air", at, "ASHRAE Handbook of Fundamentals, standard atmosphere");
    }
    if weather.filled > 0 {
        assumed.note(
            "hours filled in the weather file",
            format!("{} hours on a straight line between their neighbors", weather.filled),
            crate::assumption::ASSUMED,
        );
    }
    if weather.inconsistent > 0 {
        assumed.note(
            "hours whose dew point does not fit their humidity",
            format!("{} hours, taken by their humidity", weather.inconsistent),
            crate::assumption::ASSUMED,
        );
    }
}
