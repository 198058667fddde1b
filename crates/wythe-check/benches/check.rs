//! How long the checks of one ordinary house take: layer order, sequence, state table, control lines.

use divan::{Bencher, black_box};
use wythe_check::{Requirements, lines, order, sequence};
use wythe_model::fixture::unit_4;

fn main() {
    divan::main();
}

#[divan::bench]
fn layer_order(bencher: Bencher) {
    let (house, asked) = (unit_4(), Requirements::default());
    bencher.bench(|| order::check(black_box(&house), &asked));
}

#[divan::bench]
fn phases(bencher: Bencher) {
    let house = unit_4();
    bencher.bench(|| sequence::check(black_box(&house)));
}

#[divan::bench]
fn state_table(bencher: Bencher) {
    let house = unit_4();
    bencher.bench(|| sequence::states(black_box(&house), None));
}

#[divan::bench]
fn control_lines(bencher: Bencher) {
    let (house, asked) = (unit_4(), Requirements::default());
    bencher.bench(|| lines::check(black_box(&house), &asked));
}
