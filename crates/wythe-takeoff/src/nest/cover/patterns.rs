//! Runs with free joints: patterns of strips by column generation, rounded by really laying the
//! strips along the walls until no wall is bare.

use super::{Job, Outcome, left_of_strip, raw_piece, strip_of};
use crate::grid::Ticks;
use crate::nest::assign::{self, Assignment, Strip};
use crate::nest::guillotine::Cut;
use crate::nest::layout::RawSheet;
use crate::nest::master::{self, Column, Priced, Relaxation};
use crate::nest::plan::{SheetSource, UnplacedReason};
use crate::nest::strips::{self, PlacedStrip, StripRules, StripStock, UsedStrip};

/// One way to cut one sheet.
#[derive(Clone, Debug)]
struct Pattern {
    cut: Cut,
    strips: Vec<PlacedStrip>,
    /// Net length of each height.
    yields: Vec<f64>,
}

/// A sheet committed to a pattern; `stock` is nought for a bought one, else one more than the
/// index of the offcut on hand.
#[derive(Clone, Debug)]
struct Committed {
    stock: usize,
    pattern: Pattern,
}

/// The strips along the walls, and by run what is still bare.
type Laid = (Vec<Assignment>, Vec<(usize, Ticks)>);

/// Heights whose groups are tried for the last sheets.
const GROUPED: usize = 3;
/// Rounds of rounding before what is still bare is given up.
const ROUNDS: usize = 200;

/// `None` when there are too many heights to tabulate patterns.
pub(super) fn plan(job: &Job) -> Option<Outcome> {
    Some(relax(job)?.plan())
}

/// The relaxation solved, with what is on hand cut as well as it can be.
pub(super) struct Relaxed<'a> {
    planner: Option<Planner<'a>>,
    on_hand: Vec<Committed>,
    bound: usize,
    strips: Vec<(usize, Ticks)>,
}

impl Relaxed<'_> {
    /// Proven least number of new sheets.
    pub fn bound(&self) -> usize {
        self.bound
    }

    /// The strips of the patterns that the relaxation cuts: height index and net length.
    pub fn strips(&self) -> Vec<(usize, Ticks)> {
        self.strips.clone()
    }

    /// Rounds it to whole sheets.
    pub fn plan(self) -> Outcome {
        let Some(mut planner) = self.planner else { return Outcome::default() };
        let (committed, (assigned, bare)) = planner.round(self.on_hand);
        let bare = bare.into_iter().map(|(run, l)| (run, l, UnplacedReason::NoPlaceForJoint)).collect();
        Outcome { sheets: sheets(planner.job, &committed, &assigned), bound: self.bound, bare }
    }
}

/// Solves the relaxation; `None` as for [`plan`].
pub(super) fn relax(job: &Job) -> Option<Relaxed<'_>> {
    if job.heights.is_empty() {
        return Some(Relaxed { planner: None, on_hand: Vec::new(), bound: 0, strips: Vec::new() });
    }
    let shortest = job.stretches.iter().flatten().map(|s| s.length).min().unwrap_or(1);
    let rules = StripRules {
        heights: job.heights.clone(),
        kerf: job.joint_rules.kerf,
        // A wall shorter than the least piece takes one piece all the same.
        least: job.joint_rules.least_piece.min(shortest).max(1),
        turn: job.turn,
    };
    let stock = StripStock::new(job.length, job.width, rules.clone())?;
    let whole: Vec<f64> = job.demand().iter().map(|&d| d as f64).collect();
    let mut planner = Planner { job, stock, known: Vec::new() };
    let relaxed = planner.relax(&whole)?;
    let mut bound = relaxed.bound;
    let mut on_hand = Vec::new();
    for (index, (_, length, width)) in job.on_hand.iter().enumerate() {
        let Some(stock) = StripStock::new(*length, *width, rules.clone()) else {
            // What it could be worth is not known: the area bound, which counts it, stands alone.
            bound = 0.0;
            continue;
        };
        let prices: Vec<f64> = relaxed.prices.iter().map(|p| p / job.length as f64).collect();
        let (pattern, ceiling) = pattern(&stock, &prices);
        bound -= ceiling;
        if !pattern.strips.is_empty() {
            on_hand.push(Committed { stock: index + 1, pattern });
        }
    }
    let bound = master::whole_sheets(bound.max(job.area_bound()));
    let kerf = job.joint_rules.kerf;
    let used = relaxed.columns.iter().zip(&relaxed.amounts).filter(|(_, amount)| **amount > master::EPSILON);
    let mut strips: Vec<(usize, Ticks)> =
        used.flat_map(|(c, _)| c.record.strips.iter().map(|s| (s.height, s.run - kerf))).collect();
    strips.sort_unstable();
    strips.dedup();
    Some(Relaxed { planner: Some(planner), on_hand, bound, strips })
}

