//! Lengths in findings about the house: feet and inches to the nearest sixteenth, as the language writes them.

use std::fmt;

use uom::si::length::meter;
use wythe_model::Length;
use wythe_units::{Scalar, format_feet_inches};

/// Shows a length as `3' 4-1/2"`.
#[derive(Clone, Copy)]
pub(super) struct Feet(pub Length);

impl fmt::Display for Feet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let scalar = Scalar::approx(self.0.get::<meter>()).ok();
        match scalar.and_then(|s| format_feet_inches(s, 16)) {
            Some((text, _)) => f.pad(&text),
            None => f.pad("a length past all measure"),
        }
    }
}
