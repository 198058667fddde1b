//! Elevations: points above or below a datum, either known or told from a level of the wall they stand on.

use uom::si::f64::Length;

/// A level every wall has.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub enum Level {
    /// The foundation's zero.
    Datum,
    /// Top of the masonry.
    Top,
    /// Underside of the sill. Equal to the top unless the wall says otherwise.
    Sill,
    /// Outside grade.
    Grade,
    /// Inside ground: the crawl floor.
    Ground,
    /// Top of the footing.
    Footing,
}

impl Level {
    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            Level::Datum => "datum",
            Level::Top => "top",
            Level::Sill => "sill",
            Level::Grade => "grade",
            Level::Ground => "ground",
            Level::Footing => "footing",
        }
    }
}

/// An elevation told from a level: `top - 4"`.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Elevation {
    /// The level.
    pub from: Level,
    /// How far above it; below is negative.
    pub offset: Length,
}

/// The levels of one stretch of wall, each above the datum of its foundation.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Levels {
    /// Top of the masonry.
    pub top: Length,
    /// Underside of the sill.
    pub sill: Length,
    /// Outside grade.
    pub grade: Length,
    /// Inside ground.
    pub ground: Length,
    /// Top of the footing.
    pub footing: Length,
}

impl Levels {
    /// The height of an elevation above the datum.
    pub fn height_of(&self, elevation: Elevation) -> Length {
        let base = match elevation.from {
            Level::Datum => Length::default(),
            Level::Top => self.top,
            Level::Sill => self.sill,
            Level::Grade => self.grade,
            Level::Ground => self.ground,
            Level::Footing => self.footing,
        };
        base + elevation.offset
    }
}

/// A vertical extent, from one elevation to another, in either order.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Extent {
    /// The end named first.
    pub from: Elevation,
    /// The end named second.
    pub to: Elevation,
}

impl Extent {
    /// Lower and upper end above the datum, on a stretch of wall.
    pub fn on(&self, levels: &Levels) -> (Length, Length) {
        let (a, b) = (levels.height_of(self.from), levels.height_of(self.to));
        if a <= b { (a, b) } else { (b, a) }
    }
}
