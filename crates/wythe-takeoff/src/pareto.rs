//! What-if tables: which outcomes nothing else beats.

use std::cmp::Ordering;

/// Whether less or more of an outcome is better.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aim {
    /// Cost, sheets, days.
    Least,
    /// R-value.
    Most,
}

/// For each row whether no other row is at least as good in every outcome and better in one.
/// A row with an outcome that is missing (or cannot be compared) is not marked and beats nothing;
/// so is a row with another number of outcomes than there are aims.
pub fn unbeaten<V: PartialOrd>(rows: &[Vec<Option<V>>], aims: &[Aim]) -> Vec<bool> {
    let whole: Vec<bool> = rows.iter().map(|r| is_whole(r, aims)).collect();
    (0..rows.len()).map(|i| whole[i] && !(0..rows.len()).any(|j| whole[j] && beats(&rows[j], &rows[i], aims))).collect()
}

fn is_whole<V: PartialOrd>(row: &[Option<V>], aims: &[Aim]) -> bool {
    // A value that does not equal itself is not a number and has no place in an order.
    row.len() == aims.len() && row.iter().all(|v| v.as_ref().is_some_and(|v| v.partial_cmp(v) == Some(Ordering::Equal)))
}

fn beats<V: PartialOrd>(a: &[Option<V>], b: &[Option<V>], aims: &[Aim]) -> bool {
    let mut better = false;
    for ((x, y), aim) in a.iter().zip(b).zip(aims) {
        let order = match aim {
            Aim::Least => y.partial_cmp(x),
            Aim::Most => x.partial_cmp(y),
        };
        match order {
            Some(Ordering::Greater) => better = true,
            Some(Ordering::Equal) => {}
            _ => return false,
        }
    }
    better
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn cost_against_r() {
        let rows = vec![
            vec![Some(100.0), Some(5.0)],
            vec![Some(140.0), Some(10.0)],
            vec![Some(150.0), Some(9.0)],
            vec![Some(90.0), None],
            vec![Some(f64::NAN), Some(99.0)],
            vec![Some(100.0), Some(5.0)],
        ];
        let marks = unbeaten(&rows, &[Aim::Least, Aim::Most]);
        assert_eq!(marks, [true, true, false, false, false, true]);
    }

    proptest! {
        #[test]
        fn every_unmarked_row_is_beaten_by_a_marked_one(
            rows in prop::collection::vec(prop::collection::vec((0_i32..6).prop_map(Some), 3), 1..20),
        ) {
            let aims = [Aim::Least, Aim::Most, Aim::Least];
            let marks = unbeaten(&rows, &aims);
            prop_assert!(marks.contains(&true));
            for (i, marked) in marks.iter().enumerate() {
                let beaten = (0..rows.len()).any(|j| marks[j] && beats(&rows[j], &rows[i], &aims));
                prop_assert_eq!(*marked, !beaten);
            }
        }
    }
}
