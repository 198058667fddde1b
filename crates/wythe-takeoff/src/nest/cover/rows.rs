//! Runs cut in whole rows along the sheet: for joints of factory edges, and for orders with more
//! different heights than patterns can be tabulated for.

use super::{Job, Outcome, left_of_strip, raw_piece};
use crate::grid::Ticks;
use crate::nest::assign::{self, Assignment, Strip, Take};
use crate::nest::bars::{self, BarPlan};
use crate::nest::factory;
use crate::nest::guillotine::Rect;
use crate::nest::layout::RawSheet;
use crate::nest::master;
use crate::nest::plan::{SheetSource, UnplacedReason};
use crate::nest::strips::PlacedStrip;

/// Rows of each height, then the heights of rows cut from the sheet's width as from a bar.
/// Offcuts on hand are not used: they have no two factory ends.
pub(super) fn plan(job: &Job, factory_joints: bool) -> Outcome {
    let kerf = job.joint_rules.kerf;
    let flat: Vec<usize> = (0..job.heights.len()).filter(|&i| job.heights[i] <= job.width).collect();
    let mut rows: Vec<(usize, Vec<Strip>, Assignment)> = Vec::new();
    let mut bare = Vec::new();
    for (index, stretches) in job.stretches.iter().enumerate() {
        if !flat.contains(&index) {
            bare.extend(stretches.iter().map(|s| (s.run, s.length, UnplacedReason::NeedsTurning)));
            continue;
        }
        let (strips, assignment) = rows_for(job, index, factory_joints);
        let left = assignment.bare.iter().map(|&(i, length)| (stretches[i].run, length));
        bare.extend(left.map(|(run, length)| (run, length, UnplacedReason::NoPlaceForJoint)));
        rows.push((index, strips, assignment));
    }
    let sizes: Vec<i64> = rows.iter().map(|(i, ..)| job.heights[*i] + kerf).collect();
    let used: Vec<u32> = rows.iter().map(|(_, strips, _)| strips.len() as u32).collect();
    let plan = bars::solve(job.width + kerf, &sizes, &used);
    let bound = if factory_joints {
        let demand = job.demand();
        let least: Vec<u32> =
            rows.iter().map(|(i, ..)| (demand[*i] as u64).div_ceil(job.length as u64) as u32).collect();
        bars::solve(job.width + kerf, &sizes, &least).bound
    } else {
        0
    };
    Outcome { bound: bound.max(master::whole_sheets(job.area_bound())), sheets: sheets(job, &plan, &rows), bare }
}

/// Whole rows enough for one height, and their use.
fn rows_for(job: &Job, height: usize, factory_joints: bool) -> (Vec<Strip>, Assignment) {
    let stretches = &job.stretches[height];
    let rules = job.joint_rules;
    let row = |id| Strip { id, length: job.length + rules.kerf };
    if factory_joints {
        let count = factory::strips_needed(stretches, job.length, rules);
        let strips: Vec<Strip> = (0..count).map(row).collect();
        let assignment = factory::assign(stretches, &strips, rules);
        return (strips, assignment);
    }
    let total: Ticks = stretches.iter().map(|s| s.length).sum();
    let mut strips: Vec<Strip> = (0..(total / job.length) as usize).map(row).collect();
    loop {
        let assignment = assign::assign(stretches, &strips, rules);
        let bare = assignment.bare_length();
        if bare == 0 || strips.len() > stretches.len() + 4 * (total / job.length) as usize + 8 {
            return (strips, assignment);
        }
        let more = (bare / job.length).max(1) as usize;
        let next = strips.len();
        strips.extend((next..next + more).map(row));
    }
}

fn sheets(job: &Job, plan: &BarPlan, rows: &[(usize, Vec<Strip>, Assignment)]) -> Vec<RawSheet> {
    let kerf = job.joint_rules.kerf;
    let takes: Vec<Vec<Vec<&Take>>> = rows
        .iter()
        .map(|(_, strips, assignment)| {
            let mut by_strip = vec![Vec::new(); strips.len()];
            assignment.takes.iter().for_each(|t| by_strip[t.strip].push(t));
            by_strip
        })
        .collect();
    let mut next = vec![0; rows.len()];
    let mut sheets = Vec::new();
    for pattern in &plan.patterns {
        for _ in 0..pattern.bars {
            let mut sheet = RawSheet {
                source: SheetSource::Bought,
                length: job.length,
                width: job.width,
                pieces: Vec::new(),
                free: Vec::new(),
            };
            let mut y = 0;
            for (at, (height, strips, _)) in rows.iter().enumerate() {
                for _ in 0..pattern.counts[at] {
                    let strip = strips[next[at]];
                    next[at] += 1;
                    let placed = PlacedStrip { height: *height, x: 0, y, run: strip.length, turned: false };
                    let net = job.heights[*height];
                    let takes = &takes[at][strip.id];
                    sheet.pieces.extend(takes.iter().map(|t| raw_piece(t, &placed, net)));
                    for (start, length) in left_of_strip(strip.length, kerf, takes) {
                        sheet.free.push(Rect { x: start, y, along: length, across: net + kerf });
                    }
                    y += net + kerf;
                }
            }
            let left = job.width + kerf - y;
            sheet.free.push(Rect { x: 0, y, along: job.length + kerf, across: left });
            sheets.push(sheet);
        }
    }
    sheets
}
