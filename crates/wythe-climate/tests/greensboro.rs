//! A whole real year: the typical year of Greensboro, NC, an open set that a registry package carries, cut down to the
//! columns that are read (tests/reference/physics/greensboro.py).
#![allow(clippy::unwrap_used, reason = "a test stops at its first surprise")]

#[path = "../../wythe-physics/tests/crawl/mod.rs"]
mod crawl;

use uom::si::f64::{Length, Pressure};
use uom::si::{length::meter, pressure::pascal};
use wythe_climate::mapped::read_mapped;
use wythe_climate::{GapPolicy, HourlyWeather};
use wythe_model::{HourColumns, HumidityUnit, PressureUnit, SpeedUnit, TemperatureUnit, VaporColumn, WeatherColumns};
use wythe_physics::air::state::standard_pressure;
use wythe_physics::quantity::to_celsius;
use wythe_physics::zone::simulate::simulate;

const YEAR: &str = include_str!("../../../tests/reference/physics/greensboro_year.csv");

fn greensboro() -> HourlyWeather {
    let columns = WeatherColumns {
        hour: HourColumns::Apart { month: "month".into(), day: "day".into(), hour: "hour".into() },
        first_hour: 1,
        temperature: ("dry_bulb_c".into(), TemperatureUnit::Celsius),
        vapor: VaporColumn::RelativeHumidity("rh_pct".into(), HumidityUnit::Percent),
        pressure: Some(("pressure_hpa".into(), PressureUnit::Hectopascal)),
        wind: Some(("wind_m_s".into(), SpeedUnit::MeterPerSecond)),
        only: None,
    };
    read_mapped(YEAR.as_bytes(), &columns, Pressure::new::<pascal>(101_325.0), GapPolicy::Refuse).unwrap()
}

// Means as pandas takes them from the package's file: 14.42 °C and 69.5 %.
#[test]
fn greensboro_is_read_whole() {
    let got = greensboro();
    assert_eq!((got.filled, got.leap, got.year.hours().len()), (0, false, 8760));
    let hours = got.year.hours();
    let mean = hours.iter().map(|h| to_celsius(h.temperature)).sum::<f64>() / 8760.0;
    let humidity = hours.iter().map(|h| h.humidity.ratio().value).sum::<f64>() / 8760.0;
    assert!((mean - 14.42).abs() < 0.005, "{mean}");
    assert!((humidity - 0.695).abs() < 0.0005, "{humidity}");
}

// The station's mean pressure is that of the standard atmosphere at its 273 m within a percent: the sea-level pressure of
// the region lies half a percent over the standard's.
#[test]
fn the_pressure_of_a_station_follows_from_its_altitude() {
    let hours = greensboro().year;
    let mean = hours.hours().iter().map(|h| h.pressure.value).sum::<f64>() / 8760.0;
    let standard = standard_pressure(Length::new::<meter>(273.0)).unwrap().value;
    assert!((mean / standard - 1.0).abs() < 0.01, "{mean} beside {standard}");
    assert!(mean / 101_325.0 < 0.98);
}

#[test]
fn vented_condenses_in_a_real_summer_and_closed_does_not() {
    let weather = greensboro().year;
    let open = simulate(&crawl::vented_cottage(), &crawl::vented(), &weather).unwrap();
    let shut = simulate(&crawl::cottage(), &crawl::closed(), &weather).unwrap();
    assert!(open.condensing_hours() > 0);
    assert_eq!(shut.condensing_hours(), 0);
}

// The balances of heat and water close over a real year, hour by hour, as they do over a smooth one.
#[test]
fn balances_close_over_a_real_year() {
    for (space, scenario) in [(crawl::vented_cottage(), crawl::vented()), (crawl::cottage(), crawl::closed())] {
        let year = simulate(&space, &scenario, &greensboro().year).unwrap();
        assert!(year.water.residual.value.abs() < 1e-3, "{}: {:?}", scenario.name, year.water);
        assert!(year.heat.residual.value.abs() < 1e-3, "{}: {:?}", scenario.name, year.heat);
    }
}
