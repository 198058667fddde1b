//! Products.

use std::sync::Arc;

use uom::si::f64::{Area, Length, Ratio, Time, Volume};
use wythe_model::{Class, Control, Controls, EdgeNature, Facing, Ignition, InstallWindow, Product};
use wythe_source::Symbol;
use wythe_syntax::ast::{Block, Ident};
use wythe_units::Quantity;

use crate::lower::fields;
use crate::{Evaluator, Frame, Value};

/// A product from its block.
pub fn product<'p>(ev: &mut Evaluator<'p>, frame: &mut Frame<'p>, name: Ident, class: Ident, block: &Block) -> Value {
    let Some(class) = Class::of_name(class.name.as_str()) else { return Value::Broken };
    let f = fields::read(ev, frame, Some(block), class.name());
    let mut product = Product::bare(name.name, class, name.span);
    product.thickness = f.positive_length(ev, "thickness");
    product.permeance = f.interval("permeance");
    product.conductivity = f.interval("conductivity");
    product.resistance = f.interval("resistance");
    product.controls = controls(&f.members(ev, "controls"));
    product.breaks = controls(&f.members(ev, "breaks"));
    product.facing = f.member(ev, "facing").and_then(facing);
    product.bonds = f.members(ev, "bonds").into_iter().filter_map(facing).collect();
    product.edge =
        f.member(ev, "edge").map(|m| if m.as_str() == "porous" { EdgeNature::Porous } else { EdgeNature::Closed });
    product.ignition = f.member(ev, "ignition").and_then(ignition);
    product.sacrificial = f.truth("sacrificial");
    product.reinforced = f.truth("reinforced");
    product.strength_class = f.member(ev, "strength");
    product.wicks = f.truth("wicks");
    product.open_cells = f.truth("open_cells");
    product.length = f.positive_length(ev, "length");
    product.head = f.positive_length(ev, "head");
    product.embedment = f.positive_length(ev, "embedment");
    product.width = f.positive_length(ev, "width");
    product.diameter = f.positive_length(ev, "diameter");
    // The `size` of stone is one length; of sheets and rolls it is two.
    product.size = f.positive_size(ev, "size");
    product.volume = f.typed::<Volume>("volume");
    product.covers = covers(f.get("covers"));
    product.pack = pack(f.get("pack"));
    product.solids = f.typed::<Ratio>("solids");
    product.kerf = f.typed::<Length>("kerf");
    product.install = InstallWindow {
        above: f.temperature("install_above"),
        below: f.temperature("install_below"),
        dry_surface: f.truth("dry_surface"),
        sun: f.typed::<Time>("sun"),
    };
    product.source = f.text("source");
    Value::Product(Arc::new(product))
}

fn controls(names: &[Symbol]) -> Controls {
    names.iter().filter_map(|n| Control::ALL.into_iter().find(|c| c.name() == n.as_str())).collect()
}

fn facing(name: Symbol) -> Option<Facing> {
    Facing::ALL.into_iter().find(|f| f.name() == name.as_str())
}

fn ignition(name: Symbol) -> Option<Ignition> {
    match name.as_str() {
        "tested_exposed" => Some(Ignition::TestedExposed),
        "needs_barrier" => Some(Ignition::NeedsBarrier),
        "barrier" => Some(Ignition::Barrier),
        "noncombustible" => Some(Ignition::Noncombustible),
        _ => None,
    }
}

/// `90 ft2 per pail`: the area, the counting unit left to `pack`.
fn covers(value: &Value) -> Option<Area> {
    let quantity = value.quantity()?;
    Area::try_from(Quantity::new(quantity.value, quantity.dim.physical())).ok()
}

/// `1 sheet`, `100 pc`: the counting unit and the number.
fn pack(value: &Value) -> Option<(Symbol, u32)> {
    let quantity = value.quantity()?;
    let unit = quantity.dim.as_nominal()?;
    let count = quantity.value.round().as_whole().unwrap_or(0);
    u32::try_from(count).ok().filter(|n| *n > 0).map(|n| (unit.name(), n))
}
