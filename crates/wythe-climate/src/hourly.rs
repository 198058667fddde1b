//! From records to an admitted year: checks each value, puts hours in their place, finds gaps, and
//! fills short ones where that is allowed.

use uom::si::f64::{Pressure, Ratio, Velocity};
use uom::si::{pressure::pascal, ratio::ratio, velocity::meter_per_second};
use wythe_physics::air::saturation::saturation_over_water;
use wythe_physics::quantity::{RelativeHumidity, celsius};
use wythe_physics::weather::{WeatherHour, WeatherOrigin, WeatherYear};

use crate::calendar;
use crate::problem::{ProblemKind, Problems, Result};

/// What to do with missing hours and values.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GapPolicy {
    /// Every missing hour or value is a problem.
    Refuse,
    /// Gaps of at most this many hours are filled on a straight line between their neighbors, and
    /// counted; longer ones are problems.
    Interpolate {
        /// Longest gap to fill.
        longest: usize,
    },
}

/// A year read from a file, with what was done to it.
#[derive(Debug, Clone, PartialEq)]
pub struct HourlyWeather {
    /// The year.
    pub year: WeatherYear,
    /// Hours with a filled value.
    pub filled: usize,
    /// Whether the year has a 29 February.
    pub leap: bool,
    /// Hours whose dew point, where the file gives one beside the relative humidity, is more than
    /// 2 K from it.
    pub inconsistent: usize,
}

/// One record as read: values already in °C, percent, Pa and m/s; none where missing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Record {
    pub(crate) line: u64,
    pub(crate) month: i64,
    pub(crate) day: i64,
    /// From 0.
    pub(crate) hour: i64,
    pub(crate) temperature: Option<f64>,
    pub(crate) humidity: Option<f64>,
    pub(crate) dew_point: Option<f64>,
    pub(crate) pressure: Option<f64>,
    pub(crate) wind: Option<f64>,
}

/// The four series a year needs, by hour.
const SERIES: [&str; 4] = ["temperature", "humidity", "pressure", "wind"];

/// Checks records and puts them in a year. `standard` is taken for the pressure where the file
/// has none at all.
pub(crate) fn assemble(
    records: &[Record],
    mut problems: Problems,
    policy: GapPolicy,
    standard: Pressure,
) -> Result<HourlyWeather> {
    if records.is_empty() {
        if problems.is_empty() {
            problems.push(None, ProblemKind::Empty);
        }
        return Err(problems);
    }
    let leap = records.iter().any(|r| (r.month, r.day) == (2, 29));
    let count = calendar::hours(leap);
    let mut series: [Vec<Option<f64>>; 4] = std::array::from_fn(|_| vec![None; count]);
    let mut lines = vec![0_u64; count];
    let has_pressure = records.iter().any(|r| r.pressure.is_some());
    let has_wind = records.iter().any(|r| r.wind.is_some());
    let mut inconsistent = 0;
    for record in records {
        let Some(at) = calendar::index(record.month, record.day, record.hour, leap) else {
            problems.push(
                Some(record.line),
                ProblemKind::BadDate { month: record.month, day: record.day, hour: record.hour },
            );
            continue;
        };
        if lines[at] != 0 {
            let (month, day, hour) = calendar::date(at, leap);
            problems.push(Some(record.line), ProblemKind::Duplicate { month, day, hour, first: lines[at] });
            continue;
        }
        lines[at] = record.line;
        if check(record, &mut problems) {
            let (humidity, off) = humidity_of(record);
            inconsistent += usize::from(off);
            series[0][at] = record.temperature;
            series[1][at] = humidity;
            series[2][at] = if has_pressure { record.pressure } else { Some(standard.value) };
            series[3][at] = if has_wind { record.wind } else { Some(0.0) };
        }
    }
    units(records, &mut problems);
    let filled = fill(&mut series, &lines, leap, policy, &mut problems);
    if !problems.is_empty() {
        problems.sort();
        return Err(problems);
    }
    let hours = (0..count)
        .map(|n| {
            let (month, day, hour) = calendar::date(n, leap);
            let value = |k: usize| series[k][n].unwrap_or(f64::NAN);
            Ok(WeatherHour {
                month,
                day,
                hour,
                temperature: celsius(value(0)),
                humidity: RelativeHumidity::new(Ratio::new::<ratio>(value(1) / 100.0))?,
                pressure: Pressure::new::<pascal>(value(2)),
                wind: Velocity::new::<meter_per_second>(value(3)),
            })
        })
        .collect::<wythe_physics::Result<Vec<_>>>()
        .and_then(|hours| WeatherYear::new(hours, WeatherOrigin::Hourly))
        .map_err(|error| Problems::one(None, ProblemKind::Refused(error)))?;
    Ok(HourlyWeather { year: hours, filled, leap, inconsistent })
}

