//! Sites.

use std::sync::Arc;

use wythe_model::{ClimateFile, Hazard, Site};
use wythe_syntax::ast::{Block, Ident, Item};

use crate::lower::fields;
use crate::{Evaluator, Frame, Value};

/// A site from its block.
pub fn site<'p>(ev: &mut Evaluator<'p>, frame: &mut Frame<'p>, name: Ident, block: &Block) -> Value {
    let f = fields::read(ev, frame, Some(block), "Site");
    let soil_block = block.items.iter().find_map(|item| match item {
        Item::Section { name, block } if name.name.as_str() == "soil" => Some(block),
        _ => None,
    });
    let soil = fields::read(ev, frame, soil_block, "Soil");
    let altitude = f.typed("altitude");
    let climate = match f.get("climate") {
        Value::Weather(file) => Some(ClimateFile { altitude, ..(**file).clone() }),
        _ => None,
    };
    Value::Site(Arc::new(Site {
        name: name.name,
        origin: name.span,
        climate_zone: f.member(ev, "climate_zone"),
        termite_hazard: f.member(ev, "termite_hazard").map_or(Hazard::NoneKnown, |m| hazard(m.as_str())),
        soil_conductivity: soil.interval("conductivity"),
        water_table: soil.member(ev, "water_table"),
        frost_depth: f.positive_length(ev, "frost_depth"),
        flood_hazard: f.truth("flood_hazard"),
        radon: f.truth("radon"),
        old_materials: f.truth("old_materials"),
        altitude,
        climate,
        climate_unclear: f.get("climate").is_broken(),
    }))
}

fn hazard(name: &str) -> Hazard {
    match name {
        "slight" => Hazard::Slight,
        "moderate" => Hazard::Moderate,
        "heavy" => Hazard::Heavy,
        "very_heavy" => Hazard::VeryHeavy,
        _ => Hazard::NoneKnown,
    }
}
