//! The cut list of each board, all houses of a job together.

use std::collections::BTreeMap;
use std::sync::Arc;

use uom::si::f64::{Length, Ratio};
use uom::si::ratio::ratio;
use wythe_findings::{Finding, codes};
use wythe_model::Product;
use wythe_model::geometry::hair;
use wythe_source::Symbol;
use wythe_takeoff::nest::cover::{self, CoverRules, JointEdge, Run};
use wythe_takeoff::nest::{CutPiece, CutPlan, LeastOffcut, NestError, Sheet};

use super::runs::BoardRun;
use crate::Terms;

/// The cut list of one board.
#[derive(Clone, Debug, PartialEq)]
pub struct BoardPlan {
    /// The board.
    pub product: Arc<Product>,
    /// Its sheet.
    pub sheet: Sheet,
    /// The runs it covers; a run higher than the sheet is split into rows.
    pub runs: Vec<BoardRun>,
    /// How they are cut.
    pub plan: CutPlan,
    /// The runs by the name on their pieces.
    by_mark: BTreeMap<String, usize>,
}

impl BoardPlan {
    /// The run a piece is cut for.
    pub fn run_of(&self, piece: &CutPiece) -> Option<&BoardRun> {
        self.runs.get(*self.by_mark.get(&piece.mark)?)
    }

    /// The openings to be cut out of a piece, each from the start of the piece.
    pub fn notches(&self, piece: &CutPiece) -> Vec<super::Notch> {
        let Some(run) = self.run_of(piece) else { return Vec::new() };
        let end = piece.at + piece.length();
        let cut = run.notches.iter().filter_map(|n| {
            let (from, to) = (n.at.max(piece.at), (n.at + n.width).min(end));
            (to > from + hair()).then(|| super::Notch { at: from - piece.at, width: to - from, ..*n })
        });
        cut.collect()
    }
}

/// Plans every board of the runs, by product name. What cannot be planned is found, and the rest still comes out.
pub fn plans(runs: Vec<BoardRun>, terms: &Terms, findings: &mut Vec<Finding>) -> Vec<BoardPlan> {
    let mut by_product: BTreeMap<Symbol, Vec<BoardRun>> = BTreeMap::new();
    for run in runs {
        by_product.entry(run.product.name).or_default().push(run);
    }
    let mut products: Vec<Vec<BoardRun>> = by_product.into_values().collect();
    products.sort_by_key(|r| r.first().map(|r| r.product.name.as_str()));
    products.into_iter().filter_map(|runs| plan(runs, terms, findings)).collect()
}

fn plan(runs: Vec<BoardRun>, terms: &Terms, findings: &mut Vec<Finding>) -> Option<BoardPlan> {
    let product = runs.first()?.product.clone();
    let Some((a, b)) = product.size else {
        findings.push(
            Finding::new(codes::PURCHASE_UNKNOWN, product.origin, format!("`{}` has no size", product.name))
                .label("no cut list without a sheet")
                .mend("write the sheet's `size`, such as `4' x 8'`"),
        );
        return None;
    };
    let sheet = Sheet { length: a.max(b), width: a.min(b) };
    let turn = terms.turn && !terms.factory_joints;
    let runs: Vec<BoardRun> = runs.into_iter().flat_map(|run| rows(run, sheet, turn)).collect();
    let rules = CoverRules {
        kerf: product.kerf.unwrap_or_default(),
        least_piece: terms.least_piece.min(sheet.width),
        least_offcut: LeastOffcut { short: terms.offcut_least.0, long: terms.offcut_least.1 },
        turn,
        joints: if terms.factory_joints { JointEdge::Factory } else { JointEdge::Any },
        joint_clearance: clearance(),
    };
    let wanted: Vec<Run> = runs
        .iter()
        .map(|r| Run { name: r.mark.clone(), length: r.length(), height: r.height(), no_joint_at: barred(r) })
        .collect();
    match best(sheet, &runs, &wanted, &rules) {
        Ok(plan) => {
            for left in &plan.unplaced {
                let run = runs.iter().find(|r| r.mark == left.mark);
                let origin = run.map_or(product.origin, |r| r.origin);
                findings.push(
                    Finding::new(codes::BOARD_NOT_CUT, origin, format!("`{}` is not in the cut list", left.mark))
                        .label(left.reason.to_string())
                        .related(product.origin, "the sheet it is cut from"),
                );
            }
            let by_mark = runs.iter().enumerate().map(|(i, r)| (r.mark.clone(), i)).collect();
            Some(BoardPlan { product, sheet, runs, plan, by_mark })
        }
        Err(error) => {
            findings.push(
                Finding::new(codes::BOARD_NOT_CUT, product.origin, format!("`{}` cannot be cut", product.name))
                    .label(error.to_string()),
            );
            None
        }
    }
}

