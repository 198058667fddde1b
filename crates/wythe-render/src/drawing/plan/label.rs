//! Names in a plan: outside a wall as near as there is room, or round a thing inside.

use super::super::leader::{DETAIL, HEAD};
use super::super::scene::{Anchor, Frame, Group, Ink, Spot, Text, Weight, pen, spot};
use super::super::text::{LEADING, clean, width};
use super::Sheet;

/// The widest a name in a plan may be.
const WIDEST: f64 = 48.0;

/// Lines of a name: the first bold, the rest quiet.
pub(super) fn lines(at_center: Spot, lines: &[String]) -> Vec<Text> {
    let tall = HEAD * LEADING + (lines.len().saturating_sub(1)) as f64 * DETAIL * LEADING;
    let mut y = at_center.y - tall / 2.0 + HEAD * 0.92;
    let mut out = Vec::with_capacity(lines.len());
    for (i, line) in lines.iter().enumerate() {
        let (size, bold) = if i == 0 { (HEAD, true) } else { (DETAIL, false) };
        let ink = if i == 0 { Ink::Line } else { Ink::Quiet };
        let mut text = Text::new(spot(at_center.x, y), size, clean(line)).anchor(Anchor::Middle).ink(ink);
        text.bold = bold;
        out.push(text.within(WIDEST));
        y += DETAIL * LEADING;
    }
    out
}

/// Half the width and half the height of a name.
fn half(lines: &[String]) -> (f64, f64) {
    let wide = lines.iter().enumerate().map(|(i, l)| {
        let (size, bold) = if i == 0 { (HEAD, true) } else { (DETAIL, false) };
        width(l, size, bold).min(WIDEST)
    });
    let tall = HEAD * LEADING + (lines.len().saturating_sub(1)) as f64 * DETAIL * LEADING;
    (wide.fold(0.0, f64::max) / 2.0, tall / 2.0)
}

/// Where a name belongs: a place on a wall's outside, the way out, the way along, and how far it may slide.
pub(super) struct Spread {
    pub at: Spot,
    pub out: (f64, f64),
    pub along: (f64, f64),
    pub slide: f64,
    /// Whether a leader runs from the place to the name.
    pub leader: bool,
}

impl Sheet<'_> {
    /// Puts a name outside a wall, with its leader. Says whether there was room.
    pub(super) fn name_outside(&mut self, group: &mut Group, spread: &Spread, text: &[String]) -> bool {
        let (w, h) = half(text);
        let reach = spread.out.0.abs() * w + spread.out.1.abs() * h;
        for step in 0..26 {
            let off = 3.2 + f64::from(step) * 1.6 + reach;
            for slide in [0.0, 0.25, -0.25, 0.5, -0.5, 0.75, -0.75, 1.0, -1.0] {
                let s = slide * spread.slide;
                let center = spot(
                    spread.at.x + spread.out.0 * off + spread.along.0 * s,
                    spread.at.y + spread.out.1 * off + spread.along.1 * s,
                );
                let texts = lines(center, text);
                let Some(frame) = texts.iter().map(Text::frame).reduce(Frame::with) else { return false };
                if !self.room.is_free(&frame.grown(0.4)) {
                    continue;
                }
                if spread.leader {
                    let from = spot(spread.at.x + spread.out.0 * 0.5, spread.at.y + spread.out.1 * 0.5);
                    let to = spot(center.x - spread.out.0 * reach, center.y - spread.out.1 * reach);
                    if !self.leader_is_free(from, to) {
                        continue;
                    }
                    group.line([from, to], pen(Ink::Fine, Weight::Thin));
                    self.room.take_line(from, to, 0.2);
                }
                self.room.take(frame.grown(0.4));
                texts.into_iter().for_each(|t| group.text(t));
                return true;
            }
        }
        self.left_out += 1;
        false
    }

    fn leader_is_free(&self, from: Spot, to: Spot) -> bool {
        let at = |t: f64| spot(from.x + (to.x - from.x) * t, from.y + (to.y - from.y) * t);
        (0..8).all(|i| {
            let (a, b) = (at(0.15 + f64::from(i) * 0.1), at(0.15 + f64::from(i + 1) * 0.1));
            self.room.is_free(&Frame::between(a, b).grown(0.1))
        })
    }

    /// Puts a short text at the first of some centers that is free.
    pub(super) fn name_inside(&mut self, group: &mut Group, text: &Text, centers: &[Spot]) -> bool {
        let candidates = centers.iter().map(|c| {
            let mut t = text.clone().anchor(Anchor::Middle).within(WIDEST);
            t.at = spot(c.x, c.y + t.size * 0.36);
            vec![t]
        });
        match self.room.place(candidates) {
            Some(texts) => {
                texts.into_iter().for_each(|t| group.text(t));
                true
            }
            None => {
                self.left_out += 1;
                false
            }
        }
    }
}
