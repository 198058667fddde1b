//! What stands in braces: properties, sections and statements.

use wythe_source::Span;

use super::{ExprId, Ident, Let, Path};

/// `{ … }`
#[derive(Clone, Debug)]
pub struct Block {
    /// Both braces included.
    pub span: Span,
    /// What it holds, in order.
    pub items: Vec<Item>,
}

/// One thing in a block.
#[derive(Clone, Debug)]
pub enum Item {
    /// `name: value`
    Property {
        /// The name.
        name: Ident,
        /// The value.
        value: ExprId,
    },
    /// `name { … }`
    Section {
        /// The name.
        name: Ident,
        /// What it holds.
        block: Block,
    },
    /// A statement.
    Statement(Statement),
}

/// A statement with its place.
#[derive(Clone, Debug)]
pub struct Statement {
    /// The place.
    pub span: Span,
    /// What it says.
    pub kind: StatementKind,
}

/// What a statement says.
#[derive(Clone, Debug)]
pub enum StatementKind {
    /// `let name = value`
    Let(Let),
    /// `set board from top - gap to ground`
    Layer(Layer),
    /// `during rough_in { … }`
    During {
        /// The phase.
        phase: Ident,
        /// The layers.
        block: Block,
    },
    /// `wall south runs east 42'`
    Wall {
        /// Its name.
        name: Ident,
        /// Where it runs.
        direction: Ident,
        /// How far.
        length: ExprId,
        /// Steps and properties.
        block: Option<Block>,
    },
    /// `step at 16' { … }`
    Step {
        /// Where.
        at: ExprId,
        /// What changes from there on.
        block: Block,
    },
    /// `opening hatch in south at 10' { … }`
    Opening {
        /// Its name.
        name: Ident,
        /// Its wall.
        wall: Ident,
        /// Its near edge, from the wall's start.
        at: ExprId,
        /// What it is.
        block: Block,
    },
    /// `piers p { … }`
    Piers {
        /// The stem of their names.
        name: Ident,
        /// What they are.
        block: Block,
    },
    /// `pier stair at (x, y) { … }`
    Pier {
        /// Its name.
        name: Ident,
        /// Where.
        at: ExprId,
        /// What it is.
        block: Block,
    },
    /// `pad hearth at (x, y) { … }`
    Pad {
        /// Its name.
        name: Ident,
        /// Where.
        at: ExprId,
        /// What it is.
        block: Block,
    },
    /// `beam main from (x, y) to (x, y) { … }`
    Beam {
        /// Its name.
        name: Ident,
        /// Its start.
        from: ExprId,
        /// Its end.
        to: ExprId,
        /// What it is.
        block: Option<Block>,
    },
    /// `for each w in walls where …`
    ForEach {
        /// The name bound.
        name: Ident,
        /// What is gone through.
        list: ExprId,
        /// Which are taken.
        condition: Option<ExprId>,
    },
    /// `require …`
    Require(ExprId),
    /// `otherwise "…"`
    Otherwise(ExprId),
    /// `rate hang 140 ft2 per h for Membrane`
    Rate {
        /// The verb.
        verb: Ident,
        /// How fast.
        value: ExprId,
        /// The class it holds for.
        class: Option<Ident>,
    },
    /// `waste Board 8 %`
    Waste {
        /// The class.
        class: Ident,
        /// The share.
        value: ExprId,
    },
    /// `entry 2026-03-09 { … }`
    Entry {
        /// The day.
        date: ExprId,
        /// What was done.
        block: Block,
    },
    /// `expect …`
    Expect(Expect),
}

impl StatementKind {
    /// The block of the statement.
    pub const fn block(&self) -> Option<&Block> {
        match self {
            StatementKind::During { block, .. }
            | StatementKind::Step { block, .. }
            | StatementKind::Opening { block, .. }
            | StatementKind::Piers { block, .. }
            | StatementKind::Pier { block, .. }
            | StatementKind::Pad { block, .. }
            | StatementKind::Entry { block, .. } => Some(block),
            StatementKind::Wall { block, .. } | StatementKind::Beam { block, .. } => block.as_ref(),
            StatementKind::Let(_)
            | StatementKind::Layer(_)
            | StatementKind::ForEach { .. }
            | StatementKind::Require(_)
            | StatementKind::Otherwise(_)
            | StatementKind::Rate { .. }
            | StatementKind::Waste { .. }
            | StatementKind::Expect(_) => None,
        }
    }
}

