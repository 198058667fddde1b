//! The crawl space over a year: the trade's claims untuned, the balances, and the refusals.
#![allow(clippy::unwrap_used, reason = "a test stops at its first surprise")]

mod crawl;

use crawl::{bare_soil, closed, construction, cottage, flow, humid_year, m, m2, rh, share, vented, vented_cottage};
use uom::si::f64::Time;
use uom::si::time;
use wythe_physics::air::saturation::saturation;
use wythe_physics::heat::film::{HeatFlow, inside_film, outside_film};
use wythe_physics::heat::ground::basement::HeatedBasement;
use wythe_physics::heat::ground::{FloorResistances, Soil};
use wythe_physics::quantity::{celsius, insulance_si, to_celsius};
use wythe_physics::weather::{WeatherHour, WeatherOrigin, WeatherYear};
use wythe_physics::zone::result::ZoneYear;
use wythe_physics::zone::scenario::{Beginning, House, Scenario, WaterRelease};
use wythe_physics::zone::simulate::simulate;
use wythe_physics::zone::space::Exposure;

fn run(scenario: &Scenario) -> ZoneYear {
    simulate(&cottage(), scenario, &humid_year()).unwrap()
}

fn ground_water(year: &ZoneYear) -> f64 {
    (year.water.sheet + year.water.laps + year.water.bare_soil).value
}

// Trade claim, untuned: in a humid summer a vented space over cool ground condenses; the same space
// closed, lined and conditioned does not.
#[test]
fn vented_condenses_in_summer_and_closed_does_not() {
    let open = simulate(&vented_cottage(), &vented(), &humid_year()).unwrap();
    let shut = run(&closed());
    let summer = |year: &ZoneYear| {
        year.months.iter().filter(|m| (5..=9).contains(&m.month)).map(|m| m.condensing_hours).sum::<u32>()
    };
    assert!(summer(&open) > 100, "{}", summer(&open));
    assert_eq!(summer(&shut), 0);
    assert!(open.highest_wood_moisture() > shut.highest_wood_moisture());
    assert!(open.highest_mold() > shut.highest_mold());
    assert!(shut.highest_mold().value() < 1.0);
    assert!(shut.hours_over(rh(70.0)) < open.hours_over(rh(70.0)));
}

// Trade claim, untuned: bare soil gives many times the water of a sealed liner.
#[test]
fn bare_soil_loads_many_times_a_sealed_liner() {
    let lined = run(&closed());
    let bare = run(&Scenario { cover: bare_soil(), ..closed() });
    let times = ground_water(&bare) / ground_water(&lined);
    assert!(times > 20.0, "{times}");
    assert!(bare.water.dehumidifier < lined.water.dehumidifier);
}

#[test]
fn balances_close_in_every_state() {
    for scenario in [closed(), vented(), construction()] {
        let year = run(&scenario);
        // The limit of the result is one in a thousand; the scheme closes to rounding.
        assert!(year.heat.residual.value < 1e-9, "{:?}", year.heat.residual);
        assert!(year.water.residual.value < 1e-9, "{:?}", year.water.residual);
        assert_eq!(year.hours.len(), 8760);
        assert_eq!(year.months.len(), 12);
        for hour in &year.hours {
            assert!(hour.air.value.is_finite() && hour.wood_moisture.value.is_finite());
            assert!(hour.wood_moisture.value >= 0.0 && hour.condensate.value >= 0.0);
        }
    }
}

#[test]
fn service_states_repeat_from_year_to_year() {
    let year = run(&closed());
    assert!(year.spin_up.settled, "{:?}", year.spin_up);
    // A repeating year stores next to nothing.
    assert!(year.water.stored.value.abs() < 2.0, "{:?}", year.water.stored);
}

// Over a repeating year the heat to the ground is the steady conductance of ISO 13370 times the
// mean difference to outside.
#[test]
fn ground_heat_agrees_with_iso_13370_over_the_year() {
    let (space, weather) = (cottage(), humid_year());
    let year = simulate(&space, &closed(), &weather).unwrap();
    let u = HeatedBasement {
        plan: space.plan,
        depth: space.depth,
        wall_thickness: space.wall_thickness,
        soil: Soil::clay(),
        floor: FloorResistances {
            inside_film: inside_film(HeatFlow::Downward),
            floor: insulance_si(0.0),
            outside_film: outside_film(),
        },
        wall_film: inside_film(HeatFlow::Horizontal),
        wall: insulance_si(1.0),
    }
    .transmittance()
    .unwrap()
    .floor;
    let mean = |of: fn(&wythe_physics::zone::result::ZoneHour) -> f64| year.hours.iter().map(of).sum::<f64>() / 8760.0;
    let difference = mean(|h| h.outside.value) - mean(|h| h.air.value);
    let want = u.value * space.plan.area.value * difference * 8760.0 * 3600.0;
    let off = year.heat.ground.value / want - 1.0;
    assert!(off.abs() < 0.02, "{off}: {} against {want}", year.heat.ground.value);
}

