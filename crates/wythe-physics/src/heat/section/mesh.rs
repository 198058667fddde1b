//! Graded mesh lines: fine at every edge of a material, growing away from it.

use uom::si::f64::{Length, Ratio};

use super::shape::{Rectangle, Section};
use crate::admit;
use crate::error::Result;

/// How finely a section is divided.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fineness {
    /// Width of the cells next to an edge.
    pub finest: Length,
    /// Widest cell allowed.
    pub coarsest: Length,
    /// Growth from one cell to the next, 1 for an even mesh.
    pub growth: Ratio,
}

/// The mesh lines of a section.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Lines {
    pub(crate) x: Vec<f64>,
    pub(crate) y: Vec<f64>,
}

/// Divides a section along all edges of its rectangles.
pub(crate) fn divide(section: &Section, fineness: &Fineness) -> Result<Lines> {
    let finest = admit::positive("finest cell", fineness.finest.value, "m")?;
    let coarsest = admit::positive("coarsest cell", fineness.coarsest.value, "m")?;
    let growth = admit::within("growth of cells", fineness.growth.value, 1.0, 3.0, "")?;
    let lines = |edges: fn(&Rectangle) -> [f64; 2]| {
        let mut all: Vec<f64> = section.rectangles.iter().flat_map(edges).collect();
        all.sort_by(f64::total_cmp);
        all.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
        let mut out = Vec::new();
        for pair in all.windows(2) {
            subdivide(pair[0], pair[1], finest, coarsest.max(finest), growth, &mut out);
        }
        out.extend(all.last());
        out
    };
    let x = lines(|r| [r.left.value, r.right.value]);
    let y = lines(|r| [r.bottom.value, r.top.value]);
    let cells = x.len().saturating_sub(1) * y.len().saturating_sub(1);
    admit::within("number of mesh cells", cells as f64, 1.0, 400_000.0, "")?;
    Ok(Lines { x, y })
}

/// Pushes the left end and the inner lines of one interval: cells grow from both ends toward the
/// middle, and are scaled to fit.
fn subdivide(a: f64, b: f64, finest: f64, coarsest: f64, growth: f64, out: &mut Vec<f64>) {
    let length = b - a;
    let mut half = Vec::new();
    let mut covered = 0.0;
    let mut width = finest;
    while covered < 0.5 * length && half.len() < 10_000 {
        half.push(width);
        covered += width;
        width = (width * growth).min(coarsest);
    }
    let scale = 0.5 * length / covered;
    let widths = half.iter().chain(half.iter().rev());
    let mut at = a;
    for width in widths {
        out.push(at);
        at += width * scale;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn cells_fill_the_interval_in_order(
            length in 0.01f64..50.0, finest in 0.005f64..0.5, growth in 1.0f64..2.0
        ) {
            let mut out = Vec::new();
            subdivide(1.0, 1.0 + length, finest, 5.0, growth, &mut out);
            out.push(1.0 + length);
            prop_assert!(out.windows(2).all(|w| w[1] > w[0]));
            prop_assert!(out.windows(2).all(|w| w[1] - w[0] < 5.0 + 1e-9));
            prop_assert!((out[1] - out[0]) <= finest * (1.0 + 1e-9));
        }
    }
}
