//! All drawings of a house, as SVG: the goal is under 20 ms together.

use divan::{Bencher, black_box};
use wythe_model::fixture::{ft_in, unit_4};
use wythe_render::drawing::{
    PierOptions, PlanOptions, SectionOptions, StripOptions, Theme, pier_detail, plan, section, sequence_strip, to_svg,
};

fn main() {
    divan::main();
}

/// A section of each wall, the plan, a detail of each pier, and the sequence.
#[divan::bench]
fn all_drawings_of_a_house(bencher: Bencher<'_, '_>) {
    let f = unit_4();
    bencher.bench(|| {
        let mut bytes = 0;
        for (i, wall) in f.walls.iter().enumerate() {
            let drawing = section(black_box(&f), i, wall.length / 2.0, &SectionOptions::default());
            bytes += to_svg(&drawing, Theme::Light).len();
        }
        for i in 0..f.piers.len() {
            bytes += to_svg(&pier_detail(&f, i, &PierOptions::default()), Theme::Light).len();
        }
        bytes += to_svg(&plan(&f, &PlanOptions::default()), Theme::Light).len();
        bytes += to_svg(&sequence_strip(&f, &StripOptions::default()), Theme::Light).len();
        bytes
    });
}

/// One section, as an editor draws it while a line is typed.
#[divan::bench]
fn one_section(bencher: Bencher<'_, '_>) {
    let f = unit_4();
    bencher
        .bench(|| to_svg(&section(black_box(&f), 0, ft_in(21.0, 0.0), &SectionOptions::default()), Theme::Light).len());
}
