//! How long and high is this wall inside, and where does the top of the board land?

use wythe_render::drawing::words as plain;

use super::{Answer, board_of, unknown};
use crate::House;
use crate::small::wall_heights;
use crate::words::say;

/// The answer for a wall, by name.
///
/// # Errors
/// In words, where there is no such wall.
pub fn wall(house: &House<'_>, name: &str) -> Result<Answer, String> {
    let (w, f, telling) = (house.words, house.f(), house.telling());
    let Some(index) = f.walls.iter().position(|x| x.name.as_str() == name) else {
        return Err(unknown(house, name, &f.walls.iter().map(|x| x.name).collect::<Vec<_>>()));
    };
    let heights: Vec<String> = house.heights(index).into_iter().map(|h| telling.length(h)).collect();
    let mut lines = vec![say!(
        w,
        "ask-wall",
        wall = plain::name(f.walls[index].name),
        length = telling.length(house.inside(index)),
        height = heights.join(" / ")
    )];
    let board = board_of(house, index);
    match board {
        Some((low, high, levels)) => {
            lines.push(say!(
                w,
                "ask-wall-board",
                by = telling.span(levels.top - high),
                up = telling.length(high - levels.ground)
            ));
            lines.push(say!(w, "ask-wall-board-size", height = telling.length(high - low)));
            let marks = house.piece_marks(f.walls[index].name);
            if !marks.is_empty() {
                lines.push(say!(w, "ask-wall-pieces", pieces = marks.join(", ")));
            }
        }
        None => lines.push(say!(w, "ask-wall-no-board")),
    }
    let drawing =
        f.walls[index].stretches.first().map(|s| wall_heights(house, &s.levels, board.map(|(l, h, _)| (l, h))));
    Ok(Answer { lines, drawing })
}