fn pattern(stock: &StripStock, prices: &[f64]) -> (Pattern, f64) {
    let (cut, ceiling) = stock.best(prices);
    let strips = stock.strips(&cut, prices);
    let yields = stock.yields(&strips);
    (Pattern { cut, strips, yields }, ceiling)
}

struct Planner<'a> {
    job: &'a Job,
    stock: StripStock,
    /// Every pattern met so far.
    known: Vec<Pattern>,
}

impl Planner<'_> {
    /// Solves the relaxation for lengths still bare, in units of one sheet length.
    fn relax(&mut self, bare: &[f64]) -> Option<Relaxation<Pattern>> {
        let unit = self.job.length as f64;
        let demand: Vec<f64> = bare.iter().map(|b| b / unit).collect();
        if self.known.is_empty() {
            for height in 0..bare.len() {
                let mut prices = vec![0.0; bare.len()];
                prices[height] = 1.0 / unit;
                let (alone, _) = pattern(&self.stock, &prices);
                self.known.push(alone);
            }
        }
        let start = self.known.iter().map(|p| column(p, unit)).collect();
        let relaxed = master::relax(&demand, start, 300, |prices| {
            let scaled: Vec<f64> = prices.iter().map(|p| p / unit).collect();
            let (found, ceiling) = pattern(&self.stock, &scaled);
            Some(Priced { column: column(&found, unit), ceiling })
        })?;
        self.known = relaxed.columns.iter().map(|c| c.record.clone()).collect();
        Some(relaxed)
    }

    /// Adds sheets until nothing is bare or nothing more helps, then leaves out what proves spare.
    fn round(&mut self, mut committed: Vec<Committed>) -> (Vec<Committed>, Laid) {
        let mut least_bare = Ticks::MAX;
        let mut stuck = 0;
        let mut laid = self.lay(&committed);
        for _ in 0..ROUNDS {
            let total: Ticks = laid.1.iter().map(|b| b.1).sum();
            if total == 0 || stuck > 8 {
                break;
            }
            stuck = if total < least_bare { 0 } else { stuck + 1 };
            least_bare = least_bare.min(total);
            let by_height: Vec<f64> = laid.0.iter().map(|a| a.bare_length() as f64).collect();
            // What the relaxation does not bring forward is helped by a sheet of its own.
            let added = if stuck > 3 {
                self.add_alone(&by_height, &mut committed)
            } else {
                self.add(&by_height, &mut committed)
            };
            if !added {
                break;
            }
            laid = self.lay(&committed);
        }
        if laid.1.is_empty() {
            self.drop_spare(&mut committed);
            laid = self.lay(&committed);
        }
        (committed, laid)
    }

    /// Commits the whole part of the relaxation, or else the one pattern that helps most.
    fn add(&mut self, bare: &[f64], committed: &mut Vec<Committed>) -> bool {
        let Some(relaxed) = self.relax(bare) else {
            return false;
        };
        let before = committed.len();
        for (column, &amount) in relaxed.columns.iter().zip(&relaxed.amounts) {
            let whole = (amount + master::EPSILON).floor() as usize;
            let sheet = Committed { stock: 0, pattern: column.record.clone() };
            committed.extend(std::iter::repeat_n(sheet, whole));
        }
        if committed.len() > before {
            return true;
        }
        let candidates = self.candidates(bare, &relaxed.prices);
        let help = |p: &Pattern| -> f64 {
            let terms = p.yields.iter().zip(bare).zip(&relaxed.prices);
            // Some worth beyond the need breaks ties toward patterns with length to spare.
            terms.map(|((y, b), price)| price * (y.min(*b) + 1e-3 * (y - b).clamp(0.0, *b))).sum()
        };
        let mut best: Option<(f64, Pattern)> = None;
        for candidate in candidates {
            let value = help(&candidate);
            if value > 0.0 && best.as_ref().is_none_or(|b| value > b.0 + 1e-9) {
                best = Some((value, candidate));
            }
        }
        let found = best.is_some();
        committed.extend(best.map(|(_, pattern)| Committed { stock: 0, pattern }));
        found
    }

    /// Commits for every height still bare a sheet cut for that height alone.
    fn add_alone(&self, bare: &[f64], committed: &mut Vec<Committed>) -> bool {
        let before = committed.len();
        for (height, _) in bare.iter().enumerate().filter(|(_, b)| **b > 0.0) {
            let mut prices = vec![0.0; bare.len()];
            prices[height] = 1.0 / self.job.length as f64;
            let (pattern, _) = pattern(&self.stock, &prices);
            if !pattern.strips.is_empty() {
                committed.push(Committed { stock: 0, pattern });
            }
        }
        committed.len() > before
    }

    /// Known patterns, and those best for groups of the few heights with most still bare.
    fn candidates(&self, bare: &[f64], prices: &[f64]) -> Vec<Pattern> {
        let unit = self.job.length as f64;
        let mut open: Vec<usize> = (0..bare.len()).filter(|&i| bare[i] > 0.0).collect();
        let worth = |i: usize| prices[i] * bare[i];
        open.sort_by(|&a, &b| worth(b).total_cmp(&worth(a)).then(a.cmp(&b)));
        open.truncate(GROUPED);
        // Laying loses a little at every wall's end.
        let spare = (self.job.joint_rules.least_piece + 2 * self.job.joint_rules.kerf) as f64;
        let need: Vec<f64> = bare.iter().map(|&b| if b > 0.0 { b + spare } else { 0.0 }).collect();
        let mut found = self.known.clone();
        for group in 1..1_usize << open.len() {
            // The others count for a little, so that what is left of the sheet is still used.
            let mut scaled: Vec<f64> = prices.iter().map(|p| p.max(1e-6) * 0.2 / unit).collect();
            for (bit, &i) in open.iter().enumerate() {
                if group >> bit & 1 == 1 {
                    scaled[i] *= 5.0;
                }
            }
            let (cut, strips) = self.stock.fill(&scaled, &need);
            let yields = self.stock.yields(&strips);
            found.push(Pattern { cut, strips, yields });
        }
        found
    }

    /// Lays the committed strips along all walls.
    fn lay(&self, committed: &[Committed]) -> Laid {
        let mut by_height: Vec<Vec<Strip>> = vec![Vec::new(); self.job.heights.len()];
        let placed = committed.iter().flat_map(|c| &c.pattern.strips);
        for (id, strip) in placed.enumerate() {
            by_height[strip.height].push(strip_of(id, strip));
        }
        let assigned: Vec<Assignment> = self
            .job
            .stretches
            .iter()
            .zip(&by_height)
            .map(|(stretches, strips)| assign::assign(stretches, strips, self.job.joint_rules))
            .collect();
        let bare = assigned
            .iter()
            .zip(&self.job.stretches)
            .flat_map(|(a, s)| a.bare.iter().map(|&(i, length)| (s[i].run, length)))
            .collect();
        (assigned, bare)
    }

    /// Leaves out any sheet the walls can do without, last first; a handful of tries.
    fn drop_spare(&self, committed: &mut Vec<Committed>) {
        for at in (0..committed.len()).rev().take(12) {
            let kept = committed.remove(at);
            if !self.lay(committed).1.is_empty() {
                committed.insert(at, kept);
            }
        }
    }
}

