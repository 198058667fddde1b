//! Covering wall runs with board: pieces of the run's height, joints wherever they are allowed.
//! The planner chooses both how sheets are cut into strips and where every joint falls.

mod patterns;
mod rows;
mod slots;
mod split;

use super::assign::{self, JointRules, Stretch, Strip, Take};
use super::layout::{self, RawPiece};
use super::master;
use super::plan::{CutPlan, Keep, LeastOffcut, NestError, OnHand, Sheet, Unplaced, UnplacedReason};
use super::strips::PlacedStrip;
use crate::grid::{self, Ticks};
use std::collections::BTreeMap;
use uom::si::f64::Length;

/// A wall, or a part of one, to be covered with board of one height.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// The user's name of it; stands on every piece cut for it.
    pub name: String,
    /// Along the wall.
    pub length: Length,
    /// Of the board: the wall less its gaps.
    pub height: Length,
    /// Distances from the start of the run over which no joint may come.
    pub no_joint_at: Vec<Length>,
}

/// Which edges may meet at a joint.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum JointEdge {
    /// Cut or factory.
    Any,
    /// Only factory edges: strips run the whole length of the sheet, and only the ends of a wall
    /// take a cut piece.
    Factory,
}

/// Rules of cutting for runs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoverRules {
    /// Width a cut takes away; nought for a board that is scored and snapped.
    pub kerf: Length,
    /// Shortest piece that may go on a wall.
    pub least_piece: Length,
    /// Smallest offcut worth keeping.
    pub least_offcut: LeastOffcut,
    /// Strips may also be cut across the sheet.
    pub turn: bool,
    /// Edges that may meet at joints.
    pub joints: JointEdge,
    /// Least distance of a joint from a place in [`Run::no_joint_at`].
    pub joint_clearance: Length,
}

/// Plans the board for all runs together, offcuts on hand first.
///
/// A run that cannot be planned is listed in [`CutPlan::unplaced`] and the rest still comes out.
pub fn plan(sheet: Sheet, runs: &[Run], rules: &CoverRules, on_hand: &[OnHand]) -> Result<CutPlan, NestError> {
    let job = Job::new(sheet, runs, rules, on_hand)?;
    let outcome = if rules.joints == JointEdge::Factory { rows::plan(&job, true) } else { job.best() };
    Ok(job.finish(runs, outcome))
}

/// Runs up to which a plan is tried in several ways; a larger order has slack enough for one.
const FEW_RUNS: usize = 60;

/// The most runs one plan takes.
pub const MOST_RUNS: usize = 100_000;
/// The most whole strips all runs of one plan may come to.
pub const MOST_STRIPS: i64 = 200_000;

/// The same in ticks, sorted by height.
#[derive(Clone)]
struct Job {
    length: Ticks,
    width: Ticks,
    joint_rules: JointRules,
    keep: Keep,
    turn: bool,
    heights: Vec<Ticks>,
    /// By height, in the order of the runs.
    stretches: Vec<Vec<Stretch>>,
    on_hand: Vec<(String, Ticks, Ticks)>,
    unplaced: Vec<Unplaced>,
}

/// Sheets cut, pieces taken, and the bound.
#[derive(Default)]
struct Outcome {
    sheets: Vec<layout::RawSheet>,
    bound: usize,
    /// Run, length that stayed bare, and why.
    bare: Vec<(usize, Ticks, UnplacedReason)>,
}

impl Outcome {
    fn is_whole(&self) -> bool {
        self.bare.is_empty()
    }

    /// Whether wall is bare, or more is bought than must be.
    fn may_be_bettered(&self) -> bool {
        !self.is_whole() || self.worth().1 > self.bound
    }

    /// What makes an outcome worse, first things first: bare wall, sheets bought, pieces.
    fn worth(&self) -> (Ticks, usize, usize) {
        let bare = self.bare.iter().map(|b| b.1).sum();
        let bought = self.sheets.iter().filter(|s| s.source == super::plan::SheetSource::Bought).count();
        (bare, bought, self.sheets.iter().map(|s| s.pieces.len()).sum())
    }
}

