//! Exact lengths for cutting: a whole number of ticks, so that sums of pieces and kerfs never drift.
//! One tick is 1/640 mm: 1/128 in is 127 ticks and 1 mm is 640, so both tapes land on whole ticks.

use uom::si::f64::Length;
use uom::si::length::meter;

/// A length in ticks of 1/640 mm.
pub(crate) type Ticks = i64;

const PER_METER: f64 = 640_000.0;

/// Longest length accepted, 100 km: far past any building, far inside exact `f64` and `i64`.
const LONGEST_METERS: f64 = 100_000.0;

/// The nearest whole tick, or nothing for a length that is not finite or is out of range.
pub(crate) fn ticks(length: Length) -> Option<Ticks> {
    let meters = length.get::<meter>();
    if !meters.is_finite() || meters.abs() > LONGEST_METERS {
        return None;
    }
    Some((meters * PER_METER).round() as Ticks)
}

/// A strictly positive length in ticks.
pub(crate) fn positive(length: Length) -> Option<Ticks> {
    ticks(length).filter(|&t| t > 0)
}

/// A length of nought or more in ticks.
pub(crate) fn not_negative(length: Length) -> Option<Ticks> {
    ticks(length).filter(|&t| t >= 0)
}

/// Back from ticks.
pub(crate) fn length(ticks: Ticks) -> Length {
    Length::new::<meter>(ticks as f64 / PER_METER)
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::length::{foot, inch, millimeter};

    #[test]
    fn both_tapes_land_on_whole_ticks() {
        assert_eq!(ticks(Length::new::<inch>(1.0 / 128.0)), Some(127));
        assert_eq!(ticks(Length::new::<millimeter>(1.0)), Some(640));
        assert_eq!(ticks(Length::new::<foot>(8.0)), ticks(Length::new::<inch>(96.0)));
    }

    #[test]
    fn what_is_not_a_length_is_refused() {
        assert_eq!(ticks(Length::new::<foot>(f64::NAN)), None);
        assert_eq!(ticks(Length::new::<foot>(f64::INFINITY)), None);
        assert_eq!(positive(Length::new::<foot>(0.0)), None);
        assert_eq!(not_negative(Length::new::<foot>(-1.0)), None);
    }
}
