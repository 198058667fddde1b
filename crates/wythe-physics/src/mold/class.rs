//! Sensitivity of materials to mold.

/// Sensitivity class of a surface, Ojanen et al. (2010).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sensitivity {
    /// Untreated sapwood.
    VerySensitive,
    /// Planed wood, paper-faced and wood-based boards.
    Sensitive,
    /// Cement-based and mineral materials, some plastics.
    MediumResistant,
    /// Glass, metal, treated surfaces.
    Resistant,
}

/// How quickly the index falls in dry or cold spells, relative to untreated wood.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Decline {
    /// As untreated wood: 1.
    Wood,
    /// Significant decline: 0.5.
    Significant,
    /// Relatively low: 0.25.
    Low,
    /// Almost none: 0.1.
    AlmostNone,
}

/// Constants of a class.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Constants {
    /// Growth before and after the index reaches 1.
    pub(crate) k1: (f64, f64),
    /// Coefficients of the highest index.
    pub(crate) a: f64,
    pub(crate) b: f64,
    pub(crate) c: f64,
    /// Lowest relative humidity for growth, %.
    pub(crate) lowest: f64,
}

impl Sensitivity {
    pub(crate) const fn constants(self) -> Constants {
        match self {
            Self::VerySensitive => Constants { k1: (1.0, 2.0), a: 1.0, b: 7.0, c: 2.0, lowest: 80.0 },
            Self::Sensitive => Constants { k1: (0.578, 0.386), a: 0.3, b: 6.0, c: 1.0, lowest: 80.0 },
            Self::MediumResistant => Constants { k1: (0.072, 0.097), a: 0.0, b: 5.0, c: 1.5, lowest: 85.0 },
            Self::Resistant => Constants { k1: (0.033, 0.014), a: 0.0, b: 3.0, c: 1.0, lowest: 85.0 },
        }
    }
}

impl Decline {
    pub(crate) const fn factor(self) -> f64 {
        match self {
            Self::Wood => 1.0,
            Self::Significant => 0.5,
            Self::Low => 0.25,
            Self::AlmostNone => 0.1,
        }
    }
}
