//! The drawings of a cut list: one file for each way a sheet is cut, its pieces numbered as in the list.

use std::io;
use std::path::{Path, PathBuf};

use wythe_bill::Job;
use wythe_bill::board::{BoardPlan, CutPattern, cut_patterns};
use wythe_render::drawing::{
    self, Cutout, PatternOffcut, PatternOptions, PatternPiece, SheetPattern, Theme, sheet_patterns,
};
use wythe_units::UnitSystem;

use crate::replace::put;

/// How many numbers stand on a piece that several sheets have.
const NUMBERS: usize = 4;

/// Writes the drawings into a folder, which is made if it is not there; gives the files.
pub(crate) fn write(job: &Job, folder: &Path, theme: Theme, system: UnitSystem) -> io::Result<Vec<PathBuf>> {
    std::fs::create_dir_all(folder)?;
    let mut written = Vec::new();
    for board in &job.boards {
        for pattern in cut_patterns(&board.plan) {
            let path = folder.join(format!("{}_pattern_{}.svg", board.product.name, pattern.number));
            let drawing = sheet_patterns(&[drawn(board, &pattern)], &PatternOptions { system });
            put(&path, &drawing::to_svg(&drawing, theme))?;
            written.push(path);
        }
    }
    Ok(written)
}

fn drawn(board: &BoardPlan, pattern: &CutPattern<'_>) -> SheetPattern {
    let numbers: Vec<usize> = pattern.sheets.iter().map(|s| s.number).collect();
    let word = if numbers.len() == 1 { "Sheet" } else { "Sheets" };
    let first = pattern.sheets.first().copied();
    let pieces = first.map_or(&[][..], |s| &s.pieces).iter().enumerate().map(|(at, piece)| {
        let alike: Vec<usize> = pattern.sheets.iter().filter_map(|s| s.pieces.get(at)).map(|p| p.number).collect();
        let places: Vec<&str> =
            pattern.sheets.iter().filter_map(|s| s.pieces.get(at)).map(|p| p.mark.as_str()).collect();
        PatternPiece {
            mark: listed(&alike),
            place: format!("for {}", places.join(", ")),
            on: Cutout { x: piece.x, y: piece.y, along: piece.along, across: piece.across },
        }
    });
    let offcuts = first
        .map_or(&[][..], |s| &s.offcuts)
        .iter()
        .map(|o| PatternOffcut { kept: o.kept, on: Cutout { x: o.x, y: o.y, along: o.along, across: o.across } });
    SheetPattern {
        name: format!("{word} {}, {}", listed(&numbers), board.product.name),
        count: numbers.len(),
        length: first.map_or(board.sheet.length, |s| s.size.length),
        width: first.map_or(board.sheet.width, |s| s.size.width),
        pieces: pieces.collect(),
        offcuts: offcuts.collect(),
    }
}

/// A few numbers, and how many more there are.
fn listed(numbers: &[usize]) -> String {
    let shown: Vec<String> = numbers.iter().take(NUMBERS).map(usize::to_string).collect();
    match numbers.len().checked_sub(NUMBERS) {
        Some(more) if more > 0 => format!("{} +{more}", shown.join(", ")),
        _ => shown.join(", "),
    }
}
