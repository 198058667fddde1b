//! Sites, soil, sill, conditioning and products as rules see them.

use std::sync::Arc;

use wythe_model::{Conditioning, Hazard, Interval, Product, SillPlate, Site};
use wythe_units::Quantity;

use super::quantity;
use crate::{Element, Evaluator, Value};

/// A field of a site.
pub(crate) fn site_member(ev: &Evaluator<'_>, site: &Arc<Site>, field: u32) -> Value {
    let def = ev.program.prelude.record("Site");
    let Some(name) = ev.field_name(def, field) else { return Value::Broken };
    match name.as_str() {
        "climate_zone" => site.climate_zone.map_or(Value::None, |z| ev.enum_member("ClimateZone", z.as_str())),
        "termite_hazard" => ev.enum_member(
            "Hazard",
            match site.termite_hazard {
                Hazard::NoneKnown => "none_known",
                Hazard::Slight => "slight",
                Hazard::Moderate => "moderate",
                Hazard::Heavy => "heavy",
                Hazard::VeryHeavy => "very_heavy",
            },
        ),
        "soil" => Value::Element(Element::Soil(site.clone())),
        "frost_depth" => site.frost_depth.map_or(Value::None, quantity),
        "altitude" => site.altitude.map_or(Value::None, quantity),
        "flood_hazard" => Value::Bool(site.flood_hazard),
        "radon" => Value::Bool(site.radon),
        "old_materials" => Value::Bool(site.old_materials),
        "climate" => site.climate.clone().map_or(Value::None, |c| Value::Weather(Arc::new(c))),
        _ => Value::Broken,
    }
}

pub(super) fn soil_member(ev: &Evaluator<'_>, site: &Arc<Site>, name: &str) -> Value {
    match name {
        "conductivity" => interval(site.soil_conductivity),
        "water_table" => site.water_table.map_or(Value::None, |w| ev.enum_member("WaterTable", w.as_str())),
        _ => Value::Broken,
    }
}

pub(super) fn sill_member(sill: &SillPlate, name: &str) -> Value {
    Value::Bool(match name {
        "treated" => sill.treated,
        "gasket" => sill.gasket,
        "rim_insulated" => sill.rim_insulated,
        "rim_sealed" => sill.rim_sealed,
        _ => return Value::Broken,
    })
}

pub(super) fn conditioning_member(c: &Conditioning, name: &str) -> Value {
    match name {
        "supply_air" => c.supply_air.map_or(Value::None, quantity),
        "exhaust" => c.exhaust.map_or(Value::None, quantity),
        "dehumidifier" => c.dehumidifier.map_or(Value::None, quantity),
        "return_path" => Value::Bool(c.return_path),
        "condensate_route" => Value::Bool(c.condensate_route),
        "ends_inside" => Value::Bool(c.ends_inside),
        "natural_draft" => Value::Bool(c.natural_draft),
        "radon_pipe" => Value::Bool(c.radon_pipe),
        "humidity_sensor" => Value::Bool(c.humidity_sensor),
        _ => Value::Broken,
    }
}

/// A figure within bounds as a value.
pub(crate) fn interval<T>(figure: Option<Interval<T>>) -> Value
where
    Quantity: TryFrom<T>,
{
    let Some(i) = figure else { return Value::None };
    match [i.low, i.mid, i.high].map(Quantity::try_from) {
        [Ok(low), Ok(mid), Ok(high)] => Value::within([low, mid, high]),
        _ => Value::Broken,
    }
}

/// A property of a product by its name.
pub(crate) fn product_member(ev: &Evaluator<'_>, p: &Product, name: &str) -> Value {
    let length = |l: Option<uom::si::f64::Length>| l.map_or(Value::None, quantity);
    let members = |of: &str, names: Vec<&str>| Value::list(names.iter().map(|n| ev.enum_member(of, n)));
    match name {
        "thickness" => length(p.thickness),
        "permeance" => interval(p.permeance),
        "conductivity" => interval(p.conductivity),
        "resistance" => match (p.resistance, p.layer_resistance()) {
            (Some(r), _) => interval(Some(r)),
            (None, Some(r)) => quantity(r),
            (None, None) => Value::None,
        },
        "controls" => members("Control", p.controls.iter().map(|c| c.name()).collect()),
        "breaks" => members("Control", p.breaks.iter().map(|c| c.name()).collect()),
        "facing" => p.facing.map_or(Value::None, |f| ev.enum_member("Facing", f.name())),
        "bonds" => members("Facing", p.bonds.iter().map(|f| f.name()).collect()),
        "edge" => p.edge.map_or(Value::None, |e| {
            ev.enum_member(
                "EdgeNature",
                match e {
                    wythe_model::EdgeNature::Porous => "porous",
                    wythe_model::EdgeNature::Closed => "closed_cell",
                },
            )
        }),
        "ignition" => p.ignition.map_or(Value::None, |i| {
            ev.enum_member(
                "Ignition",
                match i {
                    wythe_model::Ignition::TestedExposed => "tested_exposed",
                    wythe_model::Ignition::NeedsBarrier => "needs_barrier",
                    wythe_model::Ignition::Barrier => "barrier",
                    wythe_model::Ignition::Noncombustible => "noncombustible",
                },
            )
        }),
        "sacrificial" => Value::Bool(p.sacrificial),
        "reinforced" => Value::Bool(p.reinforced),
        "strength" => p.strength_class.map_or(Value::None, |s| ev.enum_member("StrengthClass", s.as_str())),
        "wicks" => Value::Bool(p.wicks),
        "open_cells" => Value::Bool(p.open_cells),
        "length" => length(p.length),
        "head" => length(p.head),
        "embedment" => length(p.embedment),
        "width" => length(p.width),
        "diameter" => length(p.diameter),
        "kerf" => length(p.kerf),
        "volume" => p.volume.map_or(Value::None, quantity),
        "solids" => p.solids.map_or(Value::None, quantity),
        "size" => p.size.map_or(Value::None, |(a, b)| Value::Size(Arc::new([quantity(a), quantity(b)]))),
        "source" => p.source.clone().map_or(Value::None, Value::Text),
        "name" => Value::text(p.name.as_str()),
        _ => Value::None,
    }
}
