//! From heights in the building to heights on paper, with a stretch left out of a tall wall where nothing changes.

use uom::si::length::inch;
use wythe_model::Length;

use super::super::scale::{self, on_paper};
use wythe_units::UnitSystem;

/// How much of a tall wall is left out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct LeftOut {
    /// Its upper end above the datum.
    pub high: Length,
    /// Its lower end.
    pub low: Length,
}

/// Room the break lines take on paper.
pub(crate) const BREAK: f64 = 3.0;

/// Heights on paper.
#[derive(Clone, Copy, Debug)]
pub(crate) struct View {
    /// How many times smaller than life.
    pub scale: u32,
    /// What is nought on paper.
    pub zero: Length,
    /// What is left out.
    pub left_out: Option<LeftOut>,
}

impl View {
    /// A length on paper.
    pub fn mm(&self, length: Length) -> f64 {
        on_paper(length, self.scale)
    }

    /// The height on paper of an elevation; down is positive.
    pub fn y(&self, elevation: Length) -> f64 {
        let plain = |e: Length| self.mm(self.zero - e);
        let Some(out) = self.left_out else { return plain(elevation) };
        let (upper, lower) = (plain(out.high), plain(out.low));
        let y = plain(elevation);
        if y <= upper {
            y
        } else if y >= lower {
            y - (lower - upper) + BREAK
        } else {
            upper + BREAK * (y - upper) / (lower - upper)
        }
    }

    /// The view of a wall between two elevations in a room on paper, nothing left out where a customary scale from
    /// `largest` to `smallest` fits; else the middle of its longest stretch without a feature is left out.
    pub fn fitting(
        system: UnitSystem,
        (largest, smallest): (u32, u32),
        (top, bottom): (Length, Length),
        features: &[Length],
        room: f64,
    ) -> View {
        let scale = scale::fitting(system, largest, smallest, &[(top - bottom, room)]);
        let mut view = View { scale, zero: top, left_out: None };
        let over = view.mm(top - bottom) - room;
        if over <= 0.0 {
            return view;
        }
        let mut at: Vec<Length> = features.iter().copied().filter(|e| *e < top && *e > bottom).collect();
        at.extend([top, bottom]);
        at.sort_by(|a, b| b.value.total_cmp(&a.value));
        let longest = at.windows(2).max_by(|a, b| (a[0] - a[1]).value.total_cmp(&(b[0] - b[1]).value));
        if let Some(&[high, low]) = longest {
            let keep = Length::new::<inch>(7.0);
            let spare = high - low - keep * 2.0;
            let wanted = Length::new::<uom::si::length::millimeter>((over + BREAK) * f64::from(scale));
            let cut = wanted.min(spare);
            if cut > keep {
                let middle = (high + low) / 2.0;
                view.left_out = Some(LeftOut { high: middle + cut / 2.0, low: middle - cut / 2.0 });
            }
        }
        view
    }
}

#[cfg(test)]
mod tests {
    use uom::si::length::foot;

    use super::*;

    #[test]
    fn a_tall_wall_loses_its_middle_and_a_low_one_nothing() {
        let ft = Length::new::<foot>;
        let low = View::fitting(UnitSystem::Us, (12, 16), (ft(0.0), ft(-4.0)), &[], 150.0);
        assert_eq!((low.scale, low.left_out), (12, None));
        let tall = View::fitting(UnitSystem::Us, (12, 16), (ft(0.0), ft(-20.0)), &[ft(-1.0)], 150.0);
        assert_eq!(tall.scale, 16);
        assert!(tall.left_out.is_some());
        assert!((tall.y(ft(-20.0)) - 150.0).abs() < 0.01);
        let ys: Vec<f64> = (0..=200).map(|i| tall.y(ft(-f64::from(i) / 10.0))).collect();
        assert!(ys.windows(2).all(|w| w[1] > w[0]));
    }
}
