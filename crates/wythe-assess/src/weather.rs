//! A weather file's bytes into a year of hours, or a finding that lists the lines at fault.

use std::sync::Arc;

use wythe_climate::{GapPolicy, MonthlyNormals, Problems, synthesize};
use wythe_findings::{Finding, codes};
use wythe_model::{ClimateFile, ClimateReading, Site};
use wythe_physics::weather::WeatherYear;

use crate::figure::m;

/// How many lines of a faulty file a finding lists.
const LISTED: usize = 12;
/// The longest gap of an hourly file that is filled on a straight line, hours (assumption).
const LONGEST_GAP: usize = 3;

/// A year of weather as a site has it, with what was done to it.
#[derive(Clone, Debug, PartialEq)]
pub struct SiteWeather {
    /// The file as the site names it.
    pub path: Arc<str>,
    /// The hours.
    pub year: WeatherYear,
    /// Hours with a value filled in between its neighbors.
    pub filled: usize,
    /// Hours whose humidity and dew point are more than 2 K apart.
    pub inconsistent: usize,
}

/// Weather, or the finding that says why there is none.
pub type WeatherResult = Result<Arc<SiteWeather>, Box<Finding>>;

/// Reads a weather file. Hourly files are known by their beginning: EPW, or the TMY3-like CSV.
///
/// # Errors
/// A finding at the place that names the file, with the lines at fault.
pub fn read(file: &ClimateFile, bytes: &[u8]) -> WeatherResult {
    let read = match file.reading {
        ClimateReading::Monthly => MonthlyNormals::read_csv(bytes)
            .and_then(|normals| synthesize(&normals, m(0.0)))
            .map(|year| SiteWeather { path: file.path.clone(), year, filled: 0, inconsistent: 0 }),
        ClimateReading::Hourly => {
            let policy = GapPolicy::Interpolate { longest: LONGEST_GAP };
            let epw = bytes.get(..8).is_some_and(|start| start.eq_ignore_ascii_case(b"LOCATION"));
            let hourly = if epw {
                wythe_climate::epw::read_epw(bytes, policy)
            } else {
                wythe_climate::tmy::read_tmy(bytes, policy)
            };
            hourly.map(|h| SiteWeather {
                path: file.path.clone(),
                year: h.year,
                filled: h.filled,
                inconsistent: h.inconsistent,
            })
        }
    };
    read.map(Arc::new).map_err(|problems| Box::new(faulty(file, &problems)))
}

fn faulty(file: &ClimateFile, problems: &Problems) -> Finding {
    let count = problems.list().len() + problems.more();
    let title = match problems.list() {
        [one] if problems.more() == 0 => match one.line {
            Some(line) => format!("{}:{line}: {}", file.path, one.kind),
            None => format!("{}: {}", file.path, one.kind),
        },
        _ => format!("{}: {count} faults in the weather", file.path),
    };
    let mut finding = Finding::new(codes::WEATHER_FAULTY, file.origin, title).label("this file");
    if count > 1 {
        let mut lines: Vec<String> = problems
            .list()
            .iter()
            .take(LISTED)
            .map(|p| match p.line {
                Some(line) => format!("{}:{line}: {}", file.path, p.kind),
                None => format!("{}: {}", file.path, p.kind),
            })
            .collect();
        if count > LISTED {
            lines.push(format!("and {} more", count - LISTED));
        }
        finding = finding.cause(lines.join("\n"));
    }
    finding
}

/// That a site names no weather.
pub fn missing(site: &Site) -> Finding {
    Finding::new(codes::WEATHER_MISSING, site.origin, format!("the site `{}` names no weather", site.name))
        .label("no `climate` here")
        .mend("add `climate: monthly(\"climate/place.csv\")`")
}

/// That a weather file cannot be read, with the reason.
pub fn unreadable(file: &ClimateFile, why: &str) -> Finding {
    Finding::new(codes::WEATHER_UNREADABLE, file.origin, format!("the weather file {} cannot be read", file.path))
        .label(why.to_owned())
}
