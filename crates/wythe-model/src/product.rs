//! Products, described by property.

use std::ops::{BitOr, BitOrAssign};
use std::sync::Arc;

use uom::si::f64::{Length, ThermalConductivity, ThermodynamicTemperature, Time, Volume};
use uom::si::{ISQ, Quantity, SI};
use uom::typenum::{N1, P1, P3, Z0};
use wythe_source::{Span, Symbol};

/// Thermal resistance of an area, m²·K/W.
pub type ThermalResistance = Quantity<ISQ<Z0, N1, P3, Z0, P1, Z0, Z0>, SI<f64>, f64>;
/// Water vapor permeance, kg/(s·m²·Pa), which has the dimension of time over length.
pub type Permeance = Quantity<ISQ<N1, Z0, P1, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Area covered by a purchase unit.
pub type Coverage = uom::si::f64::Area;

/// A figure that is known within bounds.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Interval<T> {
    /// The least it may be.
    pub low: T,
    /// The figure to work with.
    pub mid: T,
    /// The most it may be.
    pub high: T,
}

impl<T: Copy> Interval<T> {
    /// A figure with no spread.
    pub const fn exact(value: T) -> Self {
        Interval { low: value, mid: value, high: value }
    }
}

/// What sort of thing a product is.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub enum Class {
    /// Sprayed, brushed, rolled or troweled on.
    Coating,
    /// Sheet.
    Membrane,
    /// Insulation board or protection board.
    Board,
    /// Tape.
    Tape,
    /// Sealant.
    Sealant,
    /// Fastener.
    Fastener,
    /// Drain.
    Drain,
    /// Stone, gravel.
    Aggregate,
    /// Masonry.
    Masonry,
    /// Concrete.
    Concrete,
    /// Lumber.
    Lumber,
    /// Equipment and panels.
    Equipment,
}

impl Class {
    /// All, in the order of the reference.
    pub const ALL: [Class; 12] = [
        Class::Coating,
        Class::Membrane,
        Class::Board,
        Class::Tape,
        Class::Sealant,
        Class::Fastener,
        Class::Drain,
        Class::Aggregate,
        Class::Masonry,
        Class::Concrete,
        Class::Lumber,
        Class::Equipment,
    ];

    /// The name as the language writes it.
    pub const fn name(self) -> &'static str {
        match self {
            Class::Coating => "Coating",
            Class::Membrane => "Membrane",
            Class::Board => "Board",
            Class::Tape => "Tape",
            Class::Sealant => "Sealant",
            Class::Fastener => "Fastener",
            Class::Drain => "Drain",
            Class::Aggregate => "Aggregate",
            Class::Masonry => "Masonry",
            Class::Concrete => "Concrete",
            Class::Lumber => "Lumber",
            Class::Equipment => "Equipment",
        }
    }

    /// The class of a name.
    pub fn of_name(name: &str) -> Option<Class> {
        Class::ALL.into_iter().find(|c| c.name() == name)
    }
}

/// What a layer may control.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub enum Control {
    /// Water that climbs through pores.
    Capillary,
    /// Liquid water.
    BulkWater,
    /// Water vapor.
    Vapor,
    /// Air.
    Air,
    /// Heat.
    Heat,
    /// Fire.
    Fire,
}

impl Control {
    /// All, in the order of the reference.
    pub const ALL: [Control; 6] =
        [Control::Capillary, Control::BulkWater, Control::Vapor, Control::Air, Control::Heat, Control::Fire];

    /// The name as the language writes it.
    pub const fn name(self) -> &'static str {
        match self {
            Control::Capillary => "capillary",
            Control::BulkWater => "bulk_water",
            Control::Vapor => "vapor",
            Control::Air => "air",
            Control::Heat => "heat",
            Control::Fire => "fire",
        }
    }
}

/// A set of controls.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Hash)]
pub struct Controls(u8);

impl Controls {
    /// Whether the control is in the set.
    pub const fn has(self, control: Control) -> bool {
        self.0 & (1 << control as u8) != 0
    }

    /// The controls of the set, in order.
    pub fn iter(self) -> impl Iterator<Item = Control> {
        Control::ALL.into_iter().filter(move |c| self.has(*c))
    }
}

impl From<Control> for Controls {
    fn from(control: Control) -> Self {
        Controls(1 << control as u8)
    }
}

impl BitOr for Controls {
    type Output = Controls;
    fn bitor(self, other: Controls) -> Controls {
        Controls(self.0 | other.0)
    }
}

impl BitOrAssign for Controls {
    fn bitor_assign(&mut self, other: Controls) {
        self.0 |= other.0;
    }
}

impl FromIterator<Control> for Controls {
    fn from_iter<I: IntoIterator<Item = Control>>(iter: I) -> Self {
        iter.into_iter().fold(Controls::default(), |set, c| set | c.into())
    }
}

/// The material a surface offers to tape and sealant.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub enum Facing {
    /// Metallic film.
    Foil,
    /// Plastic film or plastic sheet.
    Poly,
    /// Masonry or concrete.
    Masonry,
    /// Wood.
    Wood,
    /// Bare foam.
    Foam,
    /// Metal.
    Metal,
}

