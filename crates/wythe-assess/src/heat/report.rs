//! What the heat of a foundation consists of.

use std::sync::Arc;

use uom::si::f64::{Area, Energy, HeatTransfer, Length, Ratio, ThermalConductance, ThermodynamicTemperature};
use wythe_model::{Interval, Permeance, ThermalResistance};
use wythe_physics::heat::surface::SpotInMonth;
use wythe_source::{Span, Symbol};

use super::{GroundHeat, LossPart, ParallelPart, SectionCheck};
use crate::Assumptions;
use crate::envelope::Envelope;

/// A layer of a wall with its figures as its product states them.
#[derive(Clone, Debug, PartialEq)]
pub struct LayerFigure {
    /// `outside`, `structure` or `inside`.
    pub face: &'static str,
    /// The layer.
    pub name: Symbol,
    /// The product.
    pub product: Symbol,
    /// Its thickness.
    pub thickness: Option<Length>,
    /// Its resistance.
    pub resistance: Option<Interval<ThermalResistance>>,
    /// Its permeance.
    pub permeance: Option<Interval<Permeance>>,
    /// Where its figures come from, in the product's words.
    pub source: Option<Arc<str>>,
    /// Where the layer is written.
    pub origin: Span,
}

/// A band of a wall.
#[derive(Clone, Debug, PartialEq)]
pub struct BandHeat {
    /// Lower edge above the datum.
    pub low: Length,
    /// Upper edge above the datum.
    pub high: Length,
    /// Where its stretch begins along the wall.
    pub from: Length,
    /// Where its stretch ends.
    pub to: Length,
    /// Area less openings.
    pub area: Area,
    /// Whether outside air lies behind it.
    pub above_grade: bool,
    /// Whether only the structure resists.
    pub bare: bool,
    /// Its layers with a resistance, from outside to inside.
    pub layers: Vec<Symbol>,
    /// The sum of its layers' resistances.
    pub resistance: Interval<ThermalResistance>,
    /// Transmittance with films, fasteners left out.
    pub without_fasteners: HeatTransfer,
    /// Transmittance with films and fasteners.
    pub transmittance: Interval<HeatTransfer>,
    /// Its share of the wall's area.
    pub area_share: Ratio,
    /// Its share of the wall's loss for one difference of temperature.
    pub loss_share: Ratio,
}

/// The fasteners of a wall that pass through insulation.
#[derive(Clone, Debug, PartialEq)]
pub struct FastenerBridge {
    /// The fastener.
    pub product: Symbol,
    /// The layer it passes.
    pub layer: Symbol,
    /// How many, by the pattern of the build-up.
    pub count: u64,
    /// All of them together.
    pub conductance: ThermalConductance,
    /// Their share of the wall's loss.
    pub loss_share: Ratio,
}

/// What the bare strip at the top of a wall costs.
#[derive(Clone, Debug, PartialEq)]
pub struct BareBand {
    /// Its area.
    pub area: Area,
    /// Its share of the wall's area.
    pub area_share: Ratio,
    /// Its share of the wall's loss.
    pub loss_share: Ratio,
    /// What it loses over the same area built like the insulated wall beside it.
    pub extra: ThermalConductance,
}

/// A wall.
#[derive(Clone, Debug, PartialEq)]
pub struct WallHeat {
    /// Its name.
    pub name: Symbol,
    /// Where its name stands.
    pub origin: Span,
    /// Whether the outside lies behind it; else an old space.
    pub exposed: bool,
    /// Its layers, from outside to inside.
    pub layers: Vec<LayerFigure>,
    /// Its bands, stretch by stretch from the top down.
    pub bands: Vec<BandHeat>,
    /// Area of the bands.
    pub area: Area,
    /// Transmittance averaged over the bands, films and fasteners included.
    pub transmittance: Interval<HeatTransfer>,
    /// The same without fasteners.
    pub without_fasteners: HeatTransfer,
    /// Fasteners through insulation.
    pub fasteners: Vec<FastenerBridge>,
    /// The bare strip, where there is one beside an insulated part.
    pub bare: Option<BareBand>,
}

/// A cold spot in the month in which its surface is the most humid.
#[derive(Clone, Debug, PartialEq)]
pub struct Spot {
    /// What it is: `bare band of south`, `sill`.
    pub name: String,
    /// Temperature factor with a sheltered film.
    pub factor: Ratio,
    /// Surface temperature in the coldest month.
    pub coldest: ThermodynamicTemperature,
    /// The month in which its surface is the most humid, 1 to 12, with the humidity there.
    pub worst_month: u8,
    /// State in that month; `acceptable` is judged at 80 %.
    pub worst: SpotInMonth,
}

/// A heating season of the weather year.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatSeason {
    /// Degree days below 65 °F, in K·d.
    pub degree_days: f64,
    /// Heat through the parts above grade over the season.
    pub above_grade: Energy,
    /// Of it, what the bare strips cost over insulated wall.
    pub bare_bands: Energy,
}

/// The heat of a foundation.
#[derive(Clone, Debug, PartialEq)]
pub struct HeatReport {
    /// The foundation.
    pub foundation: Symbol,
    /// Its measures.
    pub envelope: Envelope,
    /// Its walls, in the order of the walk.
    pub walls: Vec<WallHeat>,
    /// Its ground.
    pub ground: GroundHeat,
    /// The loss of the whole space by part.
    pub parts: Vec<LossPart>,
    /// The parts where framing lies beside insulation, by both limits of the combined method.
    pub parallel: Vec<ParallelPart>,
    /// The longest wall in its ground as a section in two dimensions, where the space is heated.
    pub section: Option<SectionCheck>,
    /// Cold spots, where there is weather.
    pub spots: Vec<Spot>,
    /// A heating season, where there is weather.
    pub season: Option<HeatSeason>,
    /// Whether every exposed wall could be worked out.
    pub complete: bool,
    /// What was assumed.
    pub assumptions: Assumptions,
    /// What the result is not.
    pub cautions: Vec<&'static str>,
}

impl HeatReport {
    /// The loss of all parts together.
    pub fn total(&self) -> ThermalConductance {
        self.parts.iter().map(|p| p.conductance).fold(ThermalConductance::default(), |a, b| a + b)
    }
}
