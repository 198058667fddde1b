//! Any plain hourly CSV with a header, by a mapping of its columns and their units.

use uom::si::f64::Pressure;
use wythe_model::{HourColumns, HumidityUnit, PressureUnit, SpeedUnit, TemperatureUnit, VaporColumn, WeatherColumns};

use crate::hourly::{GapPolicy, HourlyWeather, Record, assemble, number, rows, whole};
use crate::problem::{ProblemKind, Problems, Result};

pub(crate) fn in_celsius(unit: TemperatureUnit, value: f64) -> f64 {
    match unit {
        TemperatureUnit::Celsius => value,
        TemperatureUnit::Fahrenheit => (value - 32.0) / 1.8,
    }
}

fn in_pascal(unit: PressureUnit, value: f64) -> f64 {
    match unit {
        PressureUnit::Pascal => value,
        PressureUnit::Hectopascal => value * 100.0,
        PressureUnit::InchOfMercury => value * 3_386.389,
    }
}

pub(crate) fn in_meters_per_second(unit: SpeedUnit, value: f64) -> f64 {
    match unit {
        SpeedUnit::MeterPerSecond => value,
        SpeedUnit::KilometerPerHour => value / 3.6,
        SpeedUnit::MilePerHour => value * 0.447_04,
        SpeedUnit::Knot => value * 1_852.0 / 3_600.0,
    }
}

/// Where the hour of a line stands, by number of column.
#[derive(Clone, Copy)]
enum HourAt {
    Apart(usize, usize, usize),
    Together(usize),
}

/// Reads a plain CSV by a mapping. Blank fields and `NA` are missing, and lines that begin with `#` are notes.
/// `standard` is the pressure where there is no column of it.
///
/// # Errors
/// All problems found, each with its line; every missing column at once.
pub fn read_mapped(
    bytes: &[u8],
    mapping: &WeatherColumns,
    standard: Pressure,
    policy: GapPolicy,
) -> Result<HourlyWeather> {
    let mut problems = Problems::default();
    let mut rows = rows(bytes, &mut problems);
    rows.retain(|(_, row)| !row.get(0).is_some_and(|field| field.starts_with('#')));
    let [(header_line, header), hours @ ..] = rows.as_slice() else {
        if problems.is_empty() {
            problems.push(None, ProblemKind::Empty);
        }
        return Err(problems);
    };
    let mut column = |name: &str| {
        let found = header.iter().position(|field| field == name);
        if found.is_none() {
            problems.push(Some(*header_line), ProblemKind::MissingColumn(name.into()));
        }
        found.unwrap_or(0)
    };
    let hour_at = match &mapping.hour {
        HourColumns::Apart { month, day, hour } => HourAt::Apart(column(month), column(day), column(hour)),
        HourColumns::Together(name) => HourAt::Together(column(name)),
    };
    let temperature = column(&mapping.temperature.0);
    let vapor = column(match &mapping.vapor {
        VaporColumn::RelativeHumidity(name, _) | VaporColumn::DewPoint(name, _) => name,
    });
    let pressure = mapping.pressure.as_ref().map(|(name, unit)| (column(name), *unit));
    let wind = mapping.wind.as_ref().map(|(name, unit)| (column(name), *unit));
    let only = mapping.only.as_ref().map(|(name, value)| (column(name), &**value));
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut records = Vec::with_capacity(8784);
    for (line, row) in hours {
        if row.len() < header.len() {
            problems.push(Some(*line), ProblemKind::TooFewFields { got: row.len(), want: header.len() });
            continue;
        }
        if only.is_some_and(|(column, value)| &row[column] != value) {
            continue;
        }
        let mut read = |column: usize, name: &str| number(&row[column], name, *line, &mut problems);
        let t = read(temperature, "temperature").map(|v| in_celsius(mapping.temperature.1, v));
        let v = read(vapor, "humidity");
        let (humidity, dew_point) = match &mapping.vapor {
            VaporColumn::RelativeHumidity(_, HumidityUnit::Percent) => (v, None),
            VaporColumn::RelativeHumidity(_, HumidityUnit::Share) => (v.map(|v| 100.0 * v), None),
            VaporColumn::DewPoint(_, unit) => (None, v.map(|v| in_celsius(*unit, v))),
        };
        let p = pressure.and_then(|(c, unit)| read(c, "pressure").map(|v| in_pascal(unit, v)));
        let w = wind.and_then(|(c, unit)| read(c, "wind").map(|v| in_meters_per_second(unit, v)));
        if let Some((month, day, hour)) = hour_of(row, hour_at, *line, &mut problems) {
            records.push(Record {
                line: *line,
                month,
                day,
                hour: hour.saturating_sub(i64::from(mapping.first_hour)),
                temperature: t,
                humidity,
                dew_point,
                pressure: p,
                wind: w,
            });
        }
    }
    assemble(&records, problems, policy, standard)
}

/// Month, day and hour of a line as they stand in the file.
fn hour_of(row: &csv::StringRecord, at: HourAt, line: u64, problems: &mut Problems) -> Option<(i64, i64, i64)> {
    match at {
        HourAt::Apart(month, day, hour) => {
            let mut part = |column: usize, name: &str| whole(&row[column], name, line, problems);
            let (month, day, hour) = (part(month, "month"), part(day, "day"), part(hour, "hour"));
            Some((month?, day?, hour?))
        }
        HourAt::Together(column) => {
            let hour = stamp(&row[column]);
            if hour.is_none() {
                problems.push(Some(line), ProblemKind::NoTime { text: row[column].into() });
            }
            hour
        }
    }
}

/// Month, day and hour of `2013-02-11 05:00` or `2013-02-11T05:00:00Z`; the minutes must be nought.
fn stamp(text: &str) -> Option<(i64, i64, i64)> {
    let (date, time) = text.split_once([' ', 'T'])?;
    let mut parts = date.split('-');
    let (year, month, day) = (parts.next()?, parts.next()?, parts.next()?);
    if year.len() != 4 || !year.bytes().all(|b| b.is_ascii_digit()) || parts.next().is_some() {
        return None;
    }
    let (hour, rest) = time.split_once(':').unwrap_or((time, "00"));
    let minutes = rest.get(..2)?;
    let nought = rest.get(2..)?.bytes().take_while(|b| !matches!(b, b'+' | b'-' | b'Z')).all(|b| b":0.".contains(&b));
    let two = |text: &str| (text.len() == 2).then(|| text.parse().ok()).flatten();
    (minutes == "00" && nought).then_some(())?;
    Some((two(month)?, two(day)?, two(hour)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stamps_of_full_hours_are_read_and_others_refused() {
        for good in ["2013-02-11 05:00", "2013-02-11T05:00:00Z", "2013-02-11T05:00:00.000-05:00", "2013-02-11 05"] {
            assert_eq!(stamp(good), Some((2, 11, 5)), "{good}");
        }
        for bad in ["", "02/11/2013 05:00", "2013-02-11", "2013-02-11 05:30", "2013-02-11 5:00", "13-02-11 05:00", "é"]
        {
            assert_eq!(stamp(bad), None, "{bad}");
        }
    }
}