impl Job {
    /// The best of a few ways: by slots, and by strips with the runs as given, the longest first, the shortest first,
    /// and strips along the sheet only, which makes the longest pieces. The bound is that of the rules as they stand.
    fn best(&self) -> Outcome {
        let count: usize = self.stretches.iter().map(Vec::len).sum();
        let Some(relaxed) = patterns::relax(self) else { return rows::plan(self, false) };
        let mut bound = relaxed.bound();
        let mut by_slots = None;
        // A large order goes by slots first; where they come close to the bound, nothing else is tried.
        if count > FEW_RUNS && self.on_hand.is_empty() {
            let found = slots::plan(self, &relaxed.strips(), usize::MAX);
            bound = bound.max(master::whole_sheets(found.bound));
            by_slots = found.outcome.filter(Outcome::is_whole).map(|outcome| Outcome { bound, ..outcome });
            if let Some(outcome) = by_slots.take_if(|o| o.worth().1 <= bound + bound / 200 + 1) {
                return outcome;
            }
        }
        let plan = |job: &Job| patterns::plan(job).unwrap_or_else(|| rows::plan(job, false));
        let strips = relaxed.strips();
        let mut best = relaxed.plan();
        best.bound = bound;
        if count <= FEW_RUNS && self.on_hand.is_empty() && best.may_be_bettered() {
            // Where wall is bare, any whole plan is better, at whatever bound.
            let known = if best.is_whole() { best.worth().1 } else { usize::MAX };
            let found = slots::plan(self, &strips, known);
            best.bound = best.bound.max(master::whole_sheets(found.bound));
            by_slots = found.outcome.filter(Outcome::is_whole);
        }
        if let Some(found) = by_slots.filter(|found| found.worth() < best.worth()) {
            best = Outcome { bound: best.bound, ..found };
        }
        let mut ways: Vec<Job> = Vec::new();
        if self.turn && (count <= FEW_RUNS || !best.bare.is_empty()) {
            ways.push(Job { turn: false, ..self.clone() });
        }
        if count <= FEW_RUNS && best.may_be_bettered() {
            for longest_first in [true, false] {
                let mut job = self.clone();
                for stretches in &mut job.stretches {
                    stretches.sort_by_key(|s| if longest_first { -s.length } else { s.length });
                }
                ways.push(job);
            }
        }
        for way in &ways {
            let found = plan(way);
            if found.worth() < best.worth() {
                best = Outcome { bound: best.bound, ..found };
            }
        }
        best
    }

    fn new(sheet: Sheet, runs: &[Run], rules: &CoverRules, on_hand: &[OnHand]) -> Result<Self, NestError> {
        let length = grid::positive(sheet.length).ok_or(NestError::SheetSize)?;
        let width = grid::positive(sheet.width).ok_or(NestError::SheetSize)?;
        let joint_rules = JointRules {
            kerf: grid::not_negative(rules.kerf).ok_or(NestError::Rule)?,
            least_piece: grid::not_negative(rules.least_piece).ok_or(NestError::Rule)?,
            clear: grid::not_negative(rules.joint_clearance).ok_or(NestError::Rule)?,
        };
        let keep = Keep::new(rules.least_offcut).ok_or(NestError::Rule)?;
        let mut sizes = Vec::new();
        for o in on_hand {
            let a = grid::positive(o.size.length).ok_or(NestError::SheetSize)?;
            let b = grid::positive(o.size.width).ok_or(NestError::SheetSize)?;
            sizes.push((o.name.clone(), a, b));
        }
        let turn = rules.turn && rules.joints == JointEdge::Any;
        let mut job = Self {
            length,
            width,
            joint_rules,
            keep,
            turn,
            heights: Vec::new(),
            stretches: Vec::new(),
            on_hand: sizes,
            unplaced: Vec::new(),
        };
        job.sort(runs, rules.joints);
        Ok(job)
    }

    fn sort(&mut self, runs: &[Run], joints: JointEdge) {
        let mut by_height: BTreeMap<Ticks, Vec<Stretch>> = BTreeMap::new();
        let mut strips = 0;
        for (index, run) in runs.iter().enumerate() {
            let sized = self.stretch(index, run, joints).and_then(|(height, stretch)| {
                strips += stretch.length / self.length.min(self.width) + 1;
                if strips > MOST_STRIPS {
                    return Err(UnplacedReason::TooMany);
                }
                Ok((height, stretch))
            });
            match sized {
                Ok((height, stretch)) => by_height.entry(height).or_default().push(stretch),
                Err(reason) => self.unplaced.push(Unplaced { mark: run.name.clone(), reason, length: run.length }),
            }
        }
        (self.heights, self.stretches) = by_height.into_iter().rev().unzip();
    }

