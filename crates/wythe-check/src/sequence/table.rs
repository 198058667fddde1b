//! The state table: each surface after each phase, as data for the terminal and for reports.

use std::fmt;

use wythe_model::{EdgeName, Traffic};
use wythe_source::Symbol;

use super::plan::{Plan, Surface, is_tough};
use super::site_state::{Cover, SiteState, Wet};
use crate::order::history::{Found, Life};

/// How far a layer has come.
#[derive(Clone, Copy, PartialEq, Eq, Debug, PartialOrd, Ord)]
pub enum LayerState {
    /// In place.
    Placed,
    /// Made fast.
    Fixed,
    /// Everything the face asks of it is done.
    Finished,
    /// Behind another layer or the backfill.
    Covered,
    /// Taken away.
    Removed,
}

impl LayerState {
    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            LayerState::Placed => "placed",
            LayerState::Fixed => "fixed",
            LayerState::Finished => "finished",
            LayerState::Covered => "covered",
            LayerState::Removed => "removed",
        }
    }
}

/// How a porous edge stands.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum EdgeState {
    /// There is none.
    None,
    /// Open.
    Open,
    /// Capped.
    Capped,
}

/// How the inspection stands.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Inspection {
    /// None is asked for.
    No,
    /// Due.
    Due,
    /// Passed.
    Passed,
}

/// What has been done to a layer that nothing protects.
#[derive(Clone, Copy, PartialEq, Eq, Debug, PartialOrd, Ord)]
pub enum Harm {
    /// Nothing.
    None,
    /// Walked on.
    Walked,
    /// Rained on.
    Rained,
}

/// One surface after one phase.
#[derive(Clone, Debug, PartialEq)]
pub struct Cell {
    /// How wet it is, for the crawl floor.
    pub wet: Option<Wet>,
    /// What lies on it, for the crawl floor.
    pub cover: Option<Cover>,
    /// How its porous edges stand.
    pub edge: EdgeState,
    /// Its layers, oldest first.
    pub layers: Vec<(Symbol, LayerState)>,
    /// How its inspection stands.
    pub seen: Inspection,
    /// What has been done to it.
    pub harm: Harm,
}

/// One surface through all phases.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// The surface: `ground`, or build-up and face, such as `stem_wall.inside`.
    pub surface: String,
    /// The parts built so.
    pub places: Vec<Symbol>,
    /// A cell for each phase.
    pub cells: Vec<Cell>,
}

/// The state of the building, surface by phase.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct StateTable {
    /// The phases, in order.
    pub phases: Vec<Symbol>,
    /// The state of the house after each phase.
    pub house: Vec<SiteState>,
    /// The surfaces.
    pub rows: Vec<Row>,
    /// Whether each hold was taken as passed in order, there being no log.
    pub holds_assumed: bool,
}

impl fmt::Display for Cell {
    /// What is to be seen, in a few words: `sacrificial, damp`, or `board fixed (edge open)`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut parts: Vec<String> = Vec::new();
        if let Some(cover) = self.cover {
            parts.push(format!("{cover:?}").to_lowercase());
        }
        if let Some(wet) = self.wet {
            parts.push(format!("{wet:?}").to_lowercase());
        }
        if self.cover.is_none() {
            let shown = self.layers.iter().filter(|(_, s)| !matches!(s, LayerState::Removed));
            parts.extend(shown.map(|(name, state)| format!("{name} {}", state.word())));
        }
        if self.edge == EdgeState::Open {
            parts.push("edge open".to_owned());
        }
        if self.seen == Inspection::Due {
            parts.push("inspection due".to_owned());
        }
        match self.harm {
            Harm::None => {}
            Harm::Walked => parts.push("walked on".to_owned()),
            Harm::Rained => parts.push("rained on".to_owned()),
        }
        if parts.is_empty() { f.write_str("-") } else { f.write_str(&parts.join(", ")) }
    }
}

