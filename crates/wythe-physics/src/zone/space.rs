//! The crawl space itself: plan, walls in bands, floor above, framing wood.

use uom::si::f64::{Area, Length, Mass, MassDensity};

use crate::heat::ground::{FloorPlan, Soil};
use crate::mold::class::{Decline, Sensitivity};
use crate::quantity::{ThermalInsulance, VolumetricHeatCapacity};
use crate::vapor::permeance::Permeance;

/// What a wall band stands against.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Exposure {
    /// Outside air.
    Air,
    /// The ground outside.
    Ground,
}

/// A band of the perimeter wall of one build-up: insulated wall, the bare band, the rim joist.
#[derive(Debug, Clone, PartialEq)]
pub struct ZoneBand {
    /// Name, for the report.
    pub name: String,
    /// Area of its inside surface.
    pub area: Area,
    /// What it stands against.
    pub exposure: Exposure,
    /// Resistance on the inside of the masonry; zero where bare.
    pub insulation: ThermalInsulance,
    /// Resistance of the masonry (of the rim board, for a rim).
    pub masonry: ThermalInsulance,
    /// Thickness of the masonry.
    pub masonry_thickness: Length,
    /// Volumetric heat capacity of the masonry.
    pub masonry_capacity: VolumetricHeatCapacity,
    /// Permeance from the middle of the masonry to the inside surface: coating, foil, facing.
    pub permeance: Permeance,
}

/// Framing that the crawl air reaches: joists, girders, the underside of the deck.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FramingWood {
    /// Surface the air reaches.
    pub area: Area,
    /// Dry mass of all of it.
    pub mass: Mass,
    /// Dry density.
    pub density: MassDensity,
    /// Depth of the outer layer that follows the air in hours; about 3 mm (assumption).
    pub surface_layer: Length,
    /// Permeance from the middle of the outer layer to the core; for softwood about
    /// 2·10⁻¹⁰ kg/(s·m²·Pa) through a centimetre (ISO 10456 μ 20 to 50, from memory).
    pub inward_permeance: Permeance,
    /// Mold sensitivity of its surface.
    pub sensitivity: Sensitivity,
    /// How fast mold declines on it.
    pub decline: Decline,
}

/// A crawl space. All resistances leave out the films, which the zone adds.
#[derive(Debug, Clone, PartialEq)]
pub struct CrawlSpace {
    /// Area of the crawl floor and exposed perimeter.
    pub plan: FloorPlan,
    /// Mean clear height, for the volume of air.
    pub height: Length,
    /// Depth of the crawl floor below grade; zero where level or above.
    pub depth: Length,
    /// Thickness of the perimeter walls at grade.
    pub wall_thickness: Length,
    /// The ground.
    pub soil: Soil,
    /// Bands of the perimeter wall and rim.
    pub bands: Vec<ZoneBand>,
    /// Resistance from the house air to the framing wood, its film included.
    pub floor_above: ThermalInsulance,
    /// The framing.
    pub wood: FramingWood,
}