/// The range of a field, with what may be behind a value above it.
struct Range {
    field: &'static str,
    unit: &'static str,
    low: f64,
    high: f64,
    hint: &'static str,
}

const TEMPERATURE: Range = Range { field: "temperature", unit: "°C", low: -70.0, high: 60.0, hint: "; is it in °F?" };
const DEW_POINT: Range = Range { field: "dew point", unit: "°C", low: -80.0, high: 40.0, hint: "; is it in °F?" };
const HUMIDITY: Range = Range { field: "relative humidity", unit: "%", low: 0.0, high: 100.0, hint: "" };
const PRESSURE: Range =
    Range { field: "pressure", unit: "Pa", low: 50_000.0, high: 110_000.0, hint: "; is its unit hPa or kPa?" };
const WIND: Range = Range { field: "wind", unit: "m/s", low: 0.0, high: 75.0, hint: "" };

/// Checks the values of a record; false if one is impossible.
fn check(record: &Record, problems: &mut Problems) -> bool {
    let fields = [
        (TEMPERATURE, record.temperature),
        (DEW_POINT, record.dew_point),
        (HUMIDITY, record.humidity),
        (PRESSURE, record.pressure),
        (WIND, record.wind),
    ];
    let mut good = true;
    for (Range { field, unit, low, high, hint }, value) in fields {
        if let Some(value) = value
            && !(low..=high).contains(&value)
        {
            good = false;
            problems.push(
                Some(record.line),
                ProblemKind::Impossible {
                    field: field.into(),
                    value,
                    unit,
                    low,
                    high,
                    hint: if value > high { hint } else { "" },
                },
            );
        }
    }
    if let (Some(t), Some(dew)) = (record.temperature, record.dew_point)
        && record.humidity.is_none()
        && dew > t + 0.5
    {
        good = false;
        problems.push(
            Some(record.line),
            ProblemKind::Impossible {
                field: "dew point".into(),
                value: dew,
                unit: "°C",
                low: -80.0,
                high: t,
                hint: ", the temperature of the same hour",
            },
        );
    }
    good
}

/// Relative humidity in percent, from the dew point where the file has no humidity; and whether
/// the two, if both are given, disagree.
fn humidity_of(record: &Record) -> (Option<f64>, bool) {
    let from_dew = match (record.temperature, record.dew_point) {
        (Some(t), Some(dew)) => match (saturation_over_water(celsius(dew)), saturation_over_water(celsius(t))) {
            (Ok(vapor), Ok(full)) => Some(100.0 * vapor.value / full.value),
            _ => None,
        },
        _ => None,
    };
    match (record.humidity, from_dew) {
        // Two kelvin of dew point are about one part in eight of the vapor.
        (Some(h), Some(d)) => (Some(h), (h - d).abs() > 0.125 * h.max(d)),
        (Some(h), None) => (Some(h), false),
        (None, d) => (d.map(|d| d.min(100.0)), false),
    }
}

/// Values that are possible hour by hour, but not as a year.
fn units(records: &[Record], problems: &mut Problems) {
    let of = |get: fn(&Record) -> Option<f64>| {
        let values: Vec<f64> = records.iter().filter_map(get).collect();
        let mean = values.iter().sum::<f64>() / values.len().max(1) as f64;
        let most = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        (values.len(), mean, most)
    };
    let (n, mean, most) = of(|r| r.temperature);
    // The warmest yearly mean on record is near 35 °C, the coldest near −58 °C (from memory).
    if n > 4_000 && mean > 36.0 {
        problems.push(
            None,
            ProblemKind::WrongUnit { field: "temperature".into(), hint: "a yearly mean over 36 °C looks like °F" },
        );
    }
    if n > 4_000 && most < -5.0 {
        problems.push(
            None,
            ProblemKind::WrongUnit {
                field: "temperature".into(),
                hint: "a year that never warms to −5 °C looks like °C read as °F",
            },
        );
    }
    let (n, _, most) = of(|r| r.humidity);
    if n > 100 && most <= 1.0 {
        problems.push(
            None,
            ProblemKind::WrongUnit {
                field: "relative humidity".into(),
                hint: "values up to 1 look like shares of one, not percent",
            },
        );
    }
}

