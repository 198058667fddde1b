//! The functions that name a site's weather: a file in a known format, a file with its columns named, months stated.

use std::sync::Arc;

use uom::si::f64::Length;
use wythe_findings::{Finding, codes};
use wythe_model::{
    ClimateFile, ClimateReading, HourColumns, HumidityUnit, PressureUnit, SpeedUnit, StatedMonths, TemperatureUnit,
    VaporColumn, WeatherColumns,
};
use wythe_sema::Signature;
use wythe_source::Span;
use wythe_units::{Dim, Quantity, QuantityError};

use crate::{Evaluator, RecordValue, Value, lower};

/// A file by its path.
pub(super) fn named(path: &Arc<str>, reading: ClimateReading, origin: Span) -> Value {
    Value::Weather(Arc::new(ClimateFile { path: path.clone(), reading, altitude: None::<Length>, origin }))
}

/// A file with its columns named; broken, with a finding, where the mapping does not say enough.
pub(super) fn mapped(ev: &mut Evaluator<'_>, path: &Arc<str>, columns: &RecordValue, span: Span) -> Value {
    match Fields::of(ev, columns).columns() {
        Ok(columns) => named(path, ClimateReading::Mapped(Arc::new(columns)), span),
        Err(Unclear::Broken) => Value::Broken,
        Err(Unclear::Lacks(what)) => {
            let finding = Finding::new(codes::MISSING_ARGUMENT, span, format!("the columns of {path} lack {what}"));
            ev.findings.push(finding.label("named here"));
            Value::Broken
        }
        Err(Unclear::FirstHour) => {
            let title = "the first hour of a day is number 0 or 1";
            ev.findings.push(Finding::new(codes::IMPOSSIBLE_VALUE, span, title).label("`first_hour` here"));
            Value::Broken
        }
    }
}

/// Why a mapping cannot be used.
enum Unclear {
    /// A value in it has failed already.
    Broken,
    /// It leaves something out.
    Lacks(&'static str),
    /// Its first hour is neither 0 nor 1.
    FirstHour,
}

/// The fields of a mapping by name: texts, and names of enumeration members.
struct Fields {
    broken: bool,
    texts: Vec<(&'static str, Arc<str>)>,
    first_hour: Option<u8>,
}

const FIELDS: [&str; 12] = [
    "time",
    "month",
    "day",
    "hour",
    "temperature",
    "relative_humidity",
    "dew_point",
    "pressure",
    "wind",
    "station",
    "station_is",
    "first_hour",
];
const UNITS: [&str; 5] = ["temperature_unit", "relative_humidity_unit", "dew_point_unit", "pressure_unit", "wind_unit"];

impl Fields {
    fn of(ev: &Evaluator<'_>, record: &RecordValue) -> Fields {
        let checked = ev.program.checked(record.def.file);
        let names = match checked.and_then(|c| c.signatures.get(record.def.index as usize)) {
            Some(Signature::Record(fields)) => fields.iter().map(|f| f.name).collect(),
            _ => Vec::new(),
        };
        let mut out =
            Fields { broken: record.fields.iter().any(Value::is_broken), texts: Vec::new(), first_hour: None };
        for (name, value) in names.iter().zip(&record.fields) {
            let Some(known) = FIELDS.iter().chain(&UNITS).find(|k| **k == name.as_str()) else { continue };
            match value {
                Value::Text(text) => out.texts.push((known, text.clone())),
                Value::Member(..) => {
                    out.texts.extend(lower::member_name(ev, value).map(|m| (*known, m.as_str().into())));
                }
                Value::Quantity(q) if *known == "first_hour" => {
                    let number = q.value.to_f64();
                    out.first_hour = [0_u8, 1].into_iter().find(|n| (f64::from(*n) - number).abs() < 1e-9);
                }
                _ => {}
            }
        }
        out
    }

    fn text(&self, name: &str) -> Option<Arc<str>> {
        self.texts.iter().find(|(known, _)| *known == name).map(|(_, text)| text.clone())
    }

