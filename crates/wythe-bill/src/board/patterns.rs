//! Sheets that are cut alike, so that the crew sets up once for all of them.

use std::collections::BTreeMap;

use uom::si::length::meter;
use wythe_model::Length;
use wythe_takeoff::nest::{CutPlan, SheetLayout};

/// Sheets that are cut alike.
#[derive(Clone, Debug)]
pub struct CutPattern<'a> {
    /// From 1, in the order of the first sheet of each.
    pub number: usize,
    /// The sheets, in the order of cutting; at least one. Their pieces stand in the same order.
    pub sheets: Vec<&'a SheetLayout>,
}

/// The sheets of a plan by the way they are cut.
pub fn cut_patterns(plan: &CutPlan) -> Vec<CutPattern<'_>> {
    let mut known: BTreeMap<Vec<[i64; 4]>, usize> = BTreeMap::new();
    let mut out: Vec<CutPattern<'_>> = Vec::new();
    for sheet in &plan.sheets {
        // To a hundredth of a millimeter: finer than any saw.
        let grid = |l: Length| (l.get::<meter>() * 1e5).round() as i64;
        let mut key = vec![[grid(sheet.size.length), grid(sheet.size.width), 0, 0]];
        key.extend(sheet.pieces.iter().map(|p| [grid(p.x), grid(p.y), grid(p.along), grid(p.across)]));
        match known.get(&key) {
            Some(&at) => out[at].sheets.push(sheet),
            None => {
                known.insert(key, out.len());
                out.push(CutPattern { number: out.len() + 1, sheets: vec![sheet] });
            }
        }
    }
    out
}
