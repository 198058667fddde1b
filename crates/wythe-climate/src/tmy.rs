//! TMY3-like hourly CSV: a line on the station, a line of column names, then one line an hour with
//! its date and the time at its end (01:00 to 24:00).

use uom::si::f64::{Length, Pressure};
use uom::si::{length::meter, pressure::pascal};
use wythe_physics::air::state::standard_pressure;

use crate::hourly::{GapPolicy, HourlyWeather, Record, assemble, number, rows, whole};
use crate::problem::{ProblemKind, Problems, Result};

/// Columns by the beginning of their published names.
const COLUMNS: [&str; 7] =
    ["Date", "Time", "Dry-bulb (C)", "Dew-point (C)", "RHum (%)", "Pressure (mbar)", "Wspd (m/s)"];

/// Reads a TMY3-like file. Values at or below −9900, the format's mark, are missing.
///
/// # Errors
/// All problems found, each with its line.
pub fn read_tmy(bytes: &[u8], policy: GapPolicy) -> Result<HourlyWeather> {
    let mut problems = Problems::default();
    let rows = rows(bytes, &mut problems);
    let [(_, station), (header_line, header), hours @ ..] = rows.as_slice() else {
        if problems.is_empty() {
            problems.push(None, ProblemKind::Empty);
        }
        return Err(problems);
    };
    let mut columns = [0; COLUMNS.len()];
    for (column, name) in columns.iter_mut().zip(COLUMNS) {
        match header.iter().position(|field| field.starts_with(name)) {
            Some(found) => *column = found,
            None => problems.push(Some(*header_line), ProblemKind::MissingColumn(name.into())),
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    // The station's altitude, last of its line, stands in where pressures are missing altogether.
    let altitude = station.get(6).and_then(|f| f.parse::<f64>().ok()).unwrap_or(0.0);
    let standard =
        standard_pressure(Length::new::<meter>(altitude)).unwrap_or_else(|_| Pressure::new::<pascal>(101_325.0));
    let want = columns.iter().max().map_or(0, |c| c + 1);
    let mut records = Vec::with_capacity(8784);
    for (line, row) in hours {
        if row.len() < want {
            problems.push(Some(*line), ProblemKind::TooFewFields { got: row.len(), want });
            continue;
        }
        let mut value = |k: usize| number(&row[columns[k]], COLUMNS[k], *line, &mut problems).filter(|&v| v > -9_900.0);
        let (temperature, dew_point, humidity) = (value(2), value(3), value(4));
        let (pressure, wind) = (value(5).map(|mbar| 100.0 * mbar), value(6));
        let mut date = row[columns[0]].split('/');
        let mut part = |name: &str| whole(date.next().unwrap_or(""), name, *line, &mut problems);
        let (month, day) = (part("month"), part("day"));
        let hour = row[columns[1]].split(':').next().unwrap_or("");
        let hour = whole(hour, "hour", *line, &mut problems);
        if let (Some(month), Some(day), Some(hour)) = (month, day, hour) {
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