    fn unit<T: Default>(&self, name: &str, members: &[(&str, T)]) -> T
    where
        T: Copy,
    {
        let said = self.text(name);
        members.iter().find(|(m, _)| said.as_deref() == Some(*m)).map_or_else(T::default, |(_, unit)| *unit)
    }

    fn temperature_unit(&self, name: &str) -> TemperatureUnit {
        self.unit(name, &[("celsius", TemperatureUnit::Celsius), ("fahrenheit", TemperatureUnit::Fahrenheit)])
    }

    fn columns(&self) -> Result<WeatherColumns, Unclear> {
        if self.broken {
            return Err(Unclear::Broken);
        }
        let apart = || {
            Some(HourColumns::Apart { month: self.text("month")?, day: self.text("day")?, hour: self.text("hour")? })
        };
        let hour = self.text("time").map(HourColumns::Together).or_else(apart);
        let humidity = [("percent", HumidityUnit::Percent), ("share", HumidityUnit::Share)];
        let humidity = self.unit("relative_humidity_unit", &humidity);
        let vapor = self.text("relative_humidity").map(|name| VaporColumn::RelativeHumidity(name, humidity));
        let dew = || Some(VaporColumn::DewPoint(self.text("dew_point")?, self.temperature_unit("dew_point_unit")));
        let pressure = self.unit(
            "pressure_unit",
            &[
                ("pascal", PressureUnit::Pascal),
                ("hectopascal", PressureUnit::Hectopascal),
                ("inch_of_mercury", PressureUnit::InchOfMercury),
            ],
        );
        let wind = self.unit(
            "wind_unit",
            &[
                ("meter_per_second", SpeedUnit::MeterPerSecond),
                ("kilometer_per_hour", SpeedUnit::KilometerPerHour),
                ("mile_per_hour", SpeedUnit::MilePerHour),
                ("knot", SpeedUnit::Knot),
            ],
        );
        let only = match (self.text("station"), self.text("station_is")) {
            (None, None) => None,
            (Some(column), Some(value)) => Some((column, value)),
            _ => return Err(Unclear::Lacks("one of `station` and `station_is`, which go together")),
        };
        Ok(WeatherColumns {
            hour: hour.ok_or(Unclear::Lacks("`time`, or `month`, `day` and `hour`"))?,
            first_hour: self.first_hour.ok_or(Unclear::FirstHour)?,
            temperature: (
                self.text("temperature").ok_or(Unclear::Lacks("`temperature`"))?,
                self.temperature_unit("temperature_unit"),
            ),
            vapor: vapor.or_else(dew).ok_or(Unclear::Lacks("`relative_humidity` or `dew_point`"))?,
            pressure: self.text("pressure").map(|name| (name, pressure)),
            wind: self.text("wind").map(|name| (name, wind)),
            only,
        })
    }
}

/// Months stated in the language, in the order of the function's parameters.
pub(super) fn stated(lists: &[Value], origin: Span) -> Value {
    let [temperature, dew_point, relative_humidity, daily_range, wind] = lists else { return Value::Broken };
    let months = || {
        Some(StatedMonths {
            temperature: list(temperature)??,
            dew_point: list(dew_point)?,
            relative_humidity: list(relative_humidity)?,
            daily_range: list(daily_range)?,
            wind: list(wind)?,
        })
    };
    months().map_or(Value::Broken, |m| named(&"".into(), ClimateReading::Stated(Arc::new(m)), origin))
}

/// A list of figures; none within where it is not given, none where a figure has failed.
fn list<T: TryFrom<Quantity, Error = QuantityError>>(value: &Value) -> Option<Option<Vec<T>>> {
    let figure = |value: &Value| {
        let quantity = match value {
            Value::Temperature(kelvin) => Quantity::new(*kelvin, Dim::TEMPERATURE),
            other => other.quantity()?,
        };
        T::try_from(quantity).ok()
    };
    match value {
        Value::None => Some(None),
        Value::List(items) => items.iter().map(figure).collect::<Option<Vec<T>>>().map(Some),
        _ => None,
    }
}
