//! Phases: the visits and states the work goes through.

use std::sync::Arc;

use uom::si::f64::ThermodynamicTemperature;
use wythe_source::{Span, Symbol};

/// How heavily a surface is walked on during a phase.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord, Default)]
pub enum Traffic {
    /// Nobody walks there.
    #[default]
    None,
    /// A crew at its own work.
    Light,
    /// Other trades, ladders, lumber.
    Heavy,
}

/// One phase. The lists hold the words of the language; `wythe-check` gives them meaning.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Phase {
    /// Its name.
    pub name: Option<Symbol>,
    /// Where it is declared.
    pub origin: Span,
    /// What must hold on entry: `graded`, `drained`, `dry`, `vent_open`.
    pub needs: Vec<Symbol>,
    /// What it brings: `footings`, `stem`, `columns`, `beams`, `floor`, `roof`.
    pub brings: Vec<Symbol>,
    /// What it opens: `vent`.
    pub opens: Vec<Symbol>,
    /// What it ends: `rain`.
    pub ends: Vec<Symbol>,
    /// What it covers: `outside_below_grade`.
    pub covers: Vec<Symbol>,
    /// The state it leaves: `graded`, `drained`.
    pub leaves: Vec<Symbol>,
    /// What it wets: `ground`.
    pub wets: Vec<Symbol>,
    /// What it dries: `ground`.
    pub dries: Vec<Symbol>,
    /// What it closes: `vent`.
    pub closes: Vec<Symbol>,
    /// What it starts: `conditioning`.
    pub starts: Vec<Symbol>,
    /// How heavily the ground is walked on.
    pub traffic: Traffic,
    /// What an inspector must see before work goes on.
    pub hold: Option<Arc<str>>,
    /// The coldest that surfaces are expected to be while it is worked at.
    pub coldest: Option<ThermodynamicTemperature>,
    /// The hottest that surfaces are expected to be while it is worked at.
    pub hottest: Option<ThermodynamicTemperature>,
    /// Working days it takes where others do the work.
    pub days: Option<u32>,
    /// Days to cure or dry after it, nights and weekends included.
    pub wait_days: u32,
}

impl Phase {
    /// The phase's name, or nothing for one without.
    pub fn name_str(&self) -> &'static str {
        self.name.map_or("", Symbol::as_str)
    }
}
