//! EPW hourly weather: eight header lines, then one line an hour in a fixed order of fields.
//!
//! Fields used, from 0: 1 month, 2 day, 3 hour (1 to 24, the hour that ends then), 6 dry bulb °C,
//! 7 dew point °C, 8 relative humidity %, 9 pressure Pa, 21 wind m/s. Missing marks: 99.9, 99.9,
//! 999, 999999, 999. The published data dictionary of the format is the reference.

use uom::si::f64::Length;
use uom::si::length::meter;

use crate::hourly::{GapPolicy, HourlyWeather, Record, assemble, number, rows, whole};
use crate::problem::{ProblemKind, Problems, Result};
use crate::synthesize::pressure_at;

const HEADER_LINES: usize = 8;
const FIELDS: usize = 22;

/// Reads an EPW file. Where it has no pressure at all, that of the altitude holds: the site's, else the station's.
///
/// # Errors
/// All problems found, each with its line.
pub fn read_epw(bytes: &[u8], altitude: Option<Length>, policy: GapPolicy) -> Result<HourlyWeather> {
    let mut problems = Problems::default();
    let rows = rows(bytes, &mut problems);
    let Some((line, first)) = rows.first() else {
        return Err(Problems::one(None, ProblemKind::Empty));
    };
    if !first.get(0).is_some_and(|f| f.eq_ignore_ascii_case("LOCATION")) {
        problems.push(Some(*line), ProblemKind::Unreadable("an EPW file begins with LOCATION".into()));
        return Err(problems);
    }
    // The last field of the first line is the station's altitude in meters.
    let station = first.get(9).and_then(|field| field.parse().ok()).map(Length::new::<meter>);
    let standard = pressure_at(altitude.or(station).unwrap_or_default())?;
    let mut records = Vec::with_capacity(8784);
    for (line, row) in rows.iter().skip(HEADER_LINES) {
        if row.len() < FIELDS {
            problems.push(Some(*line), ProblemKind::TooFewFields { got: row.len(), want: FIELDS });
            continue;
        }
        let mut value = |field: usize, name: &str, missing: f64| {
            number(&row[field], name, *line, &mut problems).filter(|&v| v < missing)
        };
        let temperature = value(6, "dry bulb", 99.9);
        let dew_point = value(7, "dew point", 99.9);
        let humidity = value(8, "relative humidity", 999.0);
        let pressure = value(9, "pressure", 999_999.0);
        let wind = value(21, "wind speed", 999.0);
        let mut calendar = |field: usize, name: &str| whole(&row[field], name, *line, &mut problems);
        if let (Some(month), Some(day), Some(hour)) = (calendar(1, "month"), calendar(2, "day"), calendar(3, "hour")) {
            records.push(Record {
                line: *line,
                month,
                day,
                hour: hour.saturating_sub(1),
                temperature,
                humidity,
                dew_point,
                pressure,
                wind,
            });
        }
    }
    assemble(&records, problems, policy, standard)
}
