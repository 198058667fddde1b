//! From a cut list and a roll layout to what a plan and the sheet patterns show: strips of liner with their laps,
//! numbered pieces of board, and a mark where each section is cut.

use wythe_bill::Job;
use wythe_bill::board::BoardPlan;
use wythe_bill::sheet::FloorLayout;
use wythe_model::{Foundation, Point, SurfaceKind};
use wythe_takeoff::nest::{CutPiece, SheetSource};
use wythe_units::UnitSystem;

use super::region::overlap;
use super::words;
use super::{Cutout, PatternOffcut, PatternPiece, PlanOptions, PlanPiece, PlanStrip, SectionMark, SheetPattern};

/// The plan of a house of a job: its permanent liner, its board pieces as in the cut list, and a section mark in the
/// middle of each wall.
pub fn plan_options(job: &Job, house: usize, system: UnitSystem) -> PlanOptions {
    let Some(f) = job.houses.get(house) else { return PlanOptions { system, ..PlanOptions::default() } };
    let floor = permanent_floor(job, house);
    let strips: Vec<PlanStrip> = floor.map_or(Vec::new(), |floor| {
        let corners = |c: &[wythe_takeoff::roll::Point; 4]| c.iter().map(|p| Point { x: p.x, y: p.y }).collect();
        floor.layout.strips.iter().map(|s| PlanStrip { number: s.number, corners: corners(&s.corners) }).collect()
    });
    let laps = strips.windows(2).flat_map(|pair| overlap(&pair[0].corners, &pair[1].corners)).collect();
    PlanOptions { system, marks: section_marks(f), strips, laps, pieces: pieces(job, house) }
}

/// The sheet that stays on the floor of a house: the last one laid that is not taken up again.
pub fn permanent_floor(job: &Job, house: usize) -> Option<&FloorLayout> {
    let mine = || job.floors.iter().filter(|l| l.house == house);
    mine().filter(|l| !l.product.sacrificial).max_by_key(|l| l.work).or_else(|| mine().max_by_key(|l| l.work))
}

/// A section in the middle of each wall, lettered in the order of the walk.
pub fn section_marks(f: &Foundation) -> Vec<SectionMark> {
    let mark = |(wall, w): (usize, &wythe_model::Wall)| SectionMark { wall, at: w.length / 2.0, letter: letter(wall) };
    f.walls.iter().enumerate().map(mark).collect()
}

/// A, B, and so on to Z, then AA, AB.
pub fn letter(number: usize) -> String {
    let mut out = String::new();
    let mut left = number + 1;
    while left > 0 {
        left -= 1;
        out.insert(0, char::from(b'A' + (left % 26) as u8));
        left /= 26;
    }
    out
}

/// The number of a piece as drawings and sheets say it: where a job has several boards, with the letter of its board.
pub fn piece_mark(job: &Job, board: usize, piece: &CutPiece) -> String {
    if job.boards.len() > 1 { format!("{}{}", letter(board), piece.number) } else { piece.number.to_string() }
}

/// The pieces on the inside of the walls of a house; pieces above one another share a place.
fn pieces(job: &Job, house: usize) -> Vec<PlanPiece> {
    let mut out: Vec<PlanPiece> = Vec::new();
    let Some(f) = job.houses.get(house) else { return out };
    let hair = wythe_model::geometry::hair();
    for (number, board) in job.boards.iter().enumerate() {
        for (_, piece) in board.plan.pieces() {
            let Some(run) = board.run_of(piece) else { continue };
            if run.house != house || run.kind != SurfaceKind::Wall || run.face.as_str() == "outside" {
                continue;
            }
            let Some(wall) = f.walls.iter().position(|w| w.name == run.element) else { continue };
            let (from, to) = (run.from + piece.at, run.from + piece.at + piece.length());
            let mark = piece_mark(job, number, piece);
            let same = |p: &&mut PlanPiece| p.wall == wall && (p.from - from).abs() < hair && (p.to - to).abs() < hair;
            match out.iter_mut().find(same) {
                Some(known) => known.mark = format!("{}, {mark}", known.mark),
                None => out.push(PlanPiece { wall, from, to, mark }),
            }
        }
    }
    out
}

/// How every sheet of board of a job is cut, in the order of cutting.
pub fn patterns(job: &Job) -> Vec<SheetPattern> {
    job.boards.iter().enumerate().flat_map(|(number, board)| of_board(job, number, board)).collect()
}

fn of_board(job: &Job, number: usize, board: &BoardPlan) -> Vec<SheetPattern> {
    let several = job.boards.len() > 1;
    let one = |sheet: &wythe_takeoff::nest::SheetLayout| {
        let what = match &sheet.source {
            SheetSource::Bought => format!("Sheet {}", sheet.number),
            SheetSource::OnHand(name) => format!("Sheet {}, offcut {name}", sheet.number),
        };
        let product = words::name(board.product.name);
        let name =
            if several { format!("{what}, board {} {product}", letter(number)) } else { format!("{what}, {product}") };
        let piece = |p: &CutPiece| PatternPiece {
            on: Cutout { x: p.x, y: p.y, along: p.along, across: p.across },
            mark: piece_mark(job, number, p),
            place: p.mark.replace('_', " "),
        };
        let offcut = |o: &wythe_takeoff::nest::Offcut| PatternOffcut {
            on: Cutout { x: o.x, y: o.y, along: o.along, across: o.across },
            kept: o.kept,
        };
        SheetPattern {
            name,
            count: 1,
            length: sheet.size.length,
            width: sheet.size.width,
            pieces: sheet.pieces.iter().map(piece).collect(),
            offcuts: sheet.offcuts.iter().map(offcut).collect(),
        }
    };
    board.plan.sheets.iter().map(one).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_go_on_after_z() {
        assert_eq!([0, 25, 26, 27, 701, 702].map(letter), ["A", "Z", "AA", "AB", "ZZ", "AAA"]);
    }
}
