//! Strips of a range that no layer covers.

use crate::levels::{Range, hair};

/// The parts of a range that none of the others covers, from the top down; parts thinner than a hair are nothing.
pub(crate) fn uncovered(whole: Range, covers: &[Range]) -> Vec<Range> {
    let mut sorted: Vec<Range> = covers.iter().copied().filter(|r| r.high > r.low && r.high > whole.low).collect();
    sorted.sort_by(|a, b| b.high.value.total_cmp(&a.high.value).then(a.low.value.total_cmp(&b.low.value)));
    let mut out = Vec::new();
    let mut at = whole.high;
    for range in sorted {
        if at - range.high > hair() {
            out.push(Range { low: range.high, high: at });
        }
        at = at.min(range.low);
        if at <= whole.low + hair() {
            return out;
        }
    }
    if at - whole.low > hair() {
        out.push(Range { low: whole.low, high: at });
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture::inches;

    fn range(low: f64, high: f64) -> Range {
        Range { low: inches(low), high: inches(high) }
    }

    #[test]
    fn strips_are_what_is_left_bare() {
        let whole = range(-32.0, 0.0);
        assert_eq!(uncovered(whole, &[]), [whole]);
        assert_eq!(uncovered(whole, &[range(-40.0, 1.0)]), []);
        assert_eq!(
            uncovered(whole, &[range(-20.0, -4.0), range(-30.0, -18.0)]),
            [range(-4.0, 0.0), range(-32.0, -30.0)]
        );
        assert_eq!(uncovered(whole, &[range(-60.0, -40.0)]), [whole]);
    }
}
