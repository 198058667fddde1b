//! Values as text.

use wythe_model::{Class, Level};
use wythe_sema::{Program, Signature};
use wythe_units::{Dim, DisplayOptions, Quantity, Scalar, format_quantity};

use crate::{Element, Value};

/// A value as text, in the preferred units.
pub fn show(value: &Value, program: &Program, options: &DisplayOptions) -> String {
    match value {
        Value::Broken => "?".into(),
        Value::None => "none".into(),
        Value::Bool(b) => b.to_string(),
        Value::Unsure => "unsure".into(),
        Value::Text(t) | Value::Table(t) => t.to_string(),
        Value::Date(d) => d.to_string(),
        Value::Quantity(q) => format_quantity(*q, options),
        Value::Interval(bounds) => format!(
            "{} ({} .. {})",
            format_quantity(bounds[1], options),
            format_quantity(bounds[0], options),
            format_quantity(bounds[2], options)
        ),
        Value::Temperature(kelvin) => wythe_units::format_point(Quantity::new(*kelvin, Dim::TEMPERATURE), options),
        Value::Elevation(level, offset) => elevation(*level, *offset, options),
        Value::Lumber(size) => size.to_string(),
        Value::Currency(name) | Value::Name(name) => name.to_string(),
        Value::Place(p) => format!("({}, {})", format_quantity(p[0], options), format_quantity(p[1], options)),
        Value::Size(s) => format!("{} x {}", show(&s[0], program, options), show(&s[1], program, options)),
        Value::Range(s) => format!("{} .. {}", show(&s[0], program, options), show(&s[1], program, options)),
        Value::Member(def, at) => member(program, *def, *at),
        Value::Class(class) => Class::name(*class).into(),
        Value::List(items) => {
            let items: Vec<_> = items.iter().map(|v| show(v, program, options)).collect();
            format!("[{}]", items.join(", "))
        }
        Value::Record(record) => {
            let name = program.name_of(record.def);
            let fields: Vec<_> = record.fields.iter().map(|v| show(v, program, options)).collect();
            format!("{name}({})", fields.join(", "))
        }
        Value::Product(p) => p.name.to_string(),
        Value::Assembly(a) => a.name.to_string(),
        Value::Phase(p) => p.name_str().to_owned(),
        Value::Joint(j) => j.name.to_string(),
        Value::Site(s) => s.name.to_string(),
        Value::Weather(w) => w.path.to_string(),
        Value::Element(e) => element_name(e),
    }
}

/// An elevation told from its level.
pub fn elevation(level: Level, offset: Scalar, options: &DisplayOptions) -> String {
    let word = level.word();
    let length = format_quantity(Quantity::new(offset.abs(), Dim::LENGTH), options);
    match offset.signum() {
        0 => word.into(),
        1 => format!("{word} + {length}"),
        _ => format!("{word} - {length}"),
    }
}

fn member(program: &Program, def: wythe_sema::DefId, at: u32) -> String {
    let signature = program.checked(def.file).and_then(|c| c.signatures.get(def.index as usize));
    match signature {
        Some(Signature::Enum { members, .. }) => members.get(at as usize).map_or_else(String::new, ToString::to_string),
        _ => String::new(),
    }
}

/// The name of a part, as people on site say it.
pub fn element_name(element: &Element) -> String {
    match element {
        Element::Foundation(f) => f.name.to_string(),
        Element::Wall(f, i) => f.walls.get(*i).map_or_else(String::new, |w| w.name.to_string()),
        Element::Opening(f, i) => f.openings.get(*i).map_or_else(String::new, |o| o.name.to_string()),
        Element::Pier(f, i) => f.piers.get(*i).map_or_else(String::new, |p| p.name.to_string()),
        Element::Pad(f, i) => f.pads.get(*i).map_or_else(String::new, |p| p.name.to_string()),
        Element::Beam(f, i) => f.beams.get(*i).map_or_else(String::new, |b| b.name.to_string()),
        Element::Corner(f, i) => {
            match (f.walls.get((i + f.walls.len().max(1) - 1) % f.walls.len().max(1)), f.walls.get(*i)) {
                (Some(before), Some(after)) => format!("{}/{}", before.name, after.name),
                _ => String::new(),
            }
        }
        Element::Ground(_) => "ground".into(),
        Element::Sill(_) => "sill".into(),
        Element::Conditioning(_) => "conditioning".into(),
        Element::Soil(_) => "soil".into(),
        Element::Surface(of, face) => format!("{} {face}", element_name(of)),
        Element::Layer(of, face, i) | Element::Lap(of, face, i) | Element::Tail(of, face, i) => {
            format!("{} {face} {}", element_name(of), i + 1)
        }
        Element::Joint(f, i) => f.joints.get(*i).map_or_else(String::new, |j| j.name.to_string()),
    }
}
