//! Anchors in the pieces really cut: no farther apart than in a whole sheet, off the edges, and never too few.
//! A pattern for holding a piece in place; no strength is computed.

use uom::si::f64::Length;
use wythe_takeoff::nest::Sheet;
use wythe_takeoff::purchase::{FastenerRules, fasteners_for_piece};

/// The fewest anchors in any piece (common practice, no source).
const LEAST: u32 = 2;

/// Anchors in a piece, for a number a whole sheet: the pattern's spacing is that of the evenest rows of so many in a
/// whole sheet, and no piece has fewer than its share of area. `None` where a size is of no use.
pub fn anchors_in_piece(length: Length, height: Length, each: f64, sheet: Sheet, edge: Length) -> Option<u64> {
    if !(each.is_finite() && (1.0..10_000.0).contains(&each)) {
        return None;
    }
    let spacing = spacing(each as u32, sheet, edge)?;
    let edge = edge.min(length.min(height) / 2.0);
    let rules = FastenerRules { spacing, edge, least: LEAST };
    let grid = fasteners_for_piece(length, height, &rules).ok()?;
    let share = ((length * height) / (sheet.length * sheet.width)).value * each;
    let share = if share.is_finite() { (share - 1e-6).ceil().max(0.0) as u64 } else { 0 };
    Some(grid.max(share))
}

/// The greatest spacing in a whole sheet with so many anchors, in the rows that make it least.
fn spacing(each: u32, sheet: Sheet, edge: Length) -> Option<Length> {
    let gap = |along: Length, places: u32| {
        if places > 1 { (along - edge * 2.0) / f64::from(places - 1) } else { along }
    };
    let best = (1..=each).map(|rows| gap(sheet.width, rows).max(gap(sheet.length, each / rows))).reduce(Length::min)?;
    (best > Length::default()).then_some(best)
}

#[cfg(test)]
mod tests {
    use uom::si::f64::Length;
    use uom::si::length::inch;
    use wythe_takeoff::nest::Sheet;

    use super::anchors_in_piece;

    fn count(length: f64, height: f64, each: f64) -> Option<u64> {
        let i = Length::new::<inch>;
        anchors_in_piece(i(length), i(height), each, Sheet { length: i(96.0), width: i(48.0) }, i(6.0))
    }

    /// Six in a sheet: two rows of three, 42 in apart, 6 in off the edges.
    #[test]
    fn a_whole_sheet_has_its_number_and_a_piece_the_same_pattern() {
        assert_eq!(count(96.0, 48.0, 6.0), Some(6));
        // 28 in high: 84 in between the outer ones is two gaps; 16 in up is one: 3 x 2.
        assert_eq!(count(96.0, 28.0, 6.0), Some(6));
        // 40 in long: 28 in between is one gap: 2 x 2.
        assert_eq!(count(40.0, 28.0, 6.0), Some(4));
        // 12 in long: one column of two.
        assert_eq!(count(12.0, 28.0, 6.0), Some(2));
    }

    #[test]
    fn a_sliver_has_two_and_nonsense_none() {
        assert_eq!(count(8.0, 8.0, 6.0), Some(2));
        assert_eq!(count(0.0, 8.0, 6.0), None);
        assert_eq!(count(96.0, 48.0, f64::NAN), None);
    }
}
