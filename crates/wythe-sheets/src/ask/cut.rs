//! How do I cut this sheet, and which offcut do I keep?

use wythe_model::geometry::hair;
use wythe_render::drawing::{patterns, piece_mark};

use super::Answer;
use crate::House;
use crate::small::sheet_cut;
use crate::words::say;

/// The answer for a sheet, by its number in the cut list; where a house has several boards the first has sheets 1 on,
/// and the others follow.
///
/// # Errors
/// In words, where there is no such sheet.
pub fn cut(house: &House<'_>, sheet: usize) -> Result<Answer, String> {
    let (w, telling) = (house.words, house.telling());
    let all: Vec<_> = house
        .job
        .boards
        .iter()
        .enumerate()
        .flat_map(|(number, board)| board.plan.sheets.iter().map(move |layout| (number, board, layout)))
        .collect();
    let found = sheet.checked_sub(1).and_then(|at| all.get(at));
    let Some((number, board, layout)) = found else {
        return Err(say!(w, "ask-cut-unknown", number = sheet, last = all.len()));
    };
    let size = format!("{} x {}", telling.length(layout.size.width), telling.length(layout.size.length));
    let mut lines = vec![say!(w, "ask-cut", number = sheet, what = telling.product(&board.product), size = size)];
    let at_edge = |l: wythe_model::Length| l.abs() < hair();
    for piece in &layout.pieces {
        let size = format!("{} x {}", telling.length(piece.along), telling.length(piece.across));
        let mark = piece_mark(house.job, *number, piece);
        let place = piece.mark.replace('_', " ");
        let mut line = if at_edge(piece.x) && at_edge(piece.y) {
            say!(w, "ask-cut-first", mark = mark, size = size, place = place)
        } else {
            say!(
                w,
                "ask-cut-piece",
                mark = mark,
                size = size,
                place = place,
                x = telling.length(piece.x),
                y = telling.length(piece.y)
            )
        };
        for notch in board.notches(piece) {
            let size = format!("{} x {}", telling.length(notch.width), telling.length(notch.height));
            let opening = wythe_render::drawing::words::name(notch.opening);
            line = format!(
                "{line} {}",
                say!(
                    w,
                    "ask-cut-notch",
                    opening = opening,
                    size = size,
                    at = telling.length(notch.at),
                    up = telling.length(notch.up)
                )
            );
        }
        lines.push(line);
    }
    let kept: Vec<String> = layout
        .offcuts
        .iter()
        .filter(|o| o.kept)
        .map(|o| format!("{} x {}", telling.length(o.along), telling.length(o.across)))
        .collect();
    lines.push(if kept.is_empty() {
        say!(w, "ask-cut-keep-none")
    } else {
        say!(w, "ask-cut-keep", sizes = kept.join(", "))
    });
    let drawing = patterns(house.job).get(sheet - 1).map(|p| sheet_cut(house, p, &lines[0]));
    Ok(Answer { lines, drawing })
}
