//! Free room on a sheet: where a text can stand without lying over another or over what must stay clear.

use super::scene::{Frame, Spot, Text};

/// What is taken of a sheet.
#[derive(Clone, Debug, Default)]
pub(super) struct Room {
    taken: Vec<Frame>,
}

impl Room {
    /// Takes a frame.
    pub fn take(&mut self, frame: Frame) {
        self.taken.push(frame);
    }

    /// Takes a line of some thickness, in short frames, so that a slanting one does not take its whole rectangle.
    pub fn take_line(&mut self, from: Spot, to: Spot, half: f64) {
        let run = (to.x - from.x).hypot(to.y - from.y);
        let level = (to.x - from.x).abs() < 0.01 || (to.y - from.y).abs() < 0.01;
        let parts = if level { 1 } else { ((run / 4.0).ceil() as usize).clamp(1, 400) };
        let at = |t: f64| Spot { x: from.x + (to.x - from.x) * t, y: from.y + (to.y - from.y) * t };
        for i in 0..parts {
            let (a, b) = (at(i as f64 / parts as f64), at((i + 1) as f64 / parts as f64));
            self.take(Frame::between(a, b).grown(half));
        }
    }

    /// Whether a frame is free.
    pub fn is_free(&self, frame: &Frame) -> bool {
        self.taken.iter().all(|t| !t.overlaps(frame))
    }

    /// Takes the first place that is free for all lines of a text set together.
    pub fn place(&mut self, candidates: impl IntoIterator<Item = Vec<Text>>) -> Option<Vec<Text>> {
        let found = candidates.into_iter().find_map(|texts| {
            let frame = texts.iter().map(Text::frame).reduce(Frame::with)?.grown(0.3);
            self.is_free(&frame).then_some((texts, frame))
        })?;
        self.take(found.1);
        Some(found.0)
    }
}
