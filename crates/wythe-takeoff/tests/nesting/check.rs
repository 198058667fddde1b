//! Re-measures a plan from its drawing alone.

use uom::si::f64::Length;
use uom::si::length::{inch, millimeter};
use wythe_takeoff::nest::{CutPlan, Sheet};

/// Rounding of feet and inches to ticks and back.
const NEAR_MM: f64 = 0.01;

pub fn inches(v: f64) -> Length {
    Length::new::<inch>(v)
}

pub fn sheet(length: f64, width: f64) -> Sheet {
    Sheet { length: inches(length), width: inches(width) }
}

fn mm(l: Length) -> f64 {
    l.get::<millimeter>()
}

/// Pieces and offcuts lie on their sheet, do not overlap, keep a kerf between pieces, and numbers run on.
pub fn drawing(plan: &CutPlan, kerf: Length) {
    let mut number = 0;
    for s in &plan.sheets {
        let mut boxes: Vec<([f64; 4], bool)> = Vec::new();
        for p in &s.pieces {
            number += 1;
            assert_eq!(p.number, number);
            boxes.push(([mm(p.x), mm(p.y), mm(p.along), mm(p.across)], true));
        }
        for o in &s.offcuts {
            boxes.push(([mm(o.x), mm(o.y), mm(o.along), mm(o.across)], false));
        }
        for (i, (a, a_is_piece)) in boxes.iter().enumerate() {
            assert!(a[0] >= -NEAR_MM && a[1] >= -NEAR_MM, "off the sheet: {a:?}");
            assert!(a[0] + a[2] <= mm(s.size.length) + NEAR_MM, "off the sheet: {a:?}");
            assert!(a[1] + a[3] <= mm(s.size.width) + NEAR_MM, "off the sheet: {a:?}");
            for (b, b_is_piece) in &boxes[..i] {
                let gap = if *a_is_piece && *b_is_piece { mm(kerf) } else { 0.0 };
                let apart =
                    (0..2).any(|k| a[k] + a[k + 2] + gap <= b[k] + NEAR_MM || b[k] + b[k + 2] + gap <= a[k] + NEAR_MM);
                assert!(apart, "{a:?} and {b:?} on sheet {}", s.number);
            }
        }
    }
    assert!(plan.bound <= plan.bought, "bound {} over plan {}", plan.bound, plan.bought);
}