/// Fills short gaps in place and reports the others; returns the number of hours touched.
fn fill(
    series: &mut [Vec<Option<f64>>; 4],
    lines: &[u64],
    leap: bool,
    policy: GapPolicy,
    problems: &mut Problems,
) -> usize {
    let count = lines.len();
    let longest = match policy {
        GapPolicy::Refuse => 0,
        GapPolicy::Interpolate { longest } => longest,
    };
    let mut touched = vec![false; count];
    let mut reported = vec![false; count];
    for (name, values) in SERIES.iter().zip(series.iter_mut()) {
        let mut at = 0;
        while at < count {
            if values[at].is_some() {
                at += 1;
                continue;
            }
            let end = (at..count).find(|&n| values[n].is_some()).unwrap_or(count);
            let before = at.checked_sub(1).and_then(|n| values[n]);
            let after = values.get(end).copied().flatten();
            let length = end - at;
            if length <= longest
                && let (Some(a), Some(b)) = (before, after)
            {
                for (step, n) in (at..end).enumerate() {
                    let share = (step + 1) as f64 / (length + 1) as f64;
                    values[n] = Some(a + share * (b - a));
                    touched[n] = true;
                }
            } else if !reported[at] {
                let (month, day, hour) = calendar::date(at, leap);
                let absent = lines[at..end].iter().all(|&line| line == 0);
                let line = (0..at).rev().find_map(|n| (lines[n] != 0).then_some(lines[n]));
                if absent {
                    reported[at..end].fill(true);
                    problems.push(line, ProblemKind::Gap { hours: length, month, day, hour });
                } else if lines[at] != 0 {
                    problems.push(Some(lines[at]), ProblemKind::MissingValue { field: (*name).into() });
                } else {
                    problems.push(line, ProblemKind::Gap { hours: length, month, day, hour });
                }
            }
            at = end;
        }
    }
    touched.into_iter().filter(|&t| t).count()
}

/// Reads a number, or notes why not. `None` for a blank field.
pub(crate) fn number(text: &str, field: &str, line: u64, problems: &mut Problems) -> Option<f64> {
    let text = text.trim();
    if text.is_empty() || text.eq_ignore_ascii_case("NA") {
        return None;
    }
    match text.parse::<f64>() {
        Ok(value) if value.is_finite() => Some(value),
        _ => {
            problems.push(
                Some(line),
                ProblemKind::NotANumber { field: field.into(), text: text.chars().take(40).collect() },
            );
            None
        }
    }
}

/// Reads a whole number of a date; notes why not.
pub(crate) fn whole(text: &str, field: &str, line: u64, problems: &mut Problems) -> Option<i64> {
    if let Ok(value) = text.trim().parse::<i64>() {
        return Some(value);
    }
    problems.push(
        Some(line),
        ProblemKind::NotANumber { field: field.into(), text: text.trim().chars().take(40).collect() },
    );
    None
}

/// Rows of a CSV text with their line numbers; broken text becomes a problem.
pub(crate) fn rows(bytes: &[u8], problems: &mut Problems) -> Vec<(u64, csv::StringRecord)> {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let mut reader =
        csv::ReaderBuilder::new().has_headers(false).flexible(true).trim(csv::Trim::All).from_reader(bytes);
    let mut out = Vec::new();
    for row in reader.records() {
        match row {
            Ok(record) => {
                let line = record.position().map_or(0, csv::Position::line);
                out.push((line, record));
            }
            Err(error) => {
                let line = error.position().map(csv::Position::line);
                problems.push(line, ProblemKind::Unreadable(error.to_string()));
            }
        }
    }
    out
}
