//! Kinds: a name on a dimension that keeps apart what the trade never adds.

use crate::Dim;

/// A named kind of quantity. Kinds add only to themselves; multiplying drops them.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Debug)]
pub enum Kind {
    /// Area less openings.
    NetArea,
    /// Area with openings.
    GrossArea,
    /// Water vapor on the move, mass per time.
    VaporRate,
    /// Liquid water on the move, mass per time.
    LiquidRate,
    /// Water vapor permeability; its dimension is that of time.
    Permeability,
    /// Plane angle; its dimension is that of a number.
    Angle,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Kind; 6] =
        [Kind::NetArea, Kind::GrossArea, Kind::VaporRate, Kind::LiquidRate, Kind::Permeability, Kind::Angle];

    /// The type name in the language.
    pub const fn type_name(self) -> &'static str {
        match self {
            Kind::NetArea => "NetArea",
            Kind::GrossArea => "GrossArea",
            Kind::VaporRate => "VaporRate",
            Kind::LiquidRate => "LiquidRate",
            Kind::Permeability => "Permeability",
            Kind::Angle => "Angle",
        }
    }

    /// The name in a sentence.
    pub const fn name(self) -> &'static str {
        match self {
            Kind::NetArea => "net area",
            Kind::GrossArea => "gross area",
            Kind::VaporRate => "water vapor rate",
            Kind::LiquidRate => "liquid water rate",
            Kind::Permeability => "vapor permeability",
            Kind::Angle => "angle",
        }
    }

    /// The dimension it stands on.
    pub const fn dim(self) -> Dim {
        match self {
            Kind::NetArea | Kind::GrossArea => Dim::AREA,
            Kind::VaporRate | Kind::LiquidRate => Dim::MASS_FLOW,
            Kind::Permeability => Dim::PERMEABILITY,
            Kind::Angle => Dim::ANGLE,
        }
    }

    /// The kind of a type name.
    pub fn of_type_name(name: &str) -> Option<Kind> {
        Kind::ALL.into_iter().find(|kind| kind.type_name() == name)
    }
}
