//! Which column of an hourly CSV holds what, and in which unit: the mapping a site gives for a file of no known format.

use std::sync::Arc;

/// Unit of a column of temperatures or dew points.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum TemperatureUnit {
    /// °C.
    #[default]
    Celsius,
    /// °F.
    Fahrenheit,
}

/// Unit of a column of relative humidities.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum HumidityUnit {
    /// 0 to 100.
    #[default]
    Percent,
    /// 0 to 1.
    Share,
}

/// Unit of a column of pressures at the station, not reduced to sea level.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum PressureUnit {
    /// Pa.
    Pascal,
    /// hPa, the same as mbar.
    #[default]
    Hectopascal,
    /// Inches of mercury.
    InchOfMercury,
}

/// Unit of a column of winds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum SpeedUnit {
    /// m/s.
    #[default]
    MeterPerSecond,
    /// km/h.
    KilometerPerHour,
    /// Miles an hour.
    MilePerHour,
    /// Knots.
    Knot,
}

/// Where the hour of a line stands.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum HourColumns {
    /// Month, day and hour in a column each.
    Apart {
        /// Column of the month, 1 to 12.
        month: Arc<str>,
        /// Column of the day of the month, from 1.
        day: Arc<str>,
        /// Column of the hour.
        hour: Arc<str>,
    },
    /// Date and time in one column: `2013-02-11 05:00`, with a `T` between them if need be.
    Together(Arc<str>),
}

/// The vapor of the air: one of the two.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum VaporColumn {
    /// Relative humidity.
    RelativeHumidity(Arc<str>, HumidityUnit),
    /// Dew point, over water.
    DewPoint(Arc<str>, TemperatureUnit),
}

/// The columns of an hourly CSV by the names in its header.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct WeatherColumns {
    /// The hour of a line, in the local standard time.
    pub hour: HourColumns,
    /// Number of the first hour of a day in the file: 0, or 1 where hours are named by their end.
    pub first_hour: u8,
    /// Temperature.
    pub temperature: (Arc<str>, TemperatureUnit),
    /// Vapor.
    pub vapor: VaporColumn,
    /// Pressure; without one that of the altitude holds all year.
    pub pressure: Option<(Arc<str>, PressureUnit)>,
    /// Wind; without one the year is calm.
    pub wind: Option<(Arc<str>, SpeedUnit)>,
    /// Only lines whose column has this value are read, as for one station of several.
    pub only: Option<(Arc<str>, Arc<str>)>,
}