// With no exchange but through the floor above, the space ends at the temperature of the house.
#[test]
fn a_space_with_little_loss_follows_the_house() {
    let mut space = cottage();
    for band in &mut space.bands {
        band.insulation = insulance_si(100.0);
    }
    let mut scenario = closed();
    scenario.cover.insulation = insulance_si(100.0);
    scenario.leakage = flow(0.0);
    scenario.dehumidifier = None;
    let year = simulate(&space, &scenario, &humid_year()).unwrap();
    let january = year.months[0].air;
    assert!((to_celsius(january) - 20.5).abs() < 0.5, "{}", to_celsius(january));
}

/// A year that never changes.
fn constant_year(t: f64, percent: f64) -> WeatherYear {
    let hours = humid_year()
        .hours()
        .iter()
        .map(|hour| WeatherHour { temperature: celsius(t), humidity: rh(percent), ..*hour })
        .collect();
    WeatherYear::new(hours, WeatherOrigin::SynthesizedFromMonths).unwrap()
}

// Under constant weather the zone ends in the state worked here by hand from conductances: each
// wall by its series, ground and walls below grade by ISO 13370, the floor above, leakage; and the
// vapor pressure from the permeances in the same way.
#[test]
fn constant_weather_ends_in_the_state_worked_by_hand() {
    let (space, outside, house) = (cottage(), 10.0, 20.5);
    let scenario = Scenario { dehumidifier: None, ..closed() };
    let year = simulate(&space, &scenario, &constant_year(outside, 70.0)).unwrap();
    let last = year.hours[8759];

    let basement = |r_w: f64| {
        HeatedBasement {
            plan: space.plan,
            depth: space.depth,
            wall_thickness: space.wall_thickness,
            soil: space.soil,
            floor: FloorResistances {
                inside_film: insulance_si(0.17),
                floor: insulance_si(0.0),
                outside_film: insulance_si(0.04),
            },
            wall_film: insulance_si(0.13),
            wall: insulance_si(r_w),
        }
        .transmittance()
        .unwrap()
    };
    let area = space.plan.area.value;
    let floor = basement(1.0).floor.value;
    let walls: Vec<f64> = space
        .bands
        .iter()
        .map(|band| match band.exposure {
            Exposure::Ground => basement((band.insulation + band.masonry).value).wall.value,
            Exposure::Air => 1.0 / (0.13 + band.insulation.value + band.masonry.value + 0.04),
        })
        .collect();
    let dry_air = 0.005 * 98_500.0 / (287.042 * 283.15);
    let lost = floor * area
        + walls.iter().zip(&space.bands).map(|(u, band)| u * band.area.value).sum::<f64>()
        + dry_air * 1006.0;
    let gained = 1.0 / (0.13 / space.wood.area.value + space.floor_above.value / area);
    let air = (gained * house + lost * outside) / (gained + lost);
    assert!((to_celsius(last.air) - air).abs() < 0.02, "{} against {air}", to_celsius(last.air));

    let full = |t: f64| saturation(celsius(t)).unwrap().value;
    let film = 3.0 / (1.2 * 1006.0 * 461.5 * 288.0);
    let through = |w: f64| 1.0 / (1.0 / w + 1.0 / film);
    let vapor_outside = 0.7 * full(outside);
    let cover = scenario.cover;
    let soil_surface = air - floor * (air - outside) * 0.17;
    let ground = area
        * ((1.0 - cover.unsealed.value) * through(cover.sheet.to_si())
            + cover.unsealed.value * through(cover.soil_surface.to_si()));
    let (mut sum, mut weighted) = (ground, ground * full(soil_surface));
    for (u, band) in walls.iter().zip(&space.bands) {
        let g = band.area.value * through(band.permeance.to_si());
        let masonry = air - u * (air - outside) * (0.13 + band.insulation.value + 0.5 * band.masonry.value);
        sum += g;
        weighted += g * if band.exposure == Exposure::Ground { full(masonry) } else { vapor_outside };
    }
    let leak = |p: f64| dry_air * 0.621_945 / (98_500.0 - p);
    let mut vapor = vapor_outside;
    for _ in 0..20 {
        vapor = (weighted + leak(vapor) * vapor_outside) / (sum + leak(vapor));
    }
    let got = last.humidity.ratio().value * full(to_celsius(last.air));
    assert!((got / vapor - 1.0).abs() < 2e-3, "{got} against {vapor}");
    // The framing ends in equilibrium with that air at its own temperature.
    let wood = got / full(to_celsius(last.wood));
    assert!((last.wood_humidity.ratio().value - wood).abs() < 2e-3);
}

