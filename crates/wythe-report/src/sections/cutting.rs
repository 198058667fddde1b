//! The cut list: how each sheet is cut, its pieces, and the strips cut from rolls.

use wythe_render::drawing::{Cutout, PatternOffcut, PatternOptions, PatternPiece, SheetPattern, sheet_patterns};
use wythe_render::tables::cut_list;
use wythe_takeoff::nest::SheetLayout;

use super::drawings::add;
use crate::House;
use crate::grid::{grid, pretty};
use crate::model::Section;
use crate::words::spoken;

/// Sheets on one drawing: as many as stand on a page.
const ON_A_PAGE: usize = 10;

pub(super) fn section(house: &House<'_>) -> Section {
    let mut out = Section::new("cut-list", "Cut list");
    let document = cut_list(house.job, &house.show);
    if document.tables.iter().all(|t| t.rows.is_empty()) {
        return out;
    }
    for remark in &document.remarks {
        out.text(pretty(remark));
    }
    let patterns = patterns(house);
    // As many on one page as on the next, two in a row.
    let pages = patterns.len().div_ceil(ON_A_PAGE).max(1);
    let each = patterns.len().div_ceil(pages).next_multiple_of(2).max(2);
    for (number, some) in patterns.chunks(each).enumerate() {
        let mut drawing = sheet_patterns(some, &PatternOptions { system: house.show.display.system });
        drawing.id = format!("{}-sheets-{}", house.foundation.name, number + 1);
        add(&mut out, &drawing);
    }
    for table in &document.tables {
        match table.key {
            "pieces" => {
                let columns = [
                    ("sheet", ""),
                    ("number", ""),
                    ("run", ""),
                    ("at", ""),
                    ("length", ""),
                    ("height", ""),
                    ("cut_out", ""),
                ];
                out.grid(grid(table, "Pieces of board", &columns));
            }
            "hung_strips" => out.grid(grid(table, "Sheet on walls and piers", &[])),
            "floor_strips" => out.grid(grid(table, "Sheet on the floor", &[])),
            _ => {}
        }
    }
    out
}

/// The sheets of every board. Sheets cut alike, but for the numbers on their pieces, stay apart: the numbers matter.
fn patterns(house: &House<'_>) -> Vec<SheetPattern> {
    let mut out = Vec::new();
    for board in &house.job.boards {
        for sheet in &board.plan.sheets {
            out.push(SheetPattern {
                name: format!("Sheet {}, {}", sheet.number, spoken(board.product.name.as_str())),
                count: 1,
                length: sheet.size.length,
                width: sheet.size.width,
                pieces: pieces(sheet),
                offcuts: sheet
                    .offcuts
                    .iter()
                    .map(|o| PatternOffcut {
                        kept: o.kept,
                        on: Cutout { x: o.x, y: o.y, along: o.along, across: o.across },
                    })
                    .collect(),
            });
        }
    }
    out
}

fn pieces(sheet: &SheetLayout) -> Vec<PatternPiece> {
    let piece = |piece: &wythe_takeoff::nest::CutPiece| PatternPiece {
        mark: piece.number.to_string(),
        place: piece.mark.clone(),
        on: Cutout { x: piece.x, y: piece.y, along: piece.along, across: piece.across },
    };
    sheet.pieces.iter().map(piece).collect()
}
