//! The plan of work: every face with its history, and the state of the house before and after each phase.

use wythe_model::{Act, Assembly, AssemblyId, Class, EdgeName, Foundation, Levels, SurfaceKind, Work};
use wythe_source::Symbol;

use super::site_state::{Cover, SiteState};
use crate::levels::levels_of;
use crate::order::history::{History, Life, closes_heads};

/// One face of one assembly in the plan.
pub(crate) struct Surface<'a> {
    /// The assembly's number.
    pub id: AssemblyId,
    /// The assembly.
    pub assembly: &'a Assembly,
    /// The levels it is read at.
    pub levels: Levels,
    /// Its history.
    pub history: History<'a>,
}

impl Surface<'_> {
    /// The name of the face.
    pub fn face(&self) -> &'static str {
        self.history.face.name.as_str()
    }

    /// The work that places a layer.
    pub fn work(&self, life: &Life) -> &Work {
        &self.history.works()[life.work]
    }
}

/// The plan of work of a foundation.
pub(crate) struct Plan<'a> {
    /// The foundation.
    pub foundation: &'a Foundation,
    /// Every face.
    pub surfaces: Vec<Surface<'a>>,
    /// The state on entry to each phase, and after the last: one more than there are phases.
    pub states: Vec<SiteState>,
    /// The phases whose hold a log has passed; `None` for a plan without a log, where each passes in order.
    pub passed: Option<&'a [Symbol]>,
}

impl<'a> Plan<'a> {
    /// Works out the plan.
    pub fn of(foundation: &'a Foundation, passed: Option<&'a [Symbol]>) -> Self {
        let mut surfaces = Vec::new();
        for (number, assembly) in foundation.assemblies.iter().enumerate() {
            let id = AssemblyId(number as u32);
            let levels = levels_of(foundation, id);
            for face in &assembly.faces {
                surfaces.push(Surface { id, assembly, levels, history: History::of(assembly, face, &levels) });
            }
        }
        let mut plan = Plan { foundation, surfaces, states: vec![SiteState::start()], passed };
        for (index, phase) in foundation.phases.iter().enumerate() {
            let next = plan.states[index].after(phase, plan.cover_after(index));
            plan.states.push(next);
        }
        plan
    }

    /// The state on entry to a phase.
    pub fn before(&self, phase: usize) -> &SiteState {
        &self.states[phase.min(self.states.len() - 1)]
    }

    /// The state after a phase.
    pub fn after(&self, phase: usize) -> &SiteState {
        self.before(phase + 1)
    }

    /// The state in service.
    pub fn last(&self) -> &SiteState {
        self.before(usize::MAX - 1)
    }

    /// The phase of a work, where the foundation lists it.
    pub fn phase_of(&self, work: &Work) -> Option<usize> {
        self.foundation.phase_index(work.phase?.name)
    }

    /// The phase of a work of a surface by its place in the list.
    pub fn phase_at(&self, surface: &Surface, work: usize) -> Option<usize> {
        self.phase_of(&surface.history.works()[work])
    }