fn column(pattern: &Pattern, unit: f64) -> Column<Pattern> {
    Column { yields: pattern.yields.iter().map(|y| y / unit).collect(), record: pattern.clone() }
}

fn sheets(job: &Job, committed: &[Committed], assigned: &[Assignment]) -> Vec<RawSheet> {
    let kerf = job.joint_rules.kerf;
    let mut takes: Vec<Vec<&assign::Take>> = vec![Vec::new(); committed.iter().map(|c| c.pattern.strips.len()).sum()];
    for take in assigned.iter().flat_map(|a| &a.takes) {
        takes[take.strip].push(take);
    }
    let mut first = 0;
    let mut sheets = Vec::new();
    for c in committed {
        let strips = &c.pattern.strips;
        let here = &takes[first..first + strips.len()];
        first += strips.len();
        let (source, length, width) = match c.stock.checked_sub(1) {
            None => (SheetSource::Bought, job.length, job.width),
            Some(i) => {
                let (name, length, width) = &job.on_hand[i];
                (SheetSource::OnHand(name.clone()), *length, *width)
            }
        };
        let pieces: Vec<_> = strips
            .iter()
            .zip(here)
            .flat_map(|(s, takes)| takes.iter().map(|t| raw_piece(t, s, job.heights[s.height])))
            .collect();
        if pieces.is_empty() {
            continue;
        }
        let free = strips::free(&c.pattern.cut, &|x, y| {
            let at = strips.iter().position(|s| s.x == x && s.y == y)?;
            (!here[at].is_empty()).then(|| UsedStrip {
                strip: strips[at],
                height: job.heights[strips[at].height] + kerf,
                left: left_of_strip(strips[at].run, kerf, &here[at]),
            })
        });
        sheets.push(RawSheet { source, length, width, pieces, free });
    }
    sheets
}
