//! The levels an assembly is read at: those of the first part built with it.

use uom::si::length::inch;
use wythe_model::{Assembly, AssemblyId, Extent, Foundation, Length, Level, Levels, Pier, SurfaceKind};

/// Two elevations closer than this are the same: a sixteenth of an inch.
pub(crate) fn hair() -> Length {
    Length::new::<inch>(1.0 / 16.0)
}

/// A vertical range, lower end first. Ground and openings have one range, all of them.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Range {
    /// Lower end.
    pub low: Length,
    /// Upper end.
    pub high: Length,
}

impl Range {
    /// How much of their height two ranges share; negative where they lie apart.
    pub fn shared(self, other: Range) -> Length {
        self.high.min(other.high) - self.low.max(other.low)
    }

    /// Whether the two share more than a hair of height.
    pub fn meets(self, other: Range) -> bool {
        self.shared(other) > hair()
    }

    /// Whether `other` lies inside, to within a hair.
    pub fn holds(self, other: Range) -> bool {
        self.low <= other.low + hair() && other.high <= self.high + hair()
    }

    /// Its height.
    pub fn height(self) -> Length {
        self.high - self.low
    }
}

/// The levels of every part built with an assembly: each stretch of wall, each pier.
pub(crate) fn all_levels(f: &Foundation, id: AssemblyId) -> impl Iterator<Item = Levels> + '_ {
    let walls =
        f.walls.iter().filter(move |w| w.assembly == Some(id)).flat_map(|w| w.stretches.iter().map(|s| s.levels));
    let piers = f.piers.iter().filter(move |p| p.assembly == Some(id)).map(Pier::levels);
    walls.chain(piers)
}

/// Levels to read the assembly at: those of the first part built with it, or of an ordinary low wall.
pub(crate) fn levels_of(f: &Foundation, id: AssemblyId) -> Levels {
    all_levels(f, id).next().unwrap_or_else(|| {
        let at = |inches: f64| Length::new::<inch>(inches);
        Levels { top: at(0.0), sill: at(0.0), grade: at(-16.0), ground: at(-32.0), footing: at(-40.0) }
    })
}

/// The range of a layer without an extent of its own.
pub(crate) fn whole(assembly: &Assembly, face: &str, levels: &Levels) -> Range {
    match (assembly.kind, face) {
        (_, "head") => Range { low: levels.top, high: levels.top },
        (SurfaceKind::Ground | SurfaceKind::Opening, _) => {
            Range { low: Length::default(), high: Length::new::<inch>(1.0) }
        }
        (SurfaceKind::Wall, "outside") => Range { low: levels.footing, high: levels.top },
        _ => Range { low: levels.ground.min(levels.top), high: levels.top },
    }
}

/// The range of an extent.
pub(crate) fn range_of(extent: &Extent, levels: &Levels) -> Range {
    let (low, high) = extent.on(levels);
    Range { low, high }
}

/// An elevation as a builder says it: `top - 4 in`.
pub(crate) fn say(elevation: wythe_model::Elevation) -> String {
    let word = elevation.from.word();
    if elevation.offset.abs() < hair() / 2.0 {
        word.to_owned()
    } else if elevation.offset < Length::default() {
        format!("{word} - {}", crate::Inches(-elevation.offset))
    } else {
        format!("{word} + {}", crate::Inches(elevation.offset))
    }
}

/// How high a level stands among the others by nature; `None` for the datum, which may stand anywhere.
/// Grade and crawl floor are equals: either may be the higher.
pub(crate) fn rank(level: Level) -> Option<u8> {
    match level {
        Level::Datum => None,
        Level::Footing => Some(0),
        Level::Ground | Level::Grade => Some(1),
        Level::Top | Level::Sill => Some(2),
    }
}