impl Facing {
    /// All, in the order of the reference.
    pub const ALL: [Facing; 6] =
        [Facing::Foil, Facing::Poly, Facing::Masonry, Facing::Wood, Facing::Foam, Facing::Metal];

    /// The name as the language writes it.
    pub const fn name(self) -> &'static str {
        match self {
            Facing::Foil => "foil",
            Facing::Poly => "poly",
            Facing::Masonry => "masonry",
            Facing::Wood => "wood",
            Facing::Foam => "foam",
            Facing::Metal => "metal",
        }
    }
}

/// How a board edge takes rain.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum EdgeNature {
    /// Drinks water: must be capped before rain.
    Porous,
    /// Does not drink.
    Closed,
}

/// How foam stands to ignition.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum Ignition {
    /// Tested for exposure in a crawl space without a barrier.
    TestedExposed,
    /// Must stand behind an ignition barrier.
    NeedsBarrier,
    /// Is itself an ignition barrier.
    Barrier,
    /// Does not burn.
    Noncombustible,
}

/// A product.
#[derive(Clone, Debug, PartialEq)]
pub struct Product {
    /// Its name.
    pub name: Symbol,
    /// Where it is declared.
    pub origin: Span,
    /// Its class.
    pub class: Class,
    /// Its thickness; of a coating, the wet film.
    pub thickness: Option<Length>,
    /// Vapor permeance of the layer.
    pub permeance: Option<Interval<Permeance>>,
    /// Thermal conductivity.
    pub conductivity: Option<Interval<ThermalConductivity>>,
    /// Thermal resistance of the layer, where the figure is of the layer and not of the material.
    pub resistance: Option<Interval<ThermalResistance>>,
    /// What it controls.
    pub controls: Controls,
    /// Lines it breaks on purpose, such as open stone the capillary one.
    pub breaks: Controls,
    /// What its face offers to tape and sealant.
    pub facing: Option<Facing>,
    /// What a tape or a sealant holds on, beside its own facing.
    pub bonds: Vec<Facing>,
    /// How its edge takes rain.
    pub edge: Option<EdgeNature>,
    /// How it stands to ignition.
    pub ignition: Option<Ignition>,
    /// Whether it is taken away again or covered before service.
    pub sacrificial: bool,
    /// Whether it is reinforced with a woven scrim.
    pub reinforced: bool,
    /// Strength class by ASTM E1745 (`class_a`, `class_b`, `class_c`), where stated.
    pub strength_class: Option<Symbol>,
    /// Whether it draws water by capillarity.
    pub wicks: bool,
    /// Whether its cells are open at the top and must be capped before a coating can span them.
    pub open_cells: bool,
    /// Length of a fastener, width of a tape, diameter of a drain.
    pub length: Option<Length>,
    /// Diameter of a fastener's head.
    pub head: Option<Length>,
    /// Bite a fastener needs in the structure.
    pub embedment: Option<Length>,
    /// Width of a tape.
    pub width: Option<Length>,
    /// Diameter of a drain.
    pub diameter: Option<Length>,
    /// Width and length of a sheet or a roll as sold.
    pub size: Option<(Length, Length)>,
    /// Volume as sold.
    pub volume: Option<Volume>,
    /// Area a purchase unit covers.
    pub covers: Option<Coverage>,
    /// The counting unit it is sold in, such as `sheet`, and how many units make a pack.
    pub pack: Option<(Symbol, u32)>,
    /// Share of solids of a coating, as a ratio.
    pub solids: Option<uom::si::f64::Ratio>,
    /// Saw kerf of a board; nought where it is scored.
    pub kerf: Option<Length>,
    /// Within which limits it is put on.
    pub install: InstallWindow,
    /// Where its figures come from.
    pub source: Option<Arc<str>>,
}

/// Within which limits a coating, tape or sealant is put on, and how long it stands the sun.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct InstallWindow {
    /// The coldest surface it goes on.
    pub above: Option<ThermodynamicTemperature>,
    /// The hottest surface it goes on.
    pub below: Option<ThermodynamicTemperature>,
    /// Whether the surface must be dry.
    pub dry_surface: bool,
    /// How long it may stand in the sun.
    pub sun: Option<Time>,
}

impl Product {
    /// A product with no properties.
    pub fn bare(name: Symbol, class: Class, origin: Span) -> Self {
        Product {
            name,
            origin,
            class,
            thickness: None,
            permeance: None,
            conductivity: None,
            resistance: None,
            controls: Controls::default(),
            breaks: Controls::default(),
            facing: None,
            bonds: Vec::new(),
            edge: None,
            ignition: None,
            sacrificial: false,
            reinforced: false,
            strength_class: None,
            wicks: false,
            open_cells: false,
            length: None,
            head: None,
            embedment: None,
            width: None,
            diameter: None,
            size: None,
            volume: None,
            covers: None,
            pack: None,
            solids: None,
            kerf: None,
            install: InstallWindow::default(),
            source: None,
        }
    }

    /// Thermal resistance of the layer: as stated, or thickness over conductivity.
    pub fn layer_resistance(&self) -> Option<ThermalResistance> {
        if let Some(r) = self.resistance {
            return Some(r.mid);
        }
        let conductivity = self.conductivity?.mid;
        (conductivity.value > 0.0).then(|| self.thickness.map(|t| t / conductivity)).flatten()
    }
}
