//! Time of a year of hours in three states, of a two-dimensional section, and of a sampled range.

#[path = "../tests/crawl/mod.rs"]
mod crawl;

use divan::{Bencher, black_box};
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
