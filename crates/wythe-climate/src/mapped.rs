//! Any plain hourly CSV with a header, by a mapping of its columns and their units.

use uom::si::f64::Pressure;

use crate::hourly::{GapPolicy, HourlyWeather, Record, assemble, number, rows, whole};
use crate::problem::{ProblemKind, Problems, Result};

/// Unit of a temperature column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TemperatureUnit {
    /// °C.
    Celsius,
    /// °F.
    Fahrenheit,
}

/// Unit of a pressure column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PressureUnit {
    /// Pa.
    Pascal,
    /// hPa, the same as mbar.
    Hectopascal,
    /// Inches of mercury.
    InchOfMercury,
}

/// Unit of a wind column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WindUnit {
    /// m/s.
    MetrePerSecond,
    /// Miles an hour.
    MilePerHour,
    /// Knots.
    Knot,
}

/// Column of relative humidity or of dew point: one of them gives the vapor.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum HumidityColumn {
    /// Relative humidity in percent.
    RelativePercent(String),
    /// Relative humidity as a share of one.
    RelativeShare(String),
    /// Dew point.
    DewPoint(String, TemperatureUnit),
}

/// Which column holds what.
#[derive(Debug, Clone, PartialEq)]
pub struct CsvMapping {
    /// Month, 1 to 12.
    pub month: String,
    /// Day of the month.
    pub day: String,
    /// Hour of the day.
    pub hour: String,
    /// Number of the first hour of the day in the file: 0 or 1.
    pub first_hour: u8,
    /// Temperature column with its unit.
    pub temperature: (String, TemperatureUnit),
    /// Humidity column.
    pub humidity: HumidityColumn,
    /// Pressure column with its unit, or none: then `standard_pressure` all year.
    pub pressure: Option<(String, PressureUnit)>,
    /// Pressure to take where there is no column.
    pub standard_pressure: Pressure,
    /// Wind column with its unit, or none: then calm all year.
    pub wind: Option<(String, WindUnit)>,
    /// Only rows whose column has this value are read, as for one station of several.
    pub only: Option<(String, String)>,
}

impl TemperatureUnit {
    pub(crate) fn to_celsius(self, value: f64) -> f64 {
        match self {
            Self::Celsius => value,
            Self::Fahrenheit => (value - 32.0) / 1.8,
        }
    }
}

impl PressureUnit {
    fn to_pascal(self, value: f64) -> f64 {
        match self {
            Self::Pascal => value,
            Self::Hectopascal => value * 100.0,
            Self::InchOfMercury => value * 3_386.389,
        }
    }
}

impl WindUnit {
    pub(crate) fn to_metre_per_second(self, value: f64) -> f64 {
        match self {
            Self::MetrePerSecond => value,
            Self::MilePerHour => value * 0.447_04,
            Self::Knot => value * 1_852.0 / 3_600.0,
        }
    }
}

/// Reads a plain CSV by a mapping. Blank fields and `NA` are missing.
///
/// # Errors
/// All problems found, each with its line; every missing column at once.
pub fn read_mapped(bytes: &[u8], mapping: &CsvMapping, policy: GapPolicy) -> Result<HourlyWeather> {
    let mut problems = Problems::default();
    let rows = rows(bytes, &mut problems);
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
    let (month, day, hour) = (column(&mapping.month), column(&mapping.day), column(&mapping.hour));
    let temperature = column(&mapping.temperature.0);
    let vapor = column(match &mapping.humidity {
        HumidityColumn::RelativePercent(name)
        | HumidityColumn::RelativeShare(name)
        | HumidityColumn::DewPoint(name, _) => name,
    });
    let pressure = mapping.pressure.as_ref().map(|(name, unit)| (column(name), *unit));
    let wind = mapping.wind.as_ref().map(|(name, unit)| (column(name), *unit));
    let only = mapping.only.as_ref().map(|(name, value)| (column(name), value.as_str()));
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
        let t = read(temperature, "temperature").map(|v| mapping.temperature.1.to_celsius(v));
        let v = read(vapor, "humidity");
        let (humidity, dew_point) = match &mapping.humidity {
            HumidityColumn::RelativePercent(_) => (v, None),
            HumidityColumn::RelativeShare(_) => (v.map(|v| 100.0 * v), None),
            HumidityColumn::DewPoint(_, unit) => (None, v.map(|v| unit.to_celsius(v))),
        };
        let p = pressure.and_then(|(c, unit)| read(c, "pressure").map(|v| unit.to_pascal(v)));
        let w = wind.and_then(|(c, unit)| read(c, "wind").map(|v| unit.to_metre_per_second(v)));
        let mut calendar = |column: usize, name: &str| whole(&row[column], name, *line, &mut problems);
        if let (Some(month), Some(day), Some(hour)) =
            (calendar(month, "month"), calendar(day, "day"), calendar(hour, "hour"))
        {
            records.push(Record {
                line: *line,
                month,
                day,
                hour: hour - i64::from(mapping.first_hour),
                temperature: t,
                humidity,
                dew_point,
                pressure: p,
                wind: w,
            });
        }
    }
    assemble(&records, problems, policy, mapping.standard_pressure)
}
