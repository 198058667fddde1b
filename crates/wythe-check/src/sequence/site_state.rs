//! The state of the whole house between two phases.

use wythe_model::{Foundation, OpeningKind, Phase, Traffic};
use wythe_source::Symbol;

/// How wet the crawl floor is.
#[derive(Clone, Copy, PartialEq, Eq, Debug, PartialOrd, Ord)]
pub enum Wet {
    /// Dry enough for a permanent liner.
    Dry,
    /// As found.
    Damp,
    /// A trade or the rain has wetted it.
    Wet,
}

/// What lies on the crawl floor.
#[derive(Clone, Copy, PartialEq, Eq, Debug, PartialOrd, Ord)]
pub enum Cover {
    /// Soil or stone.
    Bare,
    /// A sheet for the time being.
    Sacrificial,
    /// The layer that stays.
    Permanent,
}

/// How the vents stand.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Vents {
    /// No phase has said.
    Unsaid,
    /// Open.
    Open,
    /// Shut for good.
    Shut,
}

/// The state of the whole house between two phases.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct SiteState {
    /// Whether the roof is on.
    pub roof: bool,
    /// Whether a floor lies over the crawl space.
    pub floor: bool,
    /// Whether rain still reaches the work.
    pub rain: bool,
    /// Whether the outside is backfilled.
    pub backfilled: bool,
    /// Whether the ground is graded.
    pub graded: bool,
    /// Whether the ground is drained.
    pub drained: bool,
    /// Whether footing and walls have been looked at by who must.
    pub inspected: bool,
    /// Whether the anchors for the sill are cast in.
    pub anchored: bool,
    /// Whether the faces to be coated are clean and sound.
    pub clean: bool,
    /// How the vents stand.
    pub vents: Vents,
    /// Whether the space is conditioned.
    pub conditioned: bool,
    /// How heavily the ground was walked on in the phase just done.
    pub traffic: Traffic,
    /// How wet the crawl floor is.
    pub ground: Wet,
    /// What lies on it.
    pub cover: Cover,
}

impl SiteState {
    /// Before the first phase.
    pub(crate) fn start() -> Self {
        SiteState {
            roof: false,
            floor: false,
            rain: true,
            backfilled: false,
            graded: false,
            drained: false,
            inspected: false,
            anchored: false,
            clean: false,
            vents: Vents::Unsaid,
            conditioned: false,
            traffic: Traffic::None,
            ground: Wet::Damp,
            cover: Cover::Bare,
        }
    }

    /// After a phase, with what lies on the ground at its end.
    pub(crate) fn after(mut self, phase: &Phase, cover: Cover) -> Self {
        let says = |words: &[Symbol], word: &str| words.iter().any(|w| w.as_str() == word);
        if says(&phase.opens, "vent") {
            self.vents = Vents::Open;
        }
        self.floor |= says(&phase.brings, "floor");
        self.roof |= says(&phase.brings, "roof");
        self.rain &= !says(&phase.ends, "rain");
        self.cover = cover;
        self.backfilled |= says(&phase.covers, "outside_below_grade");
        self.graded |= says(&phase.leaves, "graded");
        self.drained |= says(&phase.leaves, "drained");
        self.inspected |= says(&phase.leaves, "inspected");
        self.anchored |= says(&phase.leaves, "anchored");
        self.clean |= says(&phase.leaves, "clean");
        if says(&phase.wets, "ground") && cover != Cover::Permanent {
            self.ground = Wet::Wet;
        }
        if says(&phase.starts, "conditioning") {
            self.conditioned = true;
        }
        if says(&phase.dries, "ground") && (self.vents == Vents::Open || self.conditioned) {
            self.ground = Wet::Dry;
        }
        if says(&phase.closes, "vent") {
            self.vents = Vents::Shut;
        }
        if self.rain && !self.roof && cover != Cover::Permanent {
            self.ground = self.ground.max(Wet::Damp);
        }
        self.traffic = phase.traffic;
        self
    }

    /// Whether a state that a phase or a surface asks for holds; `None` for a word that means nothing here.
    pub(crate) fn holds(&self, word: &str) -> Option<bool> {
        Some(match word {
            "graded" => self.graded,
            "drained" => self.drained,
            "inspected" => self.inspected,
            "anchored" => self.anchored,
            "clean" => self.clean,
            "dry" => self.ground == Wet::Dry,
            "vent_open" => self.vents == Vents::Open,
            _ => return None,
        })
    }
}

/// The vents of a foundation that are not plugged.
pub(crate) fn open_vents(f: &Foundation) -> Vec<Symbol> {
    f.openings.iter().filter(|o| o.kind == OpeningKind::Vent && !o.plugged).map(|o| o.name).collect()
}
