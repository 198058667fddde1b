//! Dimension lines: between two places, with a stroke at each end and the length beside the line.

use super::leader::{Side, spread};
use super::scene::{Anchor, Fill, Form, Group, Ink, Role, Spot, Text, Weight, pen, spot};
use super::text::{FALL, RISE};

/// Size of a dimension's text.
pub(super) const SIZE: f64 = 2.5;

/// A chain of upright dimensions along one line.
pub(super) struct Chain {
    /// Where the line stands.
    pub x: f64,
    /// The side of the line its texts are on.
    pub side: Side,
    /// The heights between which lengths are given, from the top, and the text between each and the next.
    pub heights: Vec<f64>,
    pub texts: Vec<String>,
    /// How far the lines out to it begin.
    pub from_x: f64,
}

/// Draws a chain; the group, and the ranges of height its texts take.
pub(super) fn chain(id: &str, chain: &Chain) -> (Group, Vec<(f64, f64)>) {
    let mut group = Group::new(Role::Dimension, format!("dimension-{id}"));
    let sign = if chain.side == Side::Right { 1.0 } else { -1.0 };
    let (Some(first), Some(last)) = (chain.heights.first(), chain.heights.last()) else { return (group, Vec::new()) };
    let line = pen(Ink::Fine, Weight::Thin);
    group.line([spot(chain.x, *first), spot(chain.x, *last)], line);
    for y in &chain.heights {
        group.line([spot(chain.from_x + sign * 0.6, *y), spot(chain.x + sign * 1.2, *y)], line);
        group.line([spot(chain.x - 0.9, y + 0.9), spot(chain.x + 0.9, y - 0.9)], pen(Ink::Line, Weight::Medium));
    }
    let wanted: Vec<f64> = chain.heights.windows(2).map(|w| (w[0] + w[1]) / 2.0 - SIZE * RISE / 2.0).collect();
    let tall = SIZE * (RISE + FALL) + 0.4;
    let tops = spread(&wanted, &vec![tall; wanted.len()], f64::NEG_INFINITY, f64::INFINITY);
    let anchor = if chain.side == Side::Right { Anchor::Start } else { Anchor::End };
    let mut taken = Vec::new();
    for (top, text) in tops.into_iter().zip(&chain.texts) {
        let text =
            Text::new(spot(chain.x + sign * 1.5, top + SIZE * RISE), SIZE, text.clone()).anchor(anchor).cleared();
        let frame = text.frame();
        taken.push((frame.top - 0.5, frame.bottom + 0.4));
        group.text(text);
    }
    (group, taken)
}

/// A line between two places with a stroke at each end, as of a wall's length.
pub(super) fn between(group: &mut Group, from: Spot, to: Spot) {
    group.line([from, to], pen(Ink::Fine, Weight::Thin));
    for at in [from, to] {
        group.shape(Form::Circle(at, 0.5), Fill::Full(Ink::Line), None);
    }
}
