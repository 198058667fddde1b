//! A wall cut across: how high it stands inside, and where the board begins and ends.

use wythe_model::{Length, Levels};
use wythe_render::drawing::{Anchor, Drawing, Fill, Frame, Ink};

use super::{Canvas, bold, mm, spot, thin};
use crate::House;
use crate::words::say;

/// The wall on levels, with a board from one height to another.
pub(crate) fn wall_heights(house: &House<'_>, levels: &Levels, board: Option<(Length, Length)>) -> Drawing {
    let (w, telling) = (house.words, house.telling());
    let tall = (levels.top - levels.footing).value.max(0.3);
    let per = 62.0 / tall;
    let y = |at: Length| mm(levels.top - at, per);
    let mut canvas = Canvas::new();
    let wide = 14.0;
    let masonry = Frame { left: 0.0, top: 0.0, right: wide, bottom: y(levels.footing) };
    canvas.rect(masonry, Fill::Full(Ink::Paper), bold());
    canvas.hatch(masonry, 3.0);
    let bottom = y(levels.footing);
    canvas.rect(
        Frame { left: -6.0, top: bottom, right: wide + 6.0, bottom: bottom + 7.0 },
        Fill::Full(Ink::Paper),
        bold(),
    );
    let (floor, grade) = (y(levels.ground), y(levels.grade));
    canvas.line(spot(wide, floor), spot(wide + 15.0, floor), bold());
    canvas.line(spot(-24.0, grade), spot(0.0, grade), bold());
    let height = levels.top - levels.ground;
    // What is said on the right, from the top; each keeps a line's distance from the one before.
    let mut notes = vec![(0.0, say!(w, "drawn-top"))];
    if let Some((low, high)) = board {
        let frame = Frame { left: wide, top: y(high), right: wide + 6.0, bottom: y(low) };
        canvas.rect(frame, Fill::Wash(Ink::Board), thin());
        canvas.hatch(frame, 1.6);
        let below = levels.top - high;
        notes.push((y(high), say!(w, "drawn-board-top", by = telling.span(below))));
        notes.push((y(low), say!(w, "drawn-board-foot", height = telling.length(high - low))));
    }
    notes.push((floor, say!(w, "drawn-floor")));
    let mut last = f64::NEG_INFINITY;
    for (at, words) in notes {
        let line = (at + 1.3).max(last + 5.0);
        last = line;
        canvas.line(spot(wide + 16.0, at), spot(wide + 20.0, line - 1.3), thin());
        canvas.text(spot(wide + 21.5, line), 3.6, &words, Anchor::Start);
    }
    canvas.text(spot(-25.0, grade + 1.3), 3.6, &say!(w, "drawn-grade"), Anchor::End);
    canvas.upright(-10.0, 0.0, floor, &telling.length(height));
    canvas.finish("wall", say!(w, "drawn-wall"), say!(w, "drawn-wall-says", height = telling.length(height)))
}
