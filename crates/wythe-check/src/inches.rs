//! Lengths in findings: inches to the nearest sixteenth, as a tape measure shows them.

use std::fmt;

use uom::si::length::inch;
use wythe_model::Length;

/// Shows a length in inches to the nearest sixteenth: `9-1/4 in`.
#[derive(Clone, Copy, Debug)]
pub struct Inches(pub Length);

impl fmt::Display for Inches {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let inches = self.0.get::<inch>();
        if !inches.is_finite() || inches.abs() > 1e9 {
            return f.write_str("an unknown length");
        }
        let sixteenths = (inches.abs() * 16.0).round() as u64;
        let (whole, rest) = (sixteenths / 16, sixteenths % 16);
        if inches < 0.0 && sixteenths > 0 {
            f.write_str("-")?;
        }
        if rest == 0 {
            return write!(f, "{whole} in");
        }
        let (mut top, mut bottom) = (rest, 16);
        while top % 2 == 0 {
            top /= 2;
            bottom /= 2;
        }
        if whole == 0 { write!(f, "{top}/{bottom} in") } else { write!(f, "{whole}-{top}/{bottom} in") }
    }
}

#[cfg(test)]
mod tests {
    use uom::si::length::inch;

    use super::{Inches, Length};

    #[test]
    fn shows_sixteenths_in_lowest_terms() {
        let show = |v: f64| Inches(Length::new::<inch>(v)).to_string();
        assert_eq!(show(12.0), "12 in");
        assert_eq!(show(9.25), "9-1/4 in");
        assert_eq!(show(0.4375), "7/16 in");
        assert_eq!(show(-2.5), "-2-1/2 in");
        assert_eq!(show(-0.001), "0 in");
        assert_eq!(show(f64::NAN), "an unknown length");
    }
}
