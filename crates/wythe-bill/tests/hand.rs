//! Three houses taken off by hand: every figure of `tests/hand/takeoff` against the program.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod houses;

use uom::si::area::square_inch;
use uom::si::length::inch;
use uom::si::time::hour;
use uom::si::volume::cubic_meter;
use wythe_bill::labor::labor;
use wythe_bill::{Job, Terms};
use wythe_model::quantity::Measure;

use houses::{hand_folder, repository};

fn job(name: &str) -> (Job, wythe_model::ledger::CrewRates) {
    let found = repository(&hand_folder());
    let foundation = found.foundation(name);
    let crew = found.rates[0].clone();
    (Job::of(&[foundation], &Terms::default().with_rates(&crew)), crew)
}

fn holds(file: &str, name: &str) {
    let (job, _) = job(name);
    assert!(job.is_complete(), "{:?}", job.findings);
    let text = std::fs::read_to_string(hand_folder().join(file)).unwrap();
    let mut rows = 0;
    for row in text.lines().skip(1) {
        let fields: Vec<&str> = row.split(',').collect();
        let [product, amount, unit, packs] = fields[..] else { panic!("{row}") };
        let item = job.order.iter().find(|i| i.product.name.as_str() == product).unwrap_or_else(|| panic!("{product}"));
        let amount: f64 = amount.parse().unwrap();
        let found = match (item.net[0], unit) {
            (Measure::Area(a), "in2") => a.get::<square_inch>(),
            (Measure::Length(l), "in") => l.get::<inch>(),
            (Measure::Volume(v), "in3") => v.get::<cubic_meter>() / 0.0254_f64.powi(3),
            (Measure::Count(n), "pc") => n as f64,
            other => panic!("{product}: {other:?}"),
        };
        assert!((found - amount).abs() < 0.01, "{product}: {found} for {amount}");
        assert_eq!(item.packs(), packs.parse::<u64>().unwrap(), "{product}");
        rows += 1;
    }
    // All but what depends on the cut list.
    assert_eq!(rows + 2, job.order.len());
}

#[test]
fn the_rectangle() {
    holds("rectangle.csv", "rectangle");
}

#[test]
fn the_l_with_stepped_grade() {
    holds("ell.csv", "ell");
}

#[test]
fn the_house_with_openings() {
    holds("openings.csv", "with_openings");
}

#[test]
fn the_first_visit_to_the_rectangle() {
    let (job, crew) = job("rectangle");
    let (labor, findings) = labor(&job, &crew);
    let visit = &labor[0].visits[0];
    assert_eq!(visit.phase, "outside_work");
    assert!((visit.work.get::<hour>() - 4.0).abs() < 1e-9, "{:?}", visit.work);
    assert!((visit.on_site.get::<hour>() - 6.0).abs() < 1e-9);
    assert!((visit.crew_days.value - 0.75).abs() < 1e-9);
    let first = wythe_takeoff::labor::labor_cost(
        &labor[0].visits[..1],
        crew.people,
        wythe_bill::cost::Money { amount: crew.hourly.unwrap().0, currency: "USD".parse().unwrap() },
    );
    assert_eq!(first.unwrap().to_string(), "360.00 USD");
    let lacking = findings.iter().filter(|f| f.name.as_str() == "rate_missing").count();
    assert!(lacking >= 2, "{findings:?}");
}

/// Where a cut list or a layout is counted, the lines agree with it to the inch.
#[test]
fn joints_and_anchors_are_those_of_the_cut_list() {
    for name in ["rectangle", "ell", "with_openings"] {
        let (job, _) = job(name);
        let pieces: usize = job.boards.iter().map(|b| b.plan.pieces().count()).sum();
        let anchors: u64 = job
            .lines
            .iter()
            .filter(|l| l.product.as_ref().is_some_and(|p| p.name.as_str() == "anchor"))
            .map(|l| if let Measure::Count(n) = l.net { n } else { 0 })
            .sum();
        // No piece has fewer than two, and none of 24 in by 8 ft more than six.
        assert!(anchors >= 2 * pieces as u64 && anchors <= 6 * pieces as u64, "{name}: {anchors} in {pieces}");
    }
    let (job, _) = job("rectangle");
    let board = &job.boards[0];
    let pieces = board.plan.pieces().count();
    let joints: u64 = wythe_bill::board::joint_lengths(board, &job.houses).iter().map(|j| j.count).sum();
    // Round a closed ring of one height there are as many joints as pieces.
    assert_eq!(joints, pieces as u64);
}
