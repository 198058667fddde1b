//! Short answers to the ten questions asked on site, one file each.

mod change;
mod cut;
mod fix;
mod inspection;
mod lap;
mod left;
mod may;
mod next;
mod rain;
mod wall;

pub use change::{Change, change};
pub use cut::cut;
pub use fix::fix;
pub use inspection::inspection;
pub use lap::lap;
pub use left::left;
pub use may::{Deed, may};
pub use next::next;
pub use rain::rain;
pub use wall::wall;

use wythe_model::{Act, Class, Length, Levels};
use wythe_render::drawing::{Drawing, words as plain};
use wythe_source::Symbol;

use crate::House;
use crate::words::say;

/// An answer: a few plain lines, and a drawing where one helps.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The lines, the answer itself first.
    pub lines: Vec<String>,
    /// The drawing.
    pub drawing: Option<Drawing>,
}

impl Answer {
    fn of(lines: Vec<String>) -> Answer {
        Answer { lines, drawing: None }
    }

    /// An answer in words made elsewhere in the same language.
    #[must_use]
    pub fn with_drawing(mut self, drawing: Drawing) -> Answer {
        self.drawing = Some(drawing);
        self
    }
}

/// The board inside a wall at its start: lower and upper edge above the datum, and the levels there.
pub(crate) fn board_of(house: &House<'_>, wall: usize) -> Option<(Length, Length, Levels)> {
    let f = house.f();
    let w = f.walls.get(wall)?;
    let levels = w.stretches.first()?.levels;
    let assembly = f.assemblies.get(w.assembly?.0 as usize)?;
    let is_board =
        |x: &&wythe_model::Work| x.act == Act::Set && x.product.as_ref().is_some_and(|p| p.class == Class::Board);
    let work = assembly.face("inside")?.works.iter().find(is_board)?;
    let (low, high) = work.extent?.on(&levels);
    Some((low, high, levels))
}

/// What must hold before a visit begins, by the word of the language.
pub(crate) fn need(house: &House<'_>, word: &str) -> String {
    let w = house.words;
    match word {
        "graded" => say!(w, "need-graded"),
        "drained" => say!(w, "need-drained"),
        "dry" => say!(w, "need-dry"),
        "vent_open" => say!(w, "need-vents-open"),
        other => say!(w, "need-other", what = other.replace('_', " ")),
    }
}

/// That there is nothing of a name, with what there is.
fn unknown(house: &House<'_>, name: &str, known: &[Symbol]) -> String {
    say!(house.words, "ask-unknown", name = crate::html::clean(name), known = house.telling().names(known))
}

/// A name as people read it, or as they typed it.
fn named(name: &str) -> String {
    plain::name(Symbol::new(name))
}
