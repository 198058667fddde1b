//! Time of a year of hours in three states, of a two-dimensional section, and of a sampled range.
#![allow(clippy::unwrap_used, reason = "a test stops at its first surprise")]

#[path = "../tests/crawl/mod.rs"]
mod crawl;

use divan::{Bencher, black_box};
use wythe_physics::uncertainty::crawl::{CrawlCase, crawl_spread, leakage, open_laps, soil_conductivity};
use wythe_physics::uncertainty::sample::SamplePlan;
use wythe_physics::zone::simulate::simulate;

fn main() {
    divan::main();
}

/// The budget is 50 ms on one core.
#[divan::bench]
fn three_states_for_a_year(bencher: Bencher) {
    let (space, weather) = (crawl::cottage(), crawl::humid_year());
    let states = [crawl::construction(), crawl::closed(), crawl::vented()];
    bencher.bench(|| {
        states.iter().map(|state| simulate(black_box(&space), state, &weather).unwrap().condensing_hours()).sum::<u32>()
    });
}

/// The section of a crawl wall; the budget is one second at a mesh whose refinement changes the
/// loss by less than half a percent.
#[divan::bench]
fn wall_section(bencher: Bencher) {
    let wall = crawl::wall_in_ground();
    bencher.bench(|| black_box(&wall).solve().unwrap().cells);
}

/// Samples of a range; the budget is 5 s for 200 on two cores.
#[divan::bench(args = [25, 50, 100, 200], sample_count = 5)]
fn sampled_range(bencher: Bencher, samples: usize) {
    let weather = crawl::humid_year();
    let case = CrawlCase { space: crawl::cottage(), scenario: crawl::closed() };
    let conductivity = uom::si::f64::ThermalConductivity::new::<uom::si::thermal_conductivity::watt_per_meter_kelvin>;
    let ranges = [
        soil_conductivity(conductivity(0.8), conductivity(2.0)),
        open_laps(crawl::share(0.0), crawl::share(0.5)),
        leakage(crawl::flow(0.002), crawl::flow(0.02)),
    ];
    bencher.bench(|| crawl_spread(&case, &weather, &ranges, SamplePlan { samples, seed: 1 }).unwrap().len());
}
