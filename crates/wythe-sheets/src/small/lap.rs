//! A lap: which layer lies on which, and how far.

use wythe_render::drawing::{Anchor, Drawing};

use super::{Canvas, bold, spot};
use crate::House;
use crate::words::say;

/// One layer over another, with the width of the lap.
pub(crate) fn lap(house: &House<'_>, over: &str, under: &str, by: &str) -> Drawing {
    let w = house.words;
    let mut canvas = Canvas::new();
    let (left, right) = (40.0, 74.0);
    canvas.line(spot(0.0, 8.0), spot(right, 8.0), bold());
    canvas.line(spot(left, 5.0), spot(116.0, 5.0), bold());
    canvas.level(0.0, left, right, by, false);
    canvas.text(spot(116.0, 0.5), 3.6, &say!(w, "drawn-over", what = over), Anchor::End);
    canvas.text(spot(0.0, 14.0), 3.6, &say!(w, "drawn-under", what = under), Anchor::Start);
    canvas.finish("lap", say!(w, "drawn-lap"), say!(w, "drawn-lap-says", over = over, under = under, by = by))
}
