//! An item of the order.

use std::sync::Arc;

use uom::si::f64::{Length, Ratio};
use uom::si::ratio::ratio;
use wythe_model::quantity::Measure;
use wythe_model::{Class, Product};
use wythe_source::Symbol;

/// How the units of an item were counted.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum Basis {
    /// Sheets of the cut list.
    CutList,
    /// Rolls of the floor's layout and of the strips hung.
    Rolls,
    /// By the area the product says a unit covers.
    Coverage,
    /// By wet film and volume.
    WetFilm,
    /// By the section of the bead and the volume of a tube.
    Bead,
    /// By length with an overlap at each end.
    Tape,
    /// By length.
    Length,
    /// By area over the area of a sheet, with the allowance for waste: nothing was cut or laid out.
    Area,
    /// By volume.
    Volume,
    /// Piece by piece.
    Pieces,
}

impl Basis {
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Basis::CutList => "cut list",
            Basis::Rolls => "roll layout",
            Basis::Coverage => "stated coverage",
            Basis::WetFilm => "wet film",
            Basis::Bead => "bead section",
            Basis::Tape => "length and overlap",
            Basis::Length => "length",
            Basis::Area => "area",
            Basis::Volume => "volume",
            Basis::Pieces => "pieces",
        }
    }
}

/// A product to buy.
#[derive(Clone, Debug, PartialEq)]
pub struct OrderItem {
    /// What.
    pub product: Arc<Product>,
    /// The unit it is counted in: `sheet`, `roll`, `pc`, `yd3`.
    pub unit: Symbol,
    /// Units in a pack.
    pub pack: u64,
    /// Units to buy, before packs are filled up.
    pub units: u64,
    /// Units really needed, allowance included.
    pub needed: Ratio,
    /// Of the units bought, the share that does not end up in the work.
    pub waste: Ratio,
    /// No plan can do with fewer units, where that is proven.
    pub bound: Option<u64>,
    /// Net quantities, one for each sort of measure.
    pub net: Vec<Measure>,
    /// The same with the allowance for waste.
    pub gross: Vec<Measure>,
    /// How the units were counted.
    pub basis: Basis,
    /// The phases it is used in, in order.
    pub phases: Vec<Symbol>,
    /// Wet film of all passes together, of a coating whose solids are known.
    pub wet_film: Option<Length>,
}

impl OrderItem {
    /// Whole packs to buy.
    pub fn packs(&self) -> u64 {
        self.units.div_ceil(self.pack.max(1))
    }

    /// Units in the packs bought that are left over.
    pub fn left(&self) -> Ratio {
        let bought = self.packs().saturating_mul(self.pack.max(1)) as f64;
        Ratio::new::<ratio>((bought - self.needed.get::<ratio>()).max(0.0))
    }
}

/// The unit a product is counted in: that of its pack, or the usual one of its class.
pub(crate) fn unit(product: &Product, metric: bool) -> Symbol {
    let usual = match product.class {
        Class::Coating => "pail",
        Class::Membrane | Class::Tape => "roll",
        Class::Board | Class::Lumber => "sheet",
        Class::Sealant => "tube",
        Class::Aggregate | Class::Concrete | Class::Masonry if metric => "m3",
        Class::Aggregate | Class::Concrete | Class::Masonry => "yd3",
        Class::Fastener | Class::Drain | Class::Equipment => "pc",
    };
    product.pack.map_or_else(|| Symbol::new(usual), |(unit, _)| unit)
}

/// A measure with an allowance; pieces are rounded up.
pub(crate) fn scaled(measure: Measure, waste: Ratio) -> Measure {
    let by = 1.0 + waste.get::<ratio>();
    match measure {
        Measure::Area(a) => Measure::Area(a * by),
        Measure::Length(l) => Measure::Length(l * by),
        Measure::Volume(v) => Measure::Volume(v * by),
        Measure::Count(n) => {
            let more = (n as f64 * by - 1e-9).ceil();
            Measure::Count(if more.is_finite() { more as u64 } else { n })
        }
    }
}

/// One measure as a share of another of its sort.
pub(crate) fn share(part: Measure, whole: Measure) -> Option<f64> {
    let share = match (part, whole) {
        (Measure::Area(a), Measure::Area(b)) => a.value / b.value,
        (Measure::Length(a), Measure::Length(b)) => a.value / b.value,
        (Measure::Volume(a), Measure::Volume(b)) => a.value / b.value,
        (Measure::Count(a), Measure::Count(b)) => a as f64 / b as f64,
        _ => return None,
    };
    share.is_finite().then_some(share)
}
