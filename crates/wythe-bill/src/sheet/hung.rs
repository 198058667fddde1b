//! Strips of sheet hung on walls and wrapped round piers, cut from rolls.
//!
//! A strip is as high as the layer with its tail, and as long as the wall with one lap: neighbors overlap at corners
//! and steps. What is higher than the roll is wide is hung in rows that lap each other.

use std::collections::BTreeMap;
use std::sync::Arc;

use uom::si::f64::Length;
use wythe_findings::{Finding, codes};
use wythe_model::geometry::{Footprint, Plan, hair, strips};
use wythe_model::{Act, AssemblyId, Class, Face, Foundation, MeasuredFace, Product, SurfaceKind, Work};
use wythe_source::{Span, Symbol};
use wythe_takeoff::nest::pieces::{self, Piece, PieceRules};
use wythe_takeoff::nest::{CutPlan, LeastOffcut, Sheet};

use crate::Terms;

/// A strip to be cut.
#[derive(Clone, Debug, PartialEq)]
pub struct HungStrip {
    /// The house's number in the job.
    pub house: usize,
    /// The wall or pier.
    pub element: Symbol,
    /// The layer.
    pub layer: Symbol,
    /// The sheet.
    pub product: Arc<Product>,
    /// Where the work stands.
    pub origin: Span,
    /// The name on it.
    pub mark: String,
    /// Along the wall, lap included.
    pub length: Length,
    /// Height, tail included.
    pub width: Length,
}

/// The strips of one sheet and how they are cut from its rolls.
#[derive(Clone, Debug, PartialEq)]
pub struct HungPlan {
    /// The sheet.
    pub product: Arc<Product>,
    /// Its roll, as a long sheet.
    pub roll: Sheet,
    /// The strips.
    pub strips: Vec<HungStrip>,
    /// How they are cut.
    pub plan: CutPlan,
}

/// The strips of all houses together, by product.
pub fn hung(houses: &[(Arc<Foundation>, Plan, String)], terms: &Terms, findings: &mut Vec<Finding>) -> Vec<HungPlan> {
    let mut by_product: BTreeMap<&'static str, Vec<HungStrip>> = BTreeMap::new();
    for (house, (f, plan, prefix)) in houses.iter().enumerate() {
        for strip in of_house(f, plan, house, prefix, terms) {
            by_product.entry(strip.product.name.as_str()).or_default().push(strip);
        }
    }
    by_product.into_values().filter_map(|strips| cut(strips, terms, findings)).collect()
}

fn of_house(f: &Foundation, plan: &Plan, house: usize, prefix: &str, terms: &Terms) -> Vec<HungStrip> {
    let mut out = Vec::new();
    for (index, wall) in f.walls.iter().enumerate() {
        each_hung(f, wall.assembly, |face, work, product| {
            let side = if face.name.as_str() == "outside" { MeasuredFace::Outside } else { MeasuredFace::Inside };
            let (Some(drawn), Some(extent)) = (plan.walls.get(index), work.extent) else { return };
            let mut runs: Vec<(Length, Length)> = Vec::new();
            for strip in strips(wall, drawn.line(side)) {
                let (low, high) = extent.on(&strip.levels);
                match runs.last_mut() {
                    Some(last) if (last.1 - (high - low)).abs() < hair() => last.0 += strip.length(),
                    _ => runs.push((strip.length(), high - low)),
                }
            }
            for (number, (length, height)) in runs.iter().enumerate() {
                let part = if runs.len() > 1 { format!("/{}", number + 1) } else { String::new() };
                out.push(HungStrip {
                    house,
                    element: wall.name,
                    layer: work.layer,
                    product: product.clone(),
                    origin: work.origin,
                    mark: format!("{prefix}{}{part}", wall.name),
                    length: *length + terms.hung_lap,
                    width: *height + work.by.unwrap_or_default(),
                });
            }
        });
    }
    for pier in &f.piers {
        each_hung(f, pier.assembly, |_, work, product| {
            let Some(extent) = work.extent else { return };
            let (low, high) = extent.on(&pier.levels());
            out.push(HungStrip {
                house,
                element: pier.name,
                layer: work.layer,
                product: product.clone(),
                origin: work.origin,
                mark: format!("{prefix}{}", pier.name),
                length: Footprint::from(pier).perimeter() + terms.hung_lap,
                width: high - low + work.by.unwrap_or_default(),
            });
        });
    }
    out.retain(|s| s.length > hair() && s.width > hair());
    out
}

