//! What a check of layer order knows: one face of one assembly, its history, and the joints that meet it.

use wythe_findings::{Finding, Fix, Safety};
use wythe_model::{Assembly, AssemblyId, Control, Foundation, Work};
use wythe_source::{Span, Symbol};

use super::board_before_liner::Swapped;
use super::history::{History, Life};
use crate::{Requirements, place};

/// One face under check.
pub(crate) struct Context<'a> {
    /// The foundation.
    pub foundation: &'a Foundation,
    /// What is asked for.
    pub asked: &'a Requirements,
    /// The assembly's number.
    pub id: AssemblyId,
    /// The assembly.
    pub assembly: &'a Assembly,
    /// The face's history.
    pub history: History<'a>,
    /// Boards set where a liner should lie first; what follows from that is not told again.
    pub swapped: Vec<Swapped>,
    /// Works of joints that meet this face.
    pub joint_works: Vec<&'a Work>,
}

impl<'a> Context<'a> {
    /// The works of the face.
    pub fn works(&self) -> &'a [Work] {
        self.history.works()
    }

    /// The finding with its item and the parts built so.
    pub fn placed(&self, finding: Finding) -> Finding {
        place::of_assembly(self.foundation, self.id, self.assembly, self.history.face.name.as_str(), finding)
    }

    /// A fix that moves one line to the place of another, where all lines between are of one phase.
    pub fn reorder(&self, from: usize, to: usize) -> Option<Fix> {
        let works = self.works();
        let between = works.get(from.min(to)..=from.max(to))?;
        let phase = between.first()?.phase.map(|p| p.name);
        if between.iter().any(|w| w.phase.map(|p| p.name) != phase) {
            return None;
        }
        let slots: Vec<Span> = works.iter().map(|w| w.origin).collect();
        let title = if from < to {
            format!("move `{}` after `{}`", super::words::line(&works[from]), super::words::line(&works[to]))
        } else {
            format!("move `{}` before `{}`", super::words::line(&works[from]), super::words::line(&works[to]))
        };
        Fix::reorder(title, &slots, from, to, Safety::Safe)
    }

    /// Whether a layer is a board that stands where the liner placed by a work should lie first.
    pub fn is_swapped(&self, board: &Life, liner: usize) -> bool {
        let lives = &self.history.lives;
        self.swapped.iter().any(|s| lives[s.board].work == board.work && lives[s.liner].work == liner)
    }

    /// The phase of a work in the order of the foundation, where both are known.
    pub fn phase_of(&self, work: &Work) -> Option<usize> {
        self.foundation.phase_index(work.phase?.name)
    }

    /// The first phase that ends rain.
    pub fn rain_ends(&self) -> Option<usize> {
        self.foundation.phases.iter().position(|p| p.ends.iter().any(|e| e.as_str() == "rain"))
    }

    /// Names of every layer of the assembly's other faces, with the face.
    pub fn elsewhere(&self, name: Symbol) -> Option<&'a str> {
        let here = self.history.face.name;
        let other = self.assembly.faces.iter().filter(|f| f.name != here);
        other.into_iter().find(|f| f.works.iter().any(|w| w.act.places() && w.layer == name)).map(|f| f.name.as_str())
    }
}

/// Whether a layer carries a line that a hole would break.
pub(crate) fn carries_a_line(product: &wythe_model::Product) -> bool {
    [Control::Vapor, Control::Air, Control::BulkWater].into_iter().any(|c| product.controls.has(c))
        && !product.sacrificial
}

/// The finding with a fix, where one is to be had.
pub(crate) fn with_fix(finding: Finding, fix: Option<Fix>) -> Finding {
    match fix {
        Some(fix) => finding.fix(fix),
        None => finding,
    }
}
