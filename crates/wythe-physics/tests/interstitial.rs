//! Monthly condensation against a single-plane case by hand and a year solved by another route.
#![allow(clippy::unwrap_used, reason = "a test stops at its first surprise")]

use uom::si::areal_mass_density::kilogram_per_square_meter;
use uom::si::f64::{ArealMassDensity, Length};
use uom::si::length;
use wythe_physics::quantity::{RelativeHumidity, celsius, insulance_si, to_celsius};
use wythe_physics::vapor::interstitial::{
    BuiltInWater, InterstitialVerdict, VaporLayer, VaporMonth, VaporSection, drying, interstitial_year,
};

fn layer(d: f64, lambda: f64, mu: f64) -> VaporLayer {
    VaporLayer { resistance: insulance_si(d / lambda), s_d: Length::new::<length::meter>(d * mu) }
}
fn section(layers: Vec<VaporLayer>) -> VaporSection {
    VaporSection { inside_film: insulance_si(0.25), layers, outside_film: insulance_si(0.04) }
}
fn rh(p: f64) -> RelativeHumidity {
    RelativeHumidity::percent(p).unwrap()
}
fn month(outside: f64, humidity: f64, days: u16) -> VaporMonth {
    VaporMonth {
        inside: celsius(20.0),
        inside_humidity: rh(50.0),
        outside: celsius(outside),
        outside_humidity: rh(humidity),
        days,
    }
}
fn panel_wall() -> VaporSection {
    section(vec![layer(0.0125, 0.25, 10.0), layer(0.140, 0.035, 1.0), layer(0.012, 0.13, 50.0)])
}

// ISO 13788 clause 6 worked by hand for one month: interface temperatures, and 1391.9 g/m² in
// 30 days at the inner face of the outer panel.
#[test]
fn one_month_by_hand() {
    let year = interstitial_year(&panel_wall(), &[month(-5.0, 90.0, 30)]).unwrap();
    let planes = &year.months[0];
    assert!((to_celsius(planes.temperatures[0]) - 18.3079).abs() < 1e-4);
    assert!((to_celsius(planes.temperatures[1]) + 4.2537).abs() < 1e-4);
    assert!((1000.0 * planes.change[1].value - 1391.9).abs() < 0.1, "{:?}", planes.change);
    assert!(planes.change[0].value.abs() < 1e-12);
    assert_eq!(year.verdict, InterstitialVerdict::Accumulates);
}

// A year against the obstacle problem solved as bounded least squares
// (tests/reference/physics/interstitial.py), within one of its hundredth-of-a-month steps.
#[test]
fn a_year_against_the_obstacle_problem() {
    let months: Vec<VaporMonth> = [
        (-5.0, 90.0, 31),
        (-3.0, 88.0, 28),
        (2.0, 82.0, 31),
        (7.0, 78.0, 30),
        (12.0, 74.0, 31),
        (16.0, 72.0, 30),
        (18.0, 72.0, 31),
        (17.0, 75.0, 31),
        (13.0, 80.0, 30),
        (8.0, 84.0, 31),
        (2.0, 88.0, 30),
        (-3.0, 90.0, 31),
    ]
    .into_iter()
    .map(|(t, h, d)| month(t, h, d))
    .collect();
    let year = interstitial_year(&panel_wall(), &months).unwrap();
    let mut table =
        csv::Reader::from_path(concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/reference/physics/interstitial.csv"))
            .unwrap();
    let rows: Vec<(usize, f64, f64)> = table.deserialize().map(|r| r.unwrap()).collect();
    assert_eq!(rows.len(), year.months.len());
    for (got, (number, one, two)) in year.months.iter().zip(rows) {
        assert_eq!(got.month, number);
        for (held, want) in got.held.iter().zip([one, two]) {
            let grams = 1000.0 * held.value;
            assert!((grams - want).abs() < 0.2, "month {number}: {grams} not {want}");
        }
    }
    assert_eq!(year.verdict, InterstitialVerdict::DriesOut);
    assert!((1000.0 * year.peak.value - 5417.65).abs() < 0.2);
}

// A warm-side membrane of s_d 50 m (0.15 mm polyethylene, ISO 10456) ends the condensation.
#[test]
fn a_warm_side_retarder_keeps_it_dry() {
    let mut wall = panel_wall();
    wall.layers.insert(0, VaporLayer { resistance: insulance_si(0.0), s_d: Length::new::<length::meter>(50.0) });
    let year = interstitial_year(&wall, &[month(-5.0, 90.0, 30), month(15.0, 75.0, 30)]).unwrap();
    assert_eq!(year.verdict, InterstitialVerdict::Free);
    assert!(year.peak.value.abs() < 1e-15);
}

// A wet masonry wall behind foil dries outward above grade and not at all between two foils.
#[test]
fn built_in_water_dries_only_where_it_can() {
    let foil = VaporLayer { resistance: insulance_si(1.6), s_d: Length::new::<length::meter>(1500.0) };
    let block = layer(0.2, 1.0, 10.0);
    let months = [month(5.0, 80.0, 30), month(18.0, 70.0, 30)];
    let water = BuiltInWater { after_layer: 1, amount: ArealMassDensity::new::<kilogram_per_square_meter>(1.0) };
    let open = drying(&section(vec![foil, block]), &months, 0, &water).unwrap();
    assert!(open.dry_after.is_some_and(|n| n < 24), "{:?}", open.dry_after);
    let trapped = drying(&section(vec![foil, block, foil]), &months, 0, &water).unwrap();
    assert_eq!(trapped.dry_after, None);
    assert!(drying(&section(vec![block]), &months, 0, &water).is_err());
}

#[test]
fn bad_months_are_refused() {
    assert!(interstitial_year(&panel_wall(), &[]).is_err());
    assert!(interstitial_year(&panel_wall(), &[month(-5.0, 90.0, 0)]).is_err());
    assert!(interstitial_year(&panel_wall(), &[month(68.0, 90.0, 30)]).is_err());
    assert!(interstitial_year(&section(vec![]), &[month(-5.0, 90.0, 30)]).is_err());
}

mod laws {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        // Water at planes changes by inflow less outflow only, so never turns negative.
        #[test]
        fn held_water_is_never_negative(
            d in proptest::collection::vec((0.01f64..0.3, 0.02f64..2.0, 1.0f64..200.0), 1..6),
            t in proptest::collection::vec((-20.0f64..30.0, 30.0f64..100.0), 1..13)
        ) {
            let wall = section(d.iter().map(|&(d, l, mu)| layer(d, l, mu)).collect());
            let months: Vec<_> = t.iter().map(|&(t, h)| month(t, h, 30)).collect();
            let year = interstitial_year(&wall, &months).unwrap();
            for m in &year.months {
                prop_assert!(m.held.iter().all(|h| h.value >= 0.0 && h.value.is_finite()));
            }
        }
    }
}
