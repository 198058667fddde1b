//! Vapor retarder classes by permeance.

use super::permeance::Permeance;
use crate::admit;
use crate::error::Result;

/// Class of a vapor retarder, IRC R702.7 (2012 and later; tested by ASTM E96 procedure A).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RetarderClass {
    /// Class I: 0.1 perm or less.
    One,
    /// Class II: more than 0.1 and up to 1.0 perm.
    Two,
    /// Class III: more than 1.0 and up to 10 perm.
    Three,
}

/// Upper limits of the classes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RetarderLimits {
    /// Highest permeance of class I.
    pub one: Permeance,
    /// Highest permeance of class II.
    pub two: Permeance,
    /// Highest permeance of class III.
    pub three: Permeance,
}

impl RetarderLimits {
    /// The limits 0.1, 1.0 and 10 perm.
    ///
    /// # Errors
    /// None with these constants; the signature follows [`Permeance::us_perms`].
    pub fn model_code() -> Result<Self> {
        Ok(Self { one: Permeance::us_perms(0.1)?, two: Permeance::us_perms(1.0)?, three: Permeance::us_perms(10.0)? })
    }

    /// The class of a permeance; none above class III. A label at exactly the limit is within it,
    /// whatever the rounding of its unit.
    ///
    /// # Errors
    /// Limits out of order.
    pub fn class(&self, permeance: Permeance) -> Result<Option<RetarderClass>> {
        admit::positive("class II limit less class I limit", self.two.to_si() - self.one.to_si(), "kg/(s·m²·Pa)")?;
        admit::positive("class III limit less class II limit", self.three.to_si() - self.two.to_si(), "kg/(s·m²·Pa)")?;
        let at_most = |limit: Permeance| permeance.to_si() <= limit.to_si() * (1.0 + 1e-9);
        Ok(if at_most(self.one) {
            Some(RetarderClass::One)
        } else if at_most(self.two) {
            Some(RetarderClass::Two)
        } else if at_most(self.three) {
            Some(RetarderClass::Three)
        } else {
            None
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn classes_at_and_beside_their_limits() {
        let limits = RetarderLimits::model_code().unwrap();
        for (perms, class) in [
            (0.06, Some(RetarderClass::One)),
            (0.1, Some(RetarderClass::One)),
            (0.11, Some(RetarderClass::Two)),
            (1.0, Some(RetarderClass::Two)),
            (1.01, Some(RetarderClass::Three)),
            (10.0, Some(RetarderClass::Three)),
            (10.5, None),
        ] {
            let permeance = Permeance::us_perms(perms).unwrap();
            assert_eq!(limits.class(permeance).unwrap(), class, "{perms}");
        }
    }
}