// Green framing dries in a spring built open; the released water appears in the balance.
#[test]
fn construction_run_begins_as_built() {
    let scenario = Scenario {
        beginning: Beginning::Built { hour: 90 * 24, wood_moisture: share(0.28) },
        release: Some(WaterRelease {
            total: uom::si::f64::Mass::new::<uom::si::mass::kilogram>(300.0),
            time_constant: Time::new::<time::day>(60.0),
        }),
        ..construction()
    };
    let year = run(&scenario);
    assert_eq!((year.hours[0].month, year.hours[0].day), (4, 1));
    assert!(year.hours[0].wood_core.value > 0.25);
    assert!(year.hours[60 * 24].wood_core < year.hours[0].wood_core);
    // Nearly all of it: 1 − e^(−365/60).
    assert!((year.water.release.value - 300.0 * (1.0 - (-365.0_f64 / 60.0).exp())).abs() < 0.01);
    assert!(year.water.residual.value < 1e-9);
}

#[test]
fn a_dehumidifier_holds_its_set_point_when_it_can() {
    let year = run(&closed());
    assert!(year.hours_over(rh(58.0)) < 24, "{}", year.hours_over(rh(58.0)));
    assert!(year.busiest_dehumidifier_day().value > 0.0);
    let without = run(&Scenario { dehumidifier: None, ..closed() });
    assert!(without.hours_over(rh(58.0)) > year.hours_over(rh(58.0)));
}

#[test]
fn bad_inputs_are_refused_by_name() {
    let (space, weather) = (cottage(), humid_year());
    let refuse = |space: &_, scenario: &Scenario, word: &str| {
        let error = simulate(space, scenario, &weather).unwrap_err().to_string();
        assert!(error.contains(word), "{error}");
    };
    let mut bad = space.clone();
    bad.plan.perimeter = m(0.0);
    refuse(&bad, &closed(), "exposed perimeter");
    let mut bad = space.clone();
    bad.bands[1].area = m2(f64::NAN);
    refuse(&bad, &closed(), "above grade");
    let mut bad = space.clone();
    bad.depth = m(0.0);
    refuse(&bad, &closed(), "below grade");
    let mut scenario = closed();
    scenario.cover.unsealed = share(1.5);
    refuse(&space, &scenario, "unsealed share");
    let mut scenario = closed();
    scenario.house = House::Conditioned {
        heating: celsius(25.0),
        cooling: celsius(20.0),
        moisture_excess: uom::si::f64::Pressure::new::<uom::si::pressure::pascal>(0.0),
        highest_humidity: rh(60.0),
    };
    refuse(&space, &scenario, "cooling temperature");
    let mut scenario = closed();
    scenario.leakage = flow(-1.0);
    refuse(&space, &scenario, "leakage");
}

mod laws {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(12))]

        // Any admissible space stays finite and closes its balances.
        #[test]
        fn every_space_closes(
            depth in 0.05f64..1.5, leak in 0.0f64..0.5, unsealed in 0.0f64..1.0,
            supply in 0.0f64..0.05, vent in 0.0f64..2.0, layer in 0.0005f64..0.004
        ) {
            let mut space = cottage();
            space.depth = m(depth);
            space.wood.surface_layer = m(layer);
            let mut scenario = vented();
            scenario.leakage = flow(leak);
            scenario.supply = flow(supply);
            scenario.cover.unsealed = share(unsealed);
            if let Some(vents) = &mut scenario.vents {
                vents.net_area = m2(vent);
            }
            let year = simulate(&space, &scenario, &humid_year()).unwrap();
            prop_assert!(year.water.residual.value < 1e-6);
            prop_assert!(year.heat.residual.value < 1e-6);
        }
    }
}
