//! Properties of every bill: totals are the sum of their parts, pieces cover their runs, nothing is bought twice.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod houses;

use std::sync::Arc;

use proptest::prelude::*;
use uom::si::area::square_inch;
use uom::si::length::inch;
use wythe_bill::{Job, Terms};
use wythe_model::Foundation;
use wythe_model::quantity::Measure;
use wythe_project::Memory;

use houses::{declared, hand_folder};

/// A rectangle in inches with a vent in `south` and the board's gap.
fn foundation(name: &str, east: u32, north: u32, ground: u32, gap: u32, vent: u32) -> Arc<Foundation> {
    let library = std::fs::read_to_string(hand_folder().join("library.wythe")).unwrap();
    let vent = vent.min(east - 40);
    let house = format!(
        "use \"library.wythe\": lined_wall, covered_ground, shut, foot, lot, outside_work, inside_work, finish\n\
         pub foundation {name} on lot {{\n phases: [outside_work, inside_work, finish]\n joints: [foot]\n walls {{\n\
         build: lined_wall(gap: {gap} in)\n top: datum; grade: datum - 4\"; ground: datum - {ground} in; footing: datum - {} in\n\
         wall south runs east {east} in\n wall east runs north {north} in\n wall north runs west {east} in\n wall west runs south {north} in\n }}\n\
         opening v in south at {vent} in {{ kind: vent; build: shut; free_area: 60 in2; size: 16\" x 8\" }}\n\
         ground {{ build: covered_ground }}\n}}\n",
        ground + 8,
    );
    let found = declared(Memory::new([("library.wythe", library.as_str()), ("house.wythe", house.as_str())]));
    found.foundation(name)
}

fn amount(measure: Measure) -> f64 {
    match measure {
        Measure::Area(a) => a.value,
        Measure::Length(l) => l.value,
        Measure::Volume(v) => v.value,
        Measure::Count(n) => n as f64,
    }
}

fn sizes() -> impl Strategy<Value = (u32, u32, u32, u32, u32)> {
    (100_u32..600, 100_u32..500, 16_u32..90, 2_u32..9, 20_u32..300)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn a_product_is_the_sum_of_its_lines_and_packs_hold_it((e, n, g, gap, v) in sizes()) {
        let job = Job::of(&[foundation("a", e, n, g, gap, v)], &Terms::default());
        prop_assert!(job.is_complete(), "{:?}", job.findings);
        for item in &job.order {
            for net in &item.net {
                let lines = job.lines.iter().filter(|l| l.product.as_ref().is_some_and(|p| p.name == item.product.name));
                let same = lines.filter(|l| l.net.plus(*net).is_some());
                let sum: f64 = same.map(|l| amount(l.net)).sum();
                prop_assert!((sum - amount(*net)).abs() <= 1e-9 * sum.max(1.0), "{}", item.product.name);
            }
            prop_assert!(item.packs() * item.pack >= item.units);
            prop_assert!(item.units as f64 + 1e-6 >= item.needed.value, "{}: {} {:?}", item.product.name, item.units, item.needed);
            prop_assert!((0.0..1.0).contains(&item.waste.value) && item.left().value >= 0.0);
            prop_assert!(item.bound.is_none_or(|least| least <= item.units));
        }
    }

    #[test]
    fn pieces_cover_every_run_and_come_to_the_net_area((e, n, g, gap, v) in sizes()) {
        let job = Job::of(&[foundation("a", e, n, g, gap, v)], &Terms::default());
        let board = &job.boards[0];
        let mut notched = 0.0;
        for run in &board.runs {
            let mut spans: Vec<(f64, f64)> = board
                .plan
                .pieces()
                .filter(|(_, p)| p.mark == run.mark)
                .map(|(_, p)| (p.at.get::<inch>(), (p.at + p.length()).get::<inch>()))
                .collect();
            spans.sort_by(|a, b| a.0.total_cmp(&b.0));
            let mut at = 0.0;
            for (from, to) in spans {
                prop_assert!((from - at).abs() < 1e-2, "{}: a gap or overlap at {at} and {from}", run.mark);
                at = to;
            }
            prop_assert!((at - run.length().get::<inch>()).abs() < 1e-2, "{}", run.mark);
            notched += run.notches.iter().map(|n| (n.width * n.height).get::<square_inch>()).sum::<f64>();
        }
        // What is cut is what lies in place, what openings are cut out of, less two inches at each of four corners.
        let net: f64 = job
            .lines
            .iter()
            .filter(|l| l.layer.as_str() == "board" && matches!(l.net, Measure::Area(_)))
            .map(|l| if let Measure::Area(a) = l.net { a.get::<square_inch>() } else { 0.0 })
            .sum();
        let corners = 4.0 * 2.0 * f64::from(g - gap);
        let cut = board.plan.piece_area().get::<square_inch>();
        prop_assert!((cut - (net + notched - corners)).abs() < 5.0, "{cut} for {net} + {notched} - {corners}");
    }

    #[test]
    fn houses_together_need_no_more_than_one_by_one((e, n, g, gap, v) in sizes(), (e2, n2, _, _, v2) in sizes()) {
        let a = foundation("a", e, n, g, gap, v);
        let b = foundation("b", e2, n2, g, gap, v2);
        let one = |f: &Arc<Foundation>| Job::of(std::slice::from_ref(f), &Terms::default());
        let (alone_a, alone_b) = (one(&a), one(&b));
        let both = Job::of(&[a, b], &Terms::default());
        for item in &both.order {
            let of = |job: &Job| {
                let found = job.order.iter().find(|i| i.product.name == item.product.name);
                found.map_or((0.0, 0), |i| (amount(i.net[0]), i.units))
            };
            let (x, y) = (of(&alone_a), of(&alone_b));
            // Joints and anchors follow the cut list, which together is another.
            let by_cut = ["anchor", "joint_tape"].contains(&item.product.name.as_str());
            if !by_cut {
                let sum = x.0 + y.0;
                prop_assert!((amount(item.net[0]) - sum).abs() <= 1e-9 * sum, "{}", item.product.name);
                prop_assert!(item.units <= x.1 + y.1, "{}: {} for {} and {}", item.product.name, item.units, x.1, y.1);
            }
        }
    }
}
