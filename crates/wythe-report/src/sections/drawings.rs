//! The drawings: plan with strips and pieces, a section of each sort of wall, piers, control lines and sequence.

use uom::si::f64::Length;
use wythe_check::lines::Trace;
use wythe_model::geometry::{levels_at, opening_rects};
use wythe_model::{AssemblyId, Foundation, Levels, SurfaceKind};
use wythe_render::drawing::{
    self, ControlLine, Drawing, PierOptions, PlanOptions, SectionMark, SectionOptions, StripOptions, Theme, to_svg,
};

use crate::model::{Block, Section, Sheet};
use crate::{House, control_line};

/// Letters of sections: more sorts of wall than these are not drawn.
const LETTERS: &str = "ABCDEFGHJK";

pub(super) fn section(house: &House<'_>) -> Section {
    let (f, system) = (house.foundation, house.show.display.system);
    let mut out = Section::new("drawings", "Drawings");
    let cuts = cuts(f);
    let marks = cuts.iter().map(|c| SectionMark { wall: c.wall, at: c.at, letter: c.letter.to_string() }).collect();
    let options = PlanOptions { marks, ..drawing::plan_options(house.job, 0, system) };
    add(&mut out, &drawing::plan(f, &options));
    for cut in &cuts {
        let of_wall = house.traces.iter().filter(|t| is_of(t, f, cut.wall));
        let lines: Vec<ControlLine> = of_wall.map(control_line).collect();
        let sheet = drawing::section(f, cut.wall, cut.at, &SectionOptions { system, ..SectionOptions::default() });
        captioned(&mut out, &sheet, format!("Section {}", cut.letter));
        if lines.iter().any(|l| !l.steps.is_empty() || !l.breaks.is_empty()) && cut.letter == 'A' {
            let options = StripOptions { system, wall: cut.wall, at: Some(cut.at) };
            add(&mut out, &drawing::control_strip(f, &lines, &options));
        }
    }
    if !f.walls.is_empty() {
        add(&mut out, &drawing::sequence_strip(f, &StripOptions { system, wall: 0, at: None }));
    }
    let mut sorts = Vec::new();
    for (number, pier) in f.piers.iter().enumerate() {
        let sort = (pier.assembly, pier.top.value.to_bits());
        if !sorts.contains(&sort) {
            sorts.push(sort);
            add(&mut out, &drawing::pier_detail(f, number, &PierOptions { system }));
        }
    }
    out
}

/// A drawing as a block; its own title says what it is.
pub(super) fn add(out: &mut Section, drawing: &Drawing) {
    captioned(out, drawing, String::new());
}

fn captioned(out: &mut Section, drawing: &Drawing, caption: String) {
    let sheet = Sheet { caption, svg: to_svg(drawing, Theme::Light) };
    out.blocks.push(Block::Sheet { sheet });
}

fn is_of(trace: &Trace, f: &Foundation, wall: usize) -> bool {
    trace.kind == SurfaceKind::Wall && f.walls.get(wall).is_some_and(|w| trace.places.contains(&w.name))
}

/// Where a section is cut.
struct Cut {
    wall: usize,
    at: Length,
    letter: char,
}

/// One cut for each sort of wall: assembly and levels.
fn cuts(f: &Foundation) -> Vec<Cut> {
    let mut sorts: Vec<(Option<AssemblyId>, [u64; 5])> = Vec::new();
    let mut out = Vec::new();
    let mut letters = LETTERS.chars();
    for (number, wall) in f.walls.iter().enumerate() {
        let at = clear_of_openings(f, number, wall.length);
        let Some(levels) = levels_at(wall, at) else { continue };
        let sort = (wall.assembly, bits(&levels));
        if sorts.contains(&sort) {
            continue;
        }
        let Some(letter) = letters.next() else { break };
        sorts.push(sort);
        out.push(Cut { wall: number, at, letter });
    }
    out
}

fn bits(l: &Levels) -> [u64; 5] {
    [l.top, l.sill, l.grade, l.ground, l.footing].map(|level| level.value.to_bits())
}

/// A place along a wall that passes no opening, near its middle.
fn clear_of_openings(f: &Foundation, wall: usize, length: Length) -> Length {
    let openings = opening_rects(f, wall);
    let shares = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9];
    let clear = |at: &Length| openings.iter().all(|o| *at < o.rect.from || *at > o.rect.to);
    shares.iter().map(|share| length * *share).find(clear).unwrap_or(length * 0.5)
}