    fn stretch(&self, index: usize, run: &Run, joints: JointEdge) -> Result<(Ticks, Stretch), UnplacedReason> {
        if index >= MOST_RUNS {
            return Err(UnplacedReason::TooMany);
        }
        let length = grid::positive(run.length).ok_or(UnplacedReason::NotPositive)?;
        let height = grid::positive(run.height).ok_or(UnplacedReason::NotPositive)?;
        let bar = self.longest_strip(height).ok_or(UnplacedReason::LargerThanSheet)?;
        let mut lines: Vec<Ticks> = run.no_joint_at.iter().filter_map(|l| grid::ticks(*l)).collect();
        lines.sort_unstable();
        let stretch = Stretch { run: index, length, lines };
        let possible = match joints {
            JointEdge::Factory => super::factory::pieces(&stretch, bar, self.joint_rules).is_some(),
            JointEdge::Any => self.can_be_covered(&stretch, bar),
        };
        if possible { Ok((height, stretch)) } else { Err(UnplacedReason::NoPlaceForJoint) }
    }

    /// With longest strips alone, one at a time.
    fn can_be_covered(&self, stretch: &Stretch, bar: Ticks) -> bool {
        let mut at = 0;
        while at < stretch.length {
            match assign::fitting_length(stretch, at, bar, self.joint_rules) {
                Some(piece) => at += piece,
                None => return false,
            }
        }
        true
    }

    /// Net length of the longest strip of a height that the sheet gives.
    fn longest_strip(&self, height: Ticks) -> Option<Ticks> {
        if height <= self.width {
            Some(self.length)
        } else if self.turn && height <= self.length {
            Some(self.width)
        } else {
            None
        }
    }

    /// Total net length at each height.
    fn demand(&self) -> Vec<Ticks> {
        self.stretches.iter().map(|s| s.iter().map(|s| s.length).sum()).collect()
    }

    fn area_bound(&self) -> f64 {
        let needed: f64 = self.demand().iter().zip(&self.heights).map(|(&l, &h)| l as f64 * h as f64).sum();
        let free: f64 = self.on_hand.iter().map(|o| o.1 as f64 * o.2 as f64).sum();
        ((needed - free) / (self.length as f64 * self.width as f64)).max(0.0)
    }

    fn finish(self, runs: &[Run], outcome: Outcome) -> CutPlan {
        let mut unplaced = self.unplaced;
        for (run, bare, reason) in outcome.bare {
            unplaced.push(Unplaced { mark: runs[run].name.clone(), reason, length: grid::length(bare) });
        }
        let bought = outcome.sheets.iter().filter(|s| s.source == super::plan::SheetSource::Bought).count();
        let sheets = layout::finish(outcome.sheets, self.joint_rules.kerf, self.keep, |run| runs[run].name.clone());
        CutPlan { sheets, bought, bound: outcome.bound, unplaced }
    }
}

/// A piece on the sheet from its strip.
fn raw_piece(take: &Take, strip: &PlacedStrip, height: Ticks) -> RawPiece {
    let (dx, dy, along, across) =
        if strip.turned { (0, take.start, height, take.length) } else { (take.start, 0, take.length, height) };
    RawPiece { demand: take.run, at: take.at, x: strip.x + dx, y: strip.y + dy, along, across, turned: strip.turned }
}

/// What is left of a strip (length with kerf) after its takes.
fn left_of_strip(length: Ticks, kerf: Ticks, takes: &[&Take]) -> Vec<(Ticks, Ticks)> {
    let mut left = Vec::new();
    let mut from = 0;
    let mut ordered: Vec<&&Take> = takes.iter().collect();
    ordered.sort_by_key(|t| t.start);
    for take in ordered {
        if take.start - from > kerf {
            left.push((from, take.start - from));
        }
        from = take.start + take.length + kerf;
    }
    if length - from > 0 {
        left.push((from, length - from));
    }
    left
}

fn strip_of(id: usize, placed: &PlacedStrip) -> Strip {
    Strip { id, length: placed.run }
}
