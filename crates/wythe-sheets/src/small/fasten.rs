//! A piece of board with its anchors, even in rows, off the edges.

use wythe_model::Length;
use wythe_render::drawing::{Anchor, Drawing, Fill, Form, Frame, Ink};

use super::{Canvas, bold, mm, spot, thin};
use crate::House;
use crate::words::say;

/// A piece with so many anchors, no nearer to an edge than `edge`.
pub(crate) fn fastened_piece(house: &House<'_>, long: Length, high: Length, count: u64, edge: Length) -> Drawing {
    let (w, telling) = (house.words, house.telling());
    let per = (90.0 / long.value.max(0.1)).min(46.0 / high.value.max(0.1));
    let frame = Frame { left: 0.0, top: 0.0, right: mm(long, per), bottom: mm(high, per) };
    let mut canvas = Canvas::new();
    canvas.rect(frame, Fill::Full(Ink::Paper), bold());
    let edge = edge.min(long.min(high) / 2.0);
    let off = mm(edge, per);
    // The rows whose shape is nearest to the piece's, all places filled from the corners on.
    let count = count.clamp(1, 400) as usize;
    let (room_x, room_y) = ((frame.right - 2.0 * off).max(0.0), (frame.bottom - 2.0 * off).max(0.0));
    let rows = (1..=count)
        .min_by(|a, b| {
            let worst = |rows: usize| {
                let columns = count.div_ceil(rows);
                // One alone holds the piece over its whole way.
                let gap = |room: f64, n: usize| if n > 1 { room / (n - 1) as f64 } else { room + 2.0 * off };
                gap(room_x, columns).max(gap(room_y, rows)) + (rows * columns - count) as f64 * 1e-3
            };
            worst(*a).total_cmp(&worst(*b))
        })
        .unwrap_or(1);
    let mut left = count;
    for row in 0..rows {
        let here = left.div_ceil(rows - row);
        left -= here;
        let y = if rows > 1 { off + room_y * row as f64 / (rows - 1) as f64 } else { frame.bottom / 2.0 };
        for i in 0..here {
            let x = if here > 1 { off + room_x * i as f64 / (here - 1) as f64 } else { frame.right / 2.0 };
            canvas.shape(Form::Circle(spot(x, y), 1.5), Fill::Full(Ink::Line), Some(thin()));
        }
    }
    canvas.level(frame.bottom + 4.0, 0.0, frame.right, &telling.length(long), true);
    canvas.upright(-4.0, 0.0, frame.bottom, &telling.length(high));
    let words = say!(w, "drawn-anchors", count = count, edge = telling.span(edge));
    canvas.text(spot(0.0, -3.0), 3.6, &words, Anchor::Start);
    canvas.finish("piece", say!(w, "drawn-piece"), words)
}
