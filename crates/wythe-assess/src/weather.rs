//! A weather file's bytes into a year of hours, or a finding that lists the lines at fault.

use std::sync::Arc;

use uom::si::f64::Length;
use wythe_climate::epw::read_epw;
use wythe_climate::mapped::read_mapped;
use wythe_climate::stated::stated_normals;
use wythe_climate::synthesize::pressure_at;
use wythe_climate::tmy::read_tmy;
use wythe_climate::{GapPolicy, HourlyWeather, MonthlyNormals, Problem, Problems, synthesize};
use wythe_findings::{Finding, codes};
use wythe_model::{ClimateFile, ClimateReading, Site};
use wythe_physics::weather::WeatherYear;

/// How many lines of a faulty file a finding lists.
const LISTED: usize = 12;
/// The longest gap of an hourly file that is filled on a straight line, hours (assumption).
const LONGEST_GAP: usize = 3;

/// A year of weather as a site has it, with what was done to it.
#[derive(Clone, Debug, PartialEq)]
pub struct SiteWeather {
    /// The file as the site names it.
    pub path: Arc<str>,
    /// Height of the site above sea level, where it states one.
    pub altitude: Option<Length>,
    /// The hours.
    pub year: WeatherYear,
    /// Hours with a value filled in between its neighbors.
    pub filled: usize,
    /// Hours whose humidity and dew point are more than 2 K apart.
    pub inconsistent: usize,
}

/// Weather, or the finding that says why there is none.
pub type WeatherResult = Result<Arc<SiteWeather>, Box<Finding>>;

/// Reads a weather file, or the months a site states in the place of one. Hourly files of a known format are told apart
/// by their beginning: EPW, or the TMY3-like CSV.
///
/// # Errors
/// A finding at the place that names the file, with the lines at fault.
pub fn read(file: &ClimateFile, bytes: &[u8]) -> WeatherResult {
    let policy = GapPolicy::Interpolate { longest: LONGEST_GAP };
    let altitude = file.altitude.unwrap_or_default();
    let of_months = |normals: MonthlyNormals| synthesize(&normals, altitude).map(|year| made(file, year));
    let of_hours = |hours: HourlyWeather| SiteWeather {
        filled: hours.filled,
        inconsistent: hours.inconsistent,
        ..made(file, hours.year)
    };
    let read = match &file.reading {
        ClimateReading::Monthly => MonthlyNormals::read_csv(bytes).and_then(of_months),
        ClimateReading::Stated(months) => stated_normals(months).and_then(of_months),
        ClimateReading::Hourly if bytes.get(..8).is_some_and(|start| start.eq_ignore_ascii_case(b"LOCATION")) => {
            read_epw(bytes, file.altitude, policy).map(of_hours)
        }
        ClimateReading::Hourly => read_tmy(bytes, policy).map(of_hours),
        ClimateReading::Mapped(columns) => {
            pressure_at(altitude).and_then(|p| read_mapped(bytes, columns, p, policy)).map(of_hours)
        }
    };
    read.map(Arc::new).map_err(|problems| Box::new(faulty(file, &problems)))
}

/// How a file that is no file is called.
const STATED: &str = "the months the site states";

fn made(file: &ClimateFile, year: WeatherYear) -> SiteWeather {
    let path = if file.path.is_empty() { STATED.into() } else { file.path.clone() };
    SiteWeather { path, altitude: file.altitude, year, filled: 0, inconsistent: 0 }
}

fn faulty(file: &ClimateFile, problems: &Problems) -> Finding {
    let count = problems.list().len() + problems.more();
    let stated = file.path.is_empty();
    let path = if stated { STATED } else { &file.path };
    let told = |problem: &Problem| match problem.line {
        Some(line) => format!("{path}:{line}: {}", problem.kind),
        None => format!("{path}: {}", problem.kind),
    };
    let title = match problems.list() {
        [one] if problems.more() == 0 => told(one),
        _ => format!("{path}: {count} faults in the weather"),
    };
    let label = if stated { "stated here" } else { "this file" };
    let mut finding = Finding::new(codes::WEATHER_FAULTY, file.origin, title).label(label);
    if count > 1 {
        let mut lines: Vec<String> = problems.list().iter().take(LISTED).map(told).collect();
        if count > LISTED {
            lines.push(format!("and {} more", count - LISTED));
        }
        finding = finding.cause(lines.join("\n"));
    }
    finding
}

/// That a site names no weather, or none that can be made out.
pub fn missing(site: &Site) -> Finding {
    if site.climate_unclear {
        let title = format!("the weather of the site `{}` cannot be made out", site.name);
        return Finding::new(codes::WEATHER_MISSING, site.origin, title).label("`wythe check` says why");
    }
    Finding::new(codes::WEATHER_MISSING, site.origin, format!("the site `{}` names no weather", site.name))
        .label("no `climate` here")
        .mend("add `climate: monthly(\"climate/place.csv\")`, or `hourly(\"climate/place.epw\")`")
}

/// That a weather file cannot be read, with the reason.
pub fn unreadable(file: &ClimateFile, why: &str) -> Finding {
    Finding::new(codes::WEATHER_UNREADABLE, file.origin, format!("the weather file {} cannot be read", file.path))
        .label(why.to_owned())
}
