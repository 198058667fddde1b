//! The whole real year, where the reference environment of tests/reference/physics is installed.
//! Not part of the ordinary run: the file stays in its package.
#![allow(clippy::unwrap_used, reason = "a test stops at its first surprise")]

#[path = "../../wythe-physics/tests/crawl/mod.rs"]
mod crawl;

use wythe_climate::GapPolicy;
use wythe_climate::tmy::read_tmy;
use wythe_physics::quantity::to_celsius;
use wythe_physics::zone::simulate::simulate;

fn file() -> Vec<u8> {
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../../target/reference/lib");
    let python = std::fs::read_dir(root).unwrap().next().unwrap().unwrap().path();
    std::fs::read(python.join("site-packages/pvlib/data/723170TYA.CSV")).unwrap()
}

// Means as pandas takes them from the same file: 14.42 °C and 69.5 %.
#[test]
#[ignore = "needs target/reference, see tests/reference/physics/README.md"]
fn greensboro_is_read_whole() {
    let got = read_tmy(&file(), GapPolicy::Refuse).unwrap();
    let hours = got.year.hours();
    let mean = hours.iter().map(|h| to_celsius(h.temperature)).sum::<f64>() / 8760.0;
    let humidity = hours.iter().map(|h| h.humidity.ratio().value).sum::<f64>() / 8760.0;
    assert!((mean - 14.42).abs() < 0.005, "{mean}");
    assert!((humidity - 0.695).abs() < 0.0005, "{humidity}");
}

#[test]
#[ignore = "needs target/reference, see tests/reference/physics/README.md"]
fn vented_condenses_in_a_real_summer_and_closed_does_not() {
    let weather = read_tmy(&file(), GapPolicy::Refuse).unwrap().year;
    let open = simulate(&crawl::vented_cottage(), &crawl::vented(), &weather).unwrap();
    let shut = simulate(&crawl::cottage(), &crawl::closed(), &weather).unwrap();
    assert!(open.condensing_hours() > 0);
    assert_eq!(shut.condensing_hours(), 0);
}