/// The houses planned together, or one after another where that takes fewer sheets.
fn best(sheet: Sheet, runs: &[BoardRun], wanted: &[Run], rules: &CoverRules) -> Result<CutPlan, NestError> {
    let together = cover::plan(sheet, wanted, rules, &[])?;
    let mut houses: Vec<usize> = runs.iter().map(|r| r.house).collect();
    houses.dedup();
    // What is within a hundredth of the bound is not worth a second look at every house.
    let close = together.gap() <= Ratio::new::<ratio>(0.01);
    if houses.len() < 2 || close && together.is_complete() {
        return Ok(together);
    }
    let mut apart = CutPlan { sheets: Vec::new(), bought: 0, bound: together.bound, unplaced: Vec::new() };
    for house in houses {
        let mine: Vec<Run> =
            runs.iter().zip(wanted).filter(|(r, _)| r.house == house).map(|(_, w)| w.clone()).collect();
        let plan = cover::plan(sheet, &mine, rules, &[])?;
        apart.bought += plan.bought;
        apart.unplaced.extend(plan.unplaced);
        apart.sheets.extend(plan.sheets);
    }
    let mut number = 0;
    for (index, sheet) in apart.sheets.iter_mut().enumerate() {
        sheet.number = index + 1;
        for piece in &mut sheet.pieces {
            number += 1;
            piece.number = number;
        }
    }
    let worth = |plan: &CutPlan| (plan.unplaced.len(), plan.bought);
    Ok(if worth(&apart) < worth(&together) { apart } else { together })
}

/// A run higher than the sheet is long, or than it is wide where strips are not turned, in rows from the floor up.
fn rows(run: BoardRun, sheet: Sheet, turn: bool) -> Vec<BoardRun> {
    let limit = if turn { sheet.length } else { sheet.width };
    if run.height() <= limit + hair() || sheet.width <= hair() {
        return vec![run];
    }
    let count = (run.height() / sheet.width).value.ceil();
    // A wall of a thousand rows is a slip of the pen; the planner says that the run is larger than the sheet.
    if !(count.is_finite() && count < 1000.0) {
        return vec![run];
    }
    let mut out = Vec::new();
    let mut low = run.low;
    let mut number = 1;
    while run.high > low + hair() {
        let high = (low + sheet.width).min(run.high);
        let row = BoardRun { low, high, mark: format!("{} row {number}", run.mark), ..run.clone() };
        let up = low - run.low;
        let notches = run.notches.iter().filter_map(|n| {
            let (from, to) = (n.up.max(up), (n.up + n.height).min(up + row.height()));
            (to > from + hair()).then(|| super::Notch { up: from - up, height: to - from, ..*n })
        });
        let notches = notches.collect();
        out.push(BoardRun { notches, ..row });
        low = high;
        number += 1;
    }
    out
}

/// Joints keep this far from a place where they are barred (common practice, no source).
fn clearance() -> Length {
    Length::new::<uom::si::length::inch>(2.0)
}

/// No joint falls into an opening cut out of a board: places twice the clearance apart over its whole width.
fn barred(run: &BoardRun) -> Vec<Length> {
    let step = clearance() * 2.0;
    let mut out = Vec::new();
    for notch in &run.notches {
        let mut at = notch.at;
        let end = notch.at + notch.width;
        while at < end && out.len() < 1000 {
            out.push(at);
            at += step;
        }
        out.push(end);
    }
    out
}