    /// The name of a phase.
    pub fn name(&self, phase: usize) -> &'static str {
        self.foundation.phases.get(phase).map_or("", |p| p.name_str())
    }

    /// The phase that closes the space: the first that shuts the vents. Where none does, there being none, the first that
    /// starts conditioning for good. Conditioning that starts while the house is built, to dry it, closes nothing yet.
    pub fn closing(&self) -> Option<usize> {
        let says = |words: &[Symbol], word: &str| words.iter().any(|w| w.as_str() == word);
        let phases = &self.foundation.phases;
        let still_dries = |from: usize| phases[from..].iter().any(|p| says(&p.dries, "ground"));
        phases.iter().position(|p| says(&p.closes, "vent")).or_else(|| {
            let starts = phases.iter().enumerate().filter(|(_, p)| says(&p.starts, "conditioning"));
            starts.map(|(index, _)| index).find(|&index| !still_dries(index))
        })
    }

    /// Faces of a kind and name.
    pub fn faces(&self, kind: SurfaceKind, face: Option<&'static str>) -> impl Iterator<Item = &Surface<'a>> {
        self.surfaces.iter().filter(move |s| s.assembly.kind == kind && face.is_none_or(|f| s.face() == f))
    }

    /// The surface of the crawl floor that is built.
    pub fn ground(&self) -> Option<&Surface<'a>> {
        let id = self.foundation.ground.assembly?;
        self.surfaces.iter().find(|s| s.id == id)
    }

    /// Permanent sheets on the crawl floor, with the phase they are laid in.
    pub fn permanent_liners(&self) -> impl Iterator<Item = (&Surface<'a>, &Life<'a>, usize)> {
        self.ground().into_iter().flat_map(move |s| {
            let sheets = s.history.lives.iter().filter(|l| is_sheet(l) && !l.is_sacrificial());
            sheets.filter_map(move |l| Some((s, l, self.phase_at(s, l.work)?)))
        })
    }

    /// Joint works that meet a face.
    pub fn joint_works(&self, surface: &Surface) -> impl Iterator<Item = &'a Work> {
        let (kind, face) = (surface.assembly.kind, surface.history.face.name);
        let joints = self.foundation.joints.iter();
        joints
            .filter(move |j| [j.first, j.second].into_iter().any(|k| k.kind == kind && k.face == face))
            .flat_map(|j| &j.face.works)
    }

    /// The work that first caps the top edge of a layer: on its face, or in a joint.
    pub fn cap_of(&self, surface: &Surface<'a>, life: usize) -> Option<&'a Work> {
        let works = surface.history.works();
        let own = surface.history.treatments(life, EdgeName::TopEdge).map(|w| &works[w]).find(|w| w.act != Act::Seal);
        let name = surface.history.lives[life].name;
        own.or_else(|| {
            self.joint_works(surface).find(|w| {
                matches!(w.act, Act::Tape | Act::Cap | Act::Coat)
                    && w.place.is_some_and(|p| p.edge == EdgeName::TopEdge && p.of == Some(name))
            })
        })
    }

    /// The work that first closes the heads of a fastening: on its face, or in a joint.
    pub fn heads_closed(&self, surface: &Surface<'a>, fasten: usize) -> Option<&'a Work> {
        let works = surface.history.works();
        let fastener = works[fasten].product.as_deref().map(|p| p.name);
        let own = surface.history.heads_closed(fasten).map(|w| &works[w]);
        own.or_else(|| self.joint_works(surface).find(|w| closes_heads(w, fastener)))
    }

    fn cover_after(&self, phase: usize) -> Cover {
        let Some(ground) = self.ground() else { return Cover::Bare };
        let there = |life: &&Life| {
            let placed = self.phase_at(ground, life.work).is_none_or(|p| p <= phase);
            let removed = life.removed.is_some_and(|r| self.phase_at(ground, r).is_none_or(|p| p <= phase));
            placed && !removed
        };
        let covers = ground.history.lives.iter().filter(there).filter_map(|l| match l.class() {
            Some(Class::Membrane) if l.is_sacrificial() => Some(Cover::Sacrificial),
            Some(Class::Membrane | Class::Concrete | Class::Coating) => Some(Cover::Permanent),
            _ => None,
        });
        covers.max().unwrap_or(Cover::Bare)
    }
}

/// Whether a layer is a sheet on the ground.
pub(crate) fn is_sheet(life: &Life) -> bool {
    life.class() == Some(Class::Membrane)
}

/// Whether a sheet is strong enough to be worked on: woven, and of the highest strength class of ASTM E1745.
pub(crate) fn is_tough(life: &Life) -> bool {
    life.product.is_some_and(|p| p.reinforced && p.strength_class.is_some_and(|c| c.as_str() == "class_a"))
}
