//! Monthly normals that a site states itself: lists of twelve, from January.

use uom::si::f64::{Ratio, TemperatureInterval, Velocity};
use uom::si::{ratio::percent, temperature_interval, velocity};
use wythe_model::StatedMonths;
use wythe_physics::quantity::{RelativeHumidity, to_celsius};

use crate::normals::{DAILY_RANGE, MonthNormal, MonthlyNormals, WIND, impossible, share_of};
use crate::problem::{ProblemKind, Problems, Result};

/// Admits the months a site states.
///
/// # Errors
/// A list that has not twelve entries, neither humidities nor dew points, and every value that a month cannot have.
pub fn stated_normals(stated: &StatedMonths) -> Result<MonthlyNormals> {
    let mut problems = Problems::default();
    let lists = [
        ("temperature", Some(stated.temperature.len())),
        ("relative humidity", stated.relative_humidity.as_ref().map(Vec::len)),
        ("dew point", stated.dew_point.as_ref().map(Vec::len)),
        ("daily range", stated.daily_range.as_ref().map(Vec::len)),
        ("wind", stated.wind.as_ref().map(Vec::len)),
    ];
    for (field, got) in lists {
        if let Some(got) = got.filter(|got| *got != 12) {
            problems.push(None, ProblemKind::NotTwelve { field, got });
        }
    }
    if stated.relative_humidity.is_none() && stated.dew_point.is_none() {
        problems.push(None, ProblemKind::MissingValue { field: "relative humidity or dew point".into() });
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut months = Vec::with_capacity(12);
    for (n, &temperature) in stated.temperature.iter().enumerate() {
        let dew_share = |dew: &Vec<_>| share_of(to_celsius(dew[n]), to_celsius(temperature));
        let share = match (&stated.relative_humidity, &stated.dew_point) {
            (Some(list), _) => list[n].get::<percent>(),
            (None, Some(dew)) => 100.0 * dew_share(dew),
            (None, None) => f64::NAN,
        };
        let Ok(humidity) = RelativeHumidity::new(Ratio::new::<percent>(share)) else {
            let of = match stated.relative_humidity {
                Some(_) => impossible("relative humidity", share, "%", 0.0, 100.0, ""),
                None => ProblemKind::Month { month: n as i64 + 1, what: "has a dew point over its temperature" },
            };
            problems.push(None, of);
            continue;
        };
        let kelvin = TemperatureInterval::new::<temperature_interval::kelvin>;
        let calm = Velocity::new::<velocity::meter_per_second>(WIND);
        months.push(MonthNormal {
            temperature,
            humidity,
            daily_range: stated.daily_range.as_ref().map_or_else(|| kelvin(DAILY_RANGE), |list| list[n]),
            wind: stated.wind.as_ref().map_or(calm, |list| list[n]),
        });
    }
    match <[MonthNormal; 12]>::try_from(months) {
        Ok(months) if problems.is_empty() => MonthlyNormals::new(months),
        _ => Err(problems),
    }
}
