//! Moist air against psychrolib over a grid, and at the check points of the handbook's equations.
#![allow(clippy::unwrap_used, reason = "a test stops at its first surprise")]

use uom::si::f64::Pressure;
use uom::si::pressure;
use wythe_physics::air::saturation::saturation;
use wythe_physics::air::state::MoistAir;
use wythe_physics::quantity::{RelativeHumidity, celsius, fahrenheit, to_celsius};

fn pa(v: f64) -> Pressure {
    Pressure::new::<pressure::pascal>(v)
}
#[track_caller]
fn close(what: &str, got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{what}: got {got}, want {want}");
}

#[derive(Debug)]
struct Row {
    t: f64,
    rh: f64,
    p: f64,
    p_sat: f64,
    dew: f64,
    w: f64,
    wet: f64,
    h: f64,
    density: f64,
}

// psychrolib 2.5 (ASHRAE Fundamentals 2017), tests/reference/physics/psychrometrics.py.
// psychrolib finds dew and wet bulb to 0.001 K.
#[test]
fn grid_against_psychrolib() {
    let mut table = csv::Reader::from_path(concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../tests/reference/physics/psychrometrics.csv"
    ))
    .unwrap();
    let mut count = 0;
    for record in table.records() {
        let record = record.unwrap();
        let v: Vec<f64> = record.iter().map(|f| f.parse().unwrap()).collect();
        let row =
            Row { t: v[0], rh: v[1], p: v[2], p_sat: v[3], dew: v[4], w: v[5], wet: v[6], h: v[7], density: v[8] };
        let air = MoistAir::new(celsius(row.t), RelativeHumidity::percent(100.0 * row.rh).unwrap(), pa(row.p)).unwrap();
        let name = format!("{row:?}");
        close(&name, saturation(celsius(row.t)).unwrap().value, row.p_sat, 1e-6 * row.p_sat);
        close(&name, to_celsius(air.dew_point().unwrap()), row.dew, 0.01);
        close(&name, air.humidity_ratio().value, row.w, 1e-6 * row.w.max(1e-7) + 1e-9);
        close(&name, to_celsius(air.wet_bulb()), row.wet, 0.01);
        close(&name, air.enthalpy().value, row.h, 1.0);
        close(&name, air.density().value, row.density, 1e-5);
        count += 1;
    }
    assert!(count >= 500, "{count}");
}

// Points computed from the handbook's equations at standard pressure.
#[test]
fn check_points() {
    for (t, rh, p, dew, w, wet) in [
        (0.0, 80.0, 611.154, -2.683, 0.003016, -1.155),
        (15.0, 70.0, 1705.448, 9.579, 0.007415, 11.921),
        (20.0, 50.0, 2338.804, 9.272, 0.007262, 13.783),
        (25.0, 60.0, 3169.216, 16.701, 0.011895, 19.471),
        (35.0, 40.0, 5627.819, 19.385, 0.014132, 23.934),
        (-10.0, 70.0, 259.903, -13.957, 0.001119, -10.975),
    ] {
        let air = MoistAir::new(celsius(t), RelativeHumidity::percent(rh).unwrap(), pa(101_325.0)).unwrap();
        close("saturation", saturation(celsius(t)).unwrap().value, p, 1e-3 * p);
        close("dew point", to_celsius(air.dew_point().unwrap()), dew, 0.01);
        close("ratio", air.humidity_ratio().value, w, 1e-6);
        close("wet bulb", to_celsius(air.wet_bulb()), wet, 0.01);
    }
    for (t, rh, dew, w) in [(55.0, 70.0, 45.41, 0.006408), (70.0, 50.0, 50.53, 0.007783), (80.0, 60.0, 64.88, 0.013155)]
    {
        let air = MoistAir::new(fahrenheit(t), RelativeHumidity::percent(rh).unwrap(), pa(101_325.3)).unwrap();
        close("dew point", to_celsius(air.dew_point().unwrap()) * 1.8 + 32.0, dew, 0.02);
        close("ratio", air.humidity_ratio().value, w, 1e-6);
    }
}

#[test]
fn air_beyond_reason_is_refused() {
    let half = RelativeHumidity::percent(50.0).unwrap();
    assert!(MoistAir::new(celsius(300.0), half, pa(101_325.0)).is_err());
    assert!(MoistAir::new(celsius(20.0), half, pa(14.7)).is_err());
    assert!(MoistAir::new(celsius(f64::NAN), half, pa(101_325.0)).is_err());
    let dry = MoistAir::new(celsius(20.0), RelativeHumidity::DRY, pa(101_325.0)).unwrap();
    assert!(dry.dew_point().is_err());
    assert!(dry.wet_bulb().value.is_finite());
}

mod laws {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn dew_wet_dry_in_order(t in -30.0f64..50.0, rh in 1.0f64..100.0) {
            let air = MoistAir::new(celsius(t), RelativeHumidity::percent(rh).unwrap(), pa(101_325.0)).unwrap();
            let (dew, wet) = (to_celsius(air.dew_point().unwrap()), to_celsius(air.wet_bulb()));
            // Near saturation the frost point and the psychrometer's ice formula differ slightly.
            prop_assert!(dew <= wet + 1e-3 && wet <= t + 1e-6, "{} {} {}", dew, wet, t);
        }

        #[test]
        fn ratio_round_trip(t in -30.0f64..50.0, rh in 1.0f64..100.0) {
            let p = pa(95_000.0);
            let air = MoistAir::new(celsius(t), RelativeHumidity::percent(rh).unwrap(), p).unwrap();
            let back = MoistAir::from_humidity_ratio(celsius(t), air.humidity_ratio(), p).unwrap();
            prop_assert!((back.relative_humidity().ratio().value - rh / 100.0).abs() < 1e-9);
        }
    }
}
