//! Traces: the way a line takes through a section, step by step, for inspector sheets and drawings.

use wythe_model::{AssemblyId, Control, Length, Levels, SurfaceKind};
use wythe_source::{Span, Symbol};

/// How a proof ended.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub enum Status {
    /// The line is whole.
    Proven,
    /// The line is whole if a figure that is known within bounds lies on the good side.
    Unsure,
    /// Nothing asks for the line here.
    NotAsked,
    /// What is there is not told.
    Unsaid,
    /// The line is broken.
    Broken,
}

impl Status {
    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            Status::Proven => "proven",
            Status::Unsure => "unsure",
            Status::NotAsked => "not asked",
            Status::Unsaid => "unsaid",
            Status::Broken => "broken",
        }
    }
}

/// One layer on the way.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// The layer, or `structure`.
    pub layer: Symbol,
    /// The kind of element it is on.
    pub element: SurfaceKind,
    /// The face it is on.
    pub face: Symbol,
    /// Upper end above the datum.
    pub from: Length,
    /// Lower end above the datum.
    pub to: Length,
    /// The work that puts it in place.
    pub origin: Span,
    /// How it is joined to the step before: `contact 4 in, pressed`.
    pub joined: String,
}

/// The shortest mend of a broken line.
#[derive(Clone, Debug, PartialEq)]
pub struct Mend {
    /// What to do.
    pub text: String,
    /// The line to change.
    pub origin: Span,
    /// Where, above the datum.
    pub elevation: Length,
    /// What is there.
    pub found: Option<Length>,
    /// What is asked for.
    pub required: Option<Length>,
    /// Whose requirement it is.
    pub whose: String,
}

/// The proof of one control in one section.
#[derive(Clone, Debug, PartialEq)]
pub struct Trace {
    /// The control.
    pub control: Control,
    /// The kind of element.
    pub kind: SurfaceKind,
    /// The parts with this very section.
    pub places: Vec<Symbol>,
    /// What they are built with.
    pub assembly: Option<AssemblyId>,
    /// The levels of the section, for drawing it.
    pub levels: Levels,
    /// The layers on the way, from start to end.
    pub steps: Vec<Step>,
    /// How the proof ended.
    pub status: Status,
    /// The shortest mend, where it is broken: every place that must be mended.
    pub mends: Vec<Mend>,
    /// A remark: why nothing is asked, or what was taken for granted.
    pub note: String,
}