/// What a test expects.
#[derive(Clone, Debug)]
pub enum Expect {
    /// `expect [no] finding name in unit_4.v2`
    Finding {
        /// Whether it must be there or must not.
        present: bool,
        /// Which; any if none is named.
        name: Option<Path>,
        /// Where; anywhere if not said.
        within: Option<Path>,
    },
    /// `expect value == 3 within 1 in`
    Value {
        /// What must be true.
        value: ExprId,
        /// How far an equality may be off.
        within: Option<ExprId>,
    },
}

/// What is done with a layer.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub enum Verb {
    /// Brush, roll, spray or trowel a coating.
    Coat,
    /// Lay a drain.
    Drain,
    /// Fill with stone or earth.
    Fill,
    /// Lay a sheet on the ground.
    Lay,
    /// Hang a sheet on a wall or pier.
    Hang,
    /// Set a board, a panel or a piece of equipment.
    Set,
    /// Fasten what is in place.
    Fasten,
    /// Cap an edge.
    Cap,
    /// Tape an edge, a joint, a head or a cut.
    Tape,
    /// Seal with sealant.
    Seal,
    /// Lap one layer over another.
    Lap,
    /// Take away again.
    Remove,
}

impl Verb {
    /// All, in the order of the reference.
    pub const ALL: [Verb; 12] = [
        Verb::Coat,
        Verb::Drain,
        Verb::Fill,
        Verb::Lay,
        Verb::Hang,
        Verb::Set,
        Verb::Fasten,
        Verb::Cap,
        Verb::Tape,
        Verb::Seal,
        Verb::Lap,
        Verb::Remove,
    ];

    /// The word.
    pub const fn word(self) -> &'static str {
        match self {
            Verb::Coat => "coat",
            Verb::Drain => "drain",
            Verb::Fill => "fill",
            Verb::Lay => "lay",
            Verb::Hang => "hang",
            Verb::Set => "set",
            Verb::Fasten => "fasten",
            Verb::Cap => "cap",
            Verb::Tape => "tape",
            Verb::Seal => "seal",
            Verb::Lap => "lap",
            Verb::Remove => "remove",
        }
    }
}

/// A layer: a verb, what it acts on, and clauses.
#[derive(Clone, Debug)]
pub struct Layer {
    /// What is done.
    pub verb: Verb,
    /// Where the verb stands.
    pub verb_span: Span,
    /// The product, or the layer acted on.
    pub object: Ident,
    /// How, in the order written.
    pub clauses: Vec<Clause>,
}

/// A clause with its place.
#[derive(Clone, Debug)]
pub struct Clause {
    /// The place, its word included.
    pub span: Span,
    /// What it says.
    pub kind: ClauseKind,
}

/// What a clause says. The order here is the order of printing.
#[derive(Clone, Debug)]
pub enum ClauseKind {
    /// `as head_coat`
    As(Ident),
    /// `from a to b`
    Extent {
        /// One end.
        from: ExprId,
        /// The other.
        to: ExprId,
    },
    /// `along top edge of board to structure`
    Along(Edge),
    /// `over heads of drive_pin`
    Over(Edge),
    /// `under …`
    Under(Edge),
    /// `into …`
    Into(Edge),
    /// `with drive_pin`
    With(Ident),
    /// `every 24"`
    Every(ExprId),
    /// `by 12"`, `by 6 per sheet`
    By(ExprId),
    /// `bead 3/8"`
    Bead(ExprId),
}

impl ClauseKind {
    /// The word that opens it.
    pub const fn word(&self) -> &'static str {
        match self {
            ClauseKind::As(_) => "as",
            ClauseKind::Extent { .. } => "from",
            ClauseKind::Along(_) => "along",
            ClauseKind::Over(_) => "over",
            ClauseKind::Under(_) => "under",
            ClauseKind::Into(_) => "into",
            ClauseKind::With(_) => "with",
            ClauseKind::Every(_) => "every",
            ClauseKind::By(_) => "by",
            ClauseKind::Bead(_) => "bead",
        }
    }
}

/// An edge or a place on a layer: `top edge of board to structure`, `heads of drive_pin`, `footing`, `head`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edge {
    /// The whole place.
    pub span: Span,
    /// One or two names: `top edge`, `heads`, `laps`, `joints`, `cuts`, `perimeter`, `footing`, or a layer's name.
    pub what: Vec<Ident>,
    /// The layer it is an edge of.
    pub of: Option<Ident>,
    /// What it is joined to.
    pub to: Option<Ident>,
}
