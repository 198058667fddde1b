//! Sampled ranges: laws of the sampling, and a crawl space with the inputs that matter named.
#![allow(clippy::unwrap_used, reason = "a test stops at its first surprise")]

mod crawl;

use crawl::{closed, cottage, flow, humid_year, share};
use uom::si::f64::{Length, ThermalConductivity};
use uom::si::{length, thermal_conductivity};
use wythe_physics::uncertainty::crawl::{
    CrawlCase, crawl_spread, leakage, open_laps, soil_conductivity, unsealed_share,
};
use wythe_physics::uncertainty::sample::{Parameter, SamplePlan, even, sample};
use wythe_physics::uncertainty::spread::Outcome;

fn lambda(v: f64) -> ThermalConductivity {
    ThermalConductivity::new::<thermal_conductivity::watt_per_meter_kelvin>(v)
}

fn m(v: f64) -> Length {
    Length::new::<length::meter>(v)
}

// y = 10·a + b over even ranges 0..1: mean 5.5, and a matters most. The spread of a uniform sum is
// known: the 5th to 95th percentile of 10·a alone is 0.5 to 9.5.
#[test]
fn a_known_sum_is_recovered() {
    let ranges = [
        Parameter::new("b", |x: &mut [Length; 3], at| x[1] = even(m(0.0), m(1.0), at)),
        Parameter::new("a", |x: &mut [Length; 3], at| x[0] = even(m(0.0), m(1.0), at)),
        Parameter::new("idle", |x: &mut [Length; 3], at| x[2] = even(m(0.0), m(1.0), at)),
    ];
    let plan = SamplePlan { samples: 2000, seed: 1 };
    let got = sample(&[m(0.0); 3], &ranges, plan, |x| {
        Ok(vec![Outcome { name: "y", unit: "m", value: 10.0 * x[0].value + x[1].value }])
    })
    .unwrap();
    let y = &got[0];
    assert!((y.mean - 5.5).abs() < 0.01, "{}", y.mean);
    assert!((y.p50 - 5.5).abs() < 0.15 && (y.p05 - 1.0).abs() < 0.2 && (y.p95 - 10.0).abs() < 0.2, "{y:?}");
    let names: Vec<&str> = y.influences.iter().map(|i| i.name.as_str()).collect();
    assert_eq!(names[0], "a");
    assert!(y.influences[0].correlation.unwrap().value > 0.98);
    assert!(y.influences[2].correlation.unwrap().value.abs() < 0.2);
}

fn case() -> CrawlCase {
    CrawlCase { space: cottage(), scenario: closed() }
}

fn ranges() -> Vec<Parameter<CrawlCase>> {
    vec![
        soil_conductivity(lambda(0.8), lambda(2.0)),
        open_laps(share(0.0), share(0.5)),
        unsealed_share(share(0.0001), share(0.05)),
        leakage(flow(0.002), flow(0.02)),
    ]
}

#[test]
fn a_crawl_space_in_ranges() {
    let weather = humid_year();
    let plan = SamplePlan { samples: 24, seed: 42 };
    let got = crawl_spread(&case(), &weather, &ranges(), plan).unwrap();
    let again = crawl_spread(&case(), &weather, &ranges(), plan).unwrap();
    assert_eq!(got, again);
    let of = |name: &str| got.iter().find(|s| s.name == name).unwrap();
    let ground = of("water from the ground in the year");
    assert!(ground.lowest <= ground.p05 && ground.p05 <= ground.p50 && ground.p50 <= ground.p95);
    assert_eq!(ground.influences[0].name, "unsealed share");
    assert!(ground.influences[0].correlation.unwrap().value > 0.9);
    let heat = of("heat to the ground in the year");
    assert_eq!(heat.influences[0].name, "soil conductivity");
    let other = crawl_spread(&case(), &weather, &ranges(), SamplePlan { seed: 43, ..plan }).unwrap();
    assert_ne!(got, other);
}

#[test]
fn bad_plans_are_refused() {
    let weather = humid_year();
    let plan = SamplePlan { samples: 1, seed: 0 };
    assert!(crawl_spread(&case(), &weather, &ranges(), plan).is_err());
    assert!(crawl_spread(&case(), &weather, &[], SamplePlan { samples: 4, seed: 0 }).is_err());
    // A range that leaves the admissible ends the run with that input's name.
    let bad = [open_laps(share(0.5), share(1.5))];
    let error = crawl_spread(&case(), &weather, &bad, SamplePlan { samples: 4, seed: 0 }).unwrap_err();
    assert!(error.to_string().contains("open share of laps"), "{error}");
}
