//! Sizing against code numbers by hand, and the day of closing.
#![allow(clippy::unwrap_used, reason = "a test stops at its first surprise")]

mod crawl;

use crawl::{closed, construction, cottage, flow, humid_year, rh, share, vented, vented_cottage};
use uom::si::f64::{Area, Mass, MassRate, Time, VolumeRate};
use uom::si::{area, mass, mass_rate, time, volume_rate};
use wythe_physics::mold::growth::MoldIndex;
use wythe_physics::quantity::fahrenheit;
use wythe_physics::sizing::close_in::{CloseInCriteria, safe_to_close};
use wythe_physics::sizing::code::{ClosedCrawlCode, PerFloorArea, vent_area};
use wythe_physics::sizing::load::{AirMeans, HumidityLimit, dehumidifier_load, least_air};
use wythe_physics::zone::scenario::{Beginning, Dehumidifier, Scenario, WaterRelease};
use wythe_physics::zone::simulate::simulate;

const FOOT2: f64 = 0.3048 * 0.3048;
const CFM: f64 = 0.3048 * 0.3048 * 0.3048 / 60.0;
const PINT_A_DAY: f64 = 0.473_176_473 / 86_400.0;

fn feet2(v: f64) -> Area {
    Area::new::<area::square_meter>(v * FOOT2)
}
fn cfm(v: f64) -> VolumeRate {
    VolumeRate::new::<volume_rate::cubic_meter_per_second>(v * CFM)
}
fn pints(v: f64) -> MassRate {
    MassRate::new::<mass_rate::kilogram_per_second>(v * PINT_A_DAY)
}
fn days(v: f64) -> Time {
    Time::new::<time::day>(v)
}

// IRC R408.3 numbers: 1200 ft² asks for 24 cfm or 84 pint a day. R408.1: 1500 ft² asks for 10 ft²,
// or 1 ft² over a class I cover.
#[test]
fn code_minimums_by_hand() {
    let code = ClosedCrawlCode {
        exhaust: PerFloorArea { amount: cfm(1.0), area: feet2(50.0) },
        supply: PerFloorArea { amount: cfm(1.0), area: feet2(50.0) },
        dehumidifier: PerFloorArea { amount: pints(70.0), area: feet2(1000.0) },
    };
    let got = code.options(feet2(1200.0)).unwrap();
    assert!((got.exhaust.value / CFM - 24.0).abs() < 1e-9);
    assert!((got.supply.value / CFM - 24.0).abs() < 1e-9);
    assert!((got.dehumidifier.value / PINT_A_DAY - 84.0).abs() < 1e-9);
    assert!((vent_area(feet2(1500.0), share(1.0 / 150.0)).unwrap().value / FOOT2 - 10.0).abs() < 1e-9);
    assert!((vent_area(feet2(1500.0), share(1.0 / 1500.0)).unwrap().value / FOOT2 - 1.0).abs() < 1e-9);
    assert!(code.options(feet2(0.0)).is_err());
    assert!(vent_area(feet2(100.0), share(-0.1)).is_err());
}

// The rating condition matters: at 65 °F and 60 % a machine gives less than half of its 80 °F/60 %.
#[test]
fn a_rating_holds_at_its_condition_only() {
    let machine = Dehumidifier::rated_at_80_60(share(70.0), rh(55.0)).unwrap();
    let at = |f: f64, percent: f64| {
        let vapor = wythe_physics::air::saturation::saturation(fahrenheit(f)).unwrap() * share(percent / 100.0);
        (machine.capacity(vapor).unwrap() / machine.rated).value
    };
    assert!((at(80.0, 60.0) - 1.0).abs() < 1e-9);
    assert!((0.40..0.50).contains(&at(65.0, 60.0)), "{}", at(65.0, 60.0));
    assert!(at(40.0, 50.0) < 1e-9);
    assert!((at(95.0, 80.0) - 1.0).abs() < 1e-9);
}

#[test]
fn computed_load_is_met_by_its_rating() {
    let (space, weather) = (cottage(), humid_year());
    let machine = Dehumidifier::rated_at_80_60(share(70.0), rh(55.0)).unwrap();
    let load = dehumidifier_load(&space, &closed(), &weather, &machine).unwrap();
    assert!((6..=9).contains(&load.peak_month), "{load:?}");
    assert!(load.rating.value > load.peak_day.value / 86_400.0);
    // A machine of that rating with a fifth in hand keeps the space at its set point.
    let sized = Scenario { dehumidifier: Some(Dehumidifier { rated: load.rating * 1.2, ..machine }), ..closed() };
    assert!(simulate(&space, &sized, &weather).unwrap().hours_over(rh(58.0)) < 50);
    // Leakier, the load is larger.
    let leaky = Scenario { leakage: flow(0.03), ..closed() };
    let more = dehumidifier_load(&space, &leaky, &weather, &machine).unwrap();
    assert!(more.peak_day > load.peak_day);
}

#[test]
fn least_supply_air_keeps_the_limit() {
    let (space, weather) = (cottage(), humid_year());
    let scenario = Scenario { dehumidifier: None, ..closed() };
    let limit = HumidityLimit { humidity: rh(70.0), hours: 100 };
    let got = least_air(&space, &scenario, &weather, AirMeans::Supply, limit, flow(0.1)).unwrap().unwrap();
    assert!(got.flow.value > 0.0 && got.flow.value < 0.1);
    assert!(got.year.hours_over(rh(70.0)) <= 100);
    let less = Scenario { supply: got.flow * 0.8, ..scenario.clone() };
    assert!(simulate(&space, &less, &weather).unwrap().hours_over(rh(70.0)) > 100);
    // Outside air cannot keep a humid summer dry.
    let none = least_air(
        &space,
        &scenario,
        &weather,
        AirMeans::Exhaust { from_house: share(0.0) },
        HumidityLimit { humidity: rh(60.0), hours: 0 },
        flow(0.2),
    )
    .unwrap();
    assert!(none.is_none());
}

fn criteria() -> CloseInCriteria {
    CloseInCriteria {
        wood_moisture: share(0.19),
        held: days(3.0),
        watched: days(60.0),
        mold: MoldIndex::new(1.0).unwrap(),
        not_before: days(14.0),
    }
}

#[test]
fn green_framing_is_closed_when_it_has_dried() {
    let (space, weather) = (cottage(), humid_year());
    let built = |hour: usize, moisture: f64| Scenario {
        beginning: Beginning::Built { hour, wood_moisture: share(moisture) },
        release: Some(WaterRelease { total: Mass::new::<mass::kilogram>(200.0), time_constant: days(45.0) }),
        ..construction()
    };
    let start = 75 * 24;
    let wet = safe_to_close(&space, &built(start, 0.26), &closed(), &weather, &criteria()).unwrap().unwrap();
    let dry = safe_to_close(&space, &built(start, 0.15), &closed(), &weather, &criteria()).unwrap().unwrap();
    assert!(wet.after > dry.after);
    assert!(dry.after.value >= 14.0 * 86_400.0);
    assert!(wet.wood_moisture.value <= 0.19);
    // Vented in service is no way to keep it: the humid summer takes it over the limit.
    let mut strict = criteria();
    strict.watched = days(200.0);
    strict.wood_moisture = share(0.17);
    let never = safe_to_close(&vented_cottage(), &built(start, 0.15), &vented(), &weather, &strict).unwrap();
    assert!(never.is_none_or(|day| day.after > dry.after));
    let mut bad = criteria();
    bad.wood_moisture = share(0.0);
    assert!(safe_to_close(&space, &built(start, 0.2), &closed(), &weather, &bad).is_err());
}
