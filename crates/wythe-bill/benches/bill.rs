//! Time for a whole house taken off, cut, laid and counted, and for a street of sixty ordered together.
#![allow(missing_docs, reason = "divan makes the main function")]

#[path = "../tests/houses/mod.rs"]
mod houses;

use std::sync::Arc;

use wythe_bill::{Job, Terms};
use wythe_model::Foundation;
use wythe_project::Memory;

fn main() {
    divan::main();
}

#[divan::bench(args = ["unit_1", "unit_4", "unit_5", "unit_7_addition", "spruce_lodge"])]
fn house(bencher: divan::Bencher, name: &str) {
    let found = houses::repository(&houses::cedar_row());
    let (foundation, terms) = (found.foundation(name), Terms::default().with_rates(&found.rates[0]));
    bencher.bench_local(|| Job::of(std::slice::from_ref(&foundation), &terms));
}

/// Houses of one library, each of its own size.
fn street(count: u32) -> Vec<Arc<Foundation>> {
    let library = std::fs::read_to_string(houses::hand_folder().join("library.wythe")).unwrap_or_default();
    let mut files = vec![("library.wythe".to_owned(), library)];
    for i in 0..count {
        let (east, north) = (300 + i * 37 % 300, 240 + i * 53 % 200);
        let ground = [24, 28, 32, 40][i as usize % 4];
        let text = format!(
            "use \"library.wythe\": lined_wall, covered_ground, foot, lot, outside_work, inside_work, finish\n\
             pub foundation h{i} on lot {{\n phases: [outside_work, inside_work, finish]\n joints: [foot]\n walls {{\n\
             build: lined_wall\n top: datum; grade: datum - 4\"; ground: datum - {ground} in; footing: datum - {} in\n\
             wall south runs east {east} in\n wall east runs north {north} in\n wall north runs west {east} in\n\
             wall west runs south {north} in\n }}\n ground {{ build: covered_ground }}\n}}\n",
            ground + 8
        );
        files.push((format!("h{i}.wythe"), text));
    }
    houses::declared(Memory::new(files.iter().map(|(p, t)| (p.as_str(), t.as_str())))).foundations
}

#[divan::bench(args = [15, 30, 60], sample_count = 3, sample_size = 1)]
fn houses_together(bencher: divan::Bencher, count: u32) {
    let all = street(count);
    let job = Job::of(&all, &Terms::default());
    let gap = job.boards.iter().map(|b| b.plan.gap().value).fold(0.0, f64::max);
    let bought: usize = job.boards.iter().map(|b| b.plan.bought).sum();
    println!("{count} houses: {bought} sheets, gap {:.2} %", gap * 100.0);
    bencher.bench_local(|| Job::of(&all, &Terms::default()));
}