/// Works out the table of a plan.
pub(crate) fn table(plan: &Plan) -> StateTable {
    let phases = plan.foundation.phases.len();
    let names = plan.foundation.phases.iter().map(|p| p.name.unwrap_or_else(|| Symbol::new("")));
    let rows = plan.surfaces.iter().map(|surface| {
        let mut harm = Harm::None;
        let cells = (0..phases).map(|phase| {
            let cell = cell(plan, surface, phase, harm);
            harm = cell.harm;
            cell
        });
        let cells = cells.collect();
        let ground = plan.foundation.ground.assembly == Some(surface.id);
        Row {
            surface: if ground { "ground".to_owned() } else { format!("{}.{}", surface.assembly.name, surface.face()) },
            places: plan.foundation.built_with(surface.id),
            cells,
        }
    });
    StateTable {
        phases: names.collect(),
        house: plan.states.iter().skip(1).copied().collect(),
        rows: rows.collect(),
        holds_assumed: plan.passed.is_none(),
    }
}

fn cell(plan: &Plan, surface: &Surface, phase: usize, before: Harm) -> Cell {
    let state = plan.after(phase);
    let ground = plan.foundation.ground.assembly == Some(surface.id);
    let done = |work: usize| plan.phase_at(surface, work).is_none_or(|p| p <= phase);
    let mut edge = EdgeState::None;
    let mut layers = Vec::new();
    for (at, life) in surface.history.lives.iter().enumerate().filter(|(_, l)| done(l.work)) {
        let layer = layer_state(plan, surface, (at, life), phase);
        layers.push((life.name, layer));
        if crate::order::drinks(life) && layer != LayerState::Removed {
            let capped = plan.cap_of(surface, at).is_some_and(|w| plan.phase_of(w).is_none_or(|p| p <= phase));
            edge = if capped && edge != EdgeState::Open {
                EdgeState::Capped
            } else if capped {
                edge
            } else {
                EdgeState::Open
            };
        }
    }
    let liner_bare = ground
        && surface
            .history
            .lives
            .iter()
            .any(|l| done(l.work) && l.stays() && !l.is_sacrificial() && l.class().is_some() && !is_tough(l));
    let walked = liner_bare && state.traffic == Traffic::Heavy;
    let rained = edge == EdgeState::Open && state.rain;
    let harm = before.max(if rained {
        Harm::Rained
    } else if walked {
        Harm::Walked
    } else {
        Harm::None
    });
    Cell {
        wet: ground.then_some(state.ground),
        cover: ground.then_some(state.cover),
        edge,
        layers,
        seen: inspection(plan, surface, phase),
        harm,
    }
}

fn layer_state(plan: &Plan, surface: &Surface, (at, life): (usize, &Life), phase: usize) -> LayerState {
    let done = |work: usize| plan.phase_at(surface, work).is_none_or(|p| p <= phase);
    let backfilled =
        surface.face() == "outside" && plan.after(phase).backfilled && life.range.low < surface.levels.grade;
    if life.removed.is_some_and(done) {
        return LayerState::Removed;
    }
    if life.shut.is_some_and(done) || backfilled {
        return LayerState::Covered;
    }
    let mut asked = surface.history.references.iter().filter(|r| match r.found {
        Found::Live(l) => l == at,
        Found::Fasteners(fasten) => surface.history.fastened_by(fasten) == Some(at),
        _ => false,
    });
    let works = surface.history.works();
    let fixed = life.fixed.is_some_and(done);
    let finished = asked.all(|r| works[r.work].place.is_some_and(|p| p.edge == EdgeName::Head) || done(r.work));
    match (fixed, finished) {
        (true, true) => LayerState::Finished,
        (true, false) => LayerState::Fixed,
        (false, _) => LayerState::Placed,
    }
}

/// How the newest hold of a surface stands: due from the end of a phase with work on it and a hold.
fn inspection(plan: &Plan, surface: &Surface, phase: usize) -> Inspection {
    let worked = |p: usize| surface.history.works().iter().any(|w| plan.phase_of(w) == Some(p));
    let holds = |p: &usize| plan.foundation.phases[*p].hold.is_some() && worked(*p);
    let Some(last) = (0..=phase).rev().find(holds) else { return Inspection::No };
    let passed = match (plan.passed, plan.foundation.phases[last].name) {
        (Some(passed), Some(name)) => passed.contains(&name),
        (Some(_), None) => false,
        (None, _) => last < phase,
    };
    if passed { Inspection::Passed } else { Inspection::Due }
}