fn each_hung(f: &Foundation, assembly: Option<AssemblyId>, mut act: impl FnMut(&Face, &Work, &Arc<Product>)) {
    let Some(assembly) = assembly.and_then(|id| f.assemblies.get(id.0 as usize)) else { return };
    if !matches!(assembly.kind, SurfaceKind::Wall | SurfaceKind::Pier) {
        return;
    }
    for face in &assembly.faces {
        for work in &face.works {
            if let (Act::Hang, Some(product)) = (work.act, &work.product)
                && product.class == Class::Membrane
            {
                act(face, work, product);
            }
        }
    }
}

fn cut(strips: Vec<HungStrip>, terms: &Terms, findings: &mut Vec<Finding>) -> Option<HungPlan> {
    let product = strips.first()?.product.clone();
    let Some((a, b)) = product.size else {
        findings.push(
            Finding::new(codes::PURCHASE_UNKNOWN, product.origin, format!("`{}` has no size", product.name))
                .label("no strips without a roll")
                .mend("write the roll's `size`, such as `4' x 100'`"),
        );
        return None;
    };
    let roll = Sheet { length: a.max(b), width: a.min(b) };
    let strips: Vec<HungStrip> = strips.into_iter().flat_map(|s| fitted(s, roll, terms.hung_lap)).collect();
    let wanted: Vec<Piece> =
        strips.iter().map(|s| Piece { name: s.mark.clone(), length: s.length, width: s.width, count: 1 }).collect();
    let rules = PieceRules {
        kerf: Length::default(),
        least_offcut: LeastOffcut { short: terms.offcut_least.0, long: terms.offcut_least.1 },
        turn: false,
    };
    match pieces::plan(roll, &wanted, &rules) {
        Ok(plan) => {
            for left in &plan.unplaced {
                let origin = strips.iter().find(|s| s.mark == left.mark).map_or(product.origin, |s| s.origin);
                findings.push(
                    Finding::new(codes::STRIP_NOT_CUT, origin, format!("`{}` is in no roll", left.mark))
                        .label(left.reason.to_string())
                        .related(product.origin, "the roll it is cut from"),
                );
            }
            Some(HungPlan { product, roll, strips, plan })
        }
        Err(error) => {
            findings.push(
                Finding::new(codes::STRIP_NOT_CUT, product.origin, format!("`{}` cannot be cut", product.name))
                    .label(error.to_string()),
            );
            None
        }
    }
}

/// A strip in rows no higher than the roll is wide and lengths no longer than the roll, lapped.
fn fitted(strip: HungStrip, roll: Sheet, lap: Length) -> Vec<HungStrip> {
    let heights = divided(strip.width, roll.width, lap);
    let lengths = divided(strip.length, roll.length, lap);
    if heights.len() == 1 && lengths.len() == 1 {
        return vec![strip];
    }
    let mut out = Vec::new();
    for width in &heights {
        for length in &lengths {
            let mark = format!("{} ({})", strip.mark, out.len() + 1);
            out.push(HungStrip { mark, length: *length, width: *width, ..strip.clone() });
        }
    }
    out
}

/// A measure divided into parts of at most `most`, each but the first lapping the one before.
fn divided(whole: Length, most: Length, lap: Length) -> Vec<Length> {
    let step = most - lap;
    if whole <= most + hair() || step <= hair() || (whole / step).value > 10_000.0 {
        return vec![whole];
    }
    let mut out = Vec::new();
    let mut left = whole;
    while left > most + hair() {
        out.push(most);
        left -= step;
    }
    out.push(left);
    out
}
