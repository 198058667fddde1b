//! Parts of the building as rules and tests see them: the fields the prelude declares, read from the model.

mod damp;
mod functions;
mod outline;
mod site;
mod surface;
mod weather;

pub use functions::films;
pub(crate) use functions::function;
pub(crate) use site::{product_member, site_member};
pub(crate) use surface::{face_of, staying};

use std::sync::Arc;

use uom::si::f64::Length;
use wythe_findings::codes;
use wythe_model::geometry::{Basis, opening_rect};
use wythe_model::{Foundation, Level, Levels, Opening, Pier, Wall, quantity};
use wythe_sema::{DefId, Signature};
use wythe_source::{Span, Symbol};
use wythe_units::{Kind, Quantity, QuantityError, Scalar};

use crate::{Element, Evaluator, Value};

/// The record of the prelude that describes a part.
pub(crate) fn record_of(element: &Element) -> &'static str {
    match element {
        Element::Foundation(_) => "Foundation",
        Element::Wall(..) => "Wall",
        Element::Opening(..) => "Opening",
        Element::Pier(..) => "Pier",
        Element::Pad(..) => "Pad",
        Element::Beam(..) => "Beam",
        Element::Corner(..) => "Corner",
        Element::Ground(_) => "Ground",
        Element::Sill(_) => "SillBlock",
        Element::Conditioning(_) => "ConditioningBlock",
        Element::Soil(_) => "Soil",
        Element::Surface(..) => "Surface",
        Element::Layer(..) => "LayerView",
        Element::Lap(..) => "Lap",
        Element::Tail(..) => "Tail",
        Element::Joint(..) => "JointView",
    }
}

impl Evaluator<'_> {
    /// A field of a part, by its number in the record that describes the part.
    pub(crate) fn member(&mut self, element: &Element, field: u32, span: Span) -> Value {
        let def = self.program.prelude.record(record_of(element));
        let Some(name) = self.field_name(def, field) else { return Value::Broken };
        let value = self.named_member(element, name.as_str());
        // What stands in the way of heat and moisture says so itself.
        if value.is_broken() && name.as_str() != "in_service" {
            self.report(
                codes::NO_SUCH_PART,
                span,
                format!("`{}` of {} is not known", name, crate::show::element_name(element)),
            );
        }
        value
    }

    pub(crate) fn field_name(&self, def: DefId, field: u32) -> Option<Symbol> {
        match self.program.checked(def.file)?.signatures.get(def.index as usize)? {
            Signature::Record(fields) => fields.get(field as usize).map(|f| f.name),
            _ => None,
        }
    }

    /// The member of an enumeration of the prelude.
    pub(crate) fn enum_member(&self, of: &str, name: &str) -> Value {
        let Some(def) = self.program.prelude.def(of) else { return Value::Broken };
        let signature = self.program.checked(def.file).and_then(|c| c.signatures.get(def.index as usize));
        match signature {
            Some(Signature::Enum { members, .. }) => members
                .iter()
                .position(|m| m.as_str() == name)
                .map_or(Value::Broken, |at| Value::Member(def, at as u32)),
            _ => Value::Broken,
        }
    }

    /// A field of a part by its name.
    pub(crate) fn named_member(&mut self, element: &Element, name: &str) -> Value {
        match element {
            Element::Foundation(f) => self.foundation_member(f, name),
            Element::Wall(f, i) => f.walls.get(*i).map_or(Value::Broken, |w| self.wall_member(f, *i, w, name)),
            Element::Opening(f, i) => f.openings.get(*i).map_or(Value::Broken, |o| self.opening_member(f, *i, o, name)),
            Element::Pier(f, i) => f.piers.get(*i).map_or(Value::Broken, |p| pier_member(f, *i, p, name)),
            Element::Pad(f, i) => match (f.pads.get(*i), name) {
                (Some(pad), "name") => Value::text(pad.name.as_str()),
                (Some(pad), "thickness") => quantity(pad.thickness),
                _ => Value::Broken,
            },
            Element::Beam(f, i) => match (f.beams.get(*i), name) {
                (Some(beam), "name") => Value::text(beam.name.as_str()),
                (Some(beam), "above_ground") => outline::beam_clearance(f, beam).map_or(Value::Broken, quantity),
                _ => Value::Broken,
            },
            Element::Corner(f, i) => match name {
                "name" => Value::text(crate::show::element_name(element)),
                "inward" => Value::Bool(outline::turns_inward(f, *i)),
                "to_vent" => outline::corner_to_vent(f, *i).map_or(Value::None, quantity),
                _ => Value::Broken,
            },
            Element::Ground(f) => match name {
                "area" => outline::inside_area(f).map_or(Value::Broken, quantity),
                "outlet" => Value::Bool(f.ground.drain_outlet),
                "cleanout" => Value::Bool(f.ground.cleanout),
                "face" => surface_of(element, "face"),
                _ => Value::Broken,
            },
            Element::Sill(f) => site::sill_member(&f.sill, name),
            Element::Conditioning(f) => site::conditioning_member(&f.conditioning, name),
            Element::Soil(site) => self::site::soil_member(self, site, name),
            Element::Surface(..) | Element::Layer(..) | Element::Lap(..) | Element::Tail(..) | Element::Joint(..) => {
                surface::member(element, name)
            }
        }
    }

    fn foundation_member(&mut self, f: &Arc<Foundation>, name: &str) -> Value {
        let each = |count: usize, make: fn(Arc<Foundation>, usize) -> Element| {
            Value::list((0..count).map(|i| Value::Element(make(f.clone(), i))))
        };
        match name {
            "name" => Value::text(f.name.as_str()),
            "on_site" => Value::Site(f.site.clone()),
            "space" => self.enum_member(
                "Space",
                match f.space {
                    wythe_model::SpaceKind::Closed => "closed",
                    wythe_model::SpaceKind::Vented => "vented",
                },
            ),
            "walls" => each(f.walls.len(), Element::Wall),
            "openings" => each(f.openings.len(), Element::Opening),
            "all_piers" => each(f.piers.len(), Element::Pier),
            "pads" => each(f.pads.len(), Element::Pad),
            "beams" => each(f.beams.len(), Element::Beam),
            "joints" => each(f.joints.len(), Element::Joint),
            "corners" => each(f.walls.len(), Element::Corner),
            "ground" => Value::Element(Element::Ground(f.clone())),
            "sill_plate" => Value::Element(Element::Sill(f.clone())),
            "conditioning" => Value::Element(Element::Conditioning(f.clone())),
            "perimeter" => quantity(outline::perimeter(f)),
            "floor_area" => quantity(outline::floor_area(f)),
            "inside_area" => outline::inside_area(f).map_or(Value::Broken, quantity),
            "in_service" => damp::in_service(self, f),
            _ => Value::Broken,
        }
    }

    fn wall_member(&mut self, f: &Arc<Foundation>, number: usize, wall: &Wall, name: &str) -> Value {
        let this = Element::Wall(f.clone(), number);
        let levels = wall.stretches.first().map(|s| s.levels);
        let level = |pick: fn(&Levels) -> Length| levels.as_ref().map_or(Value::Broken, |l| datum(pick(l)));
        match name {
            "name" => Value::text(wall.name.as_str()),
            "length" => quantity(wall.length),
            "top" => level(|l| l.top),
            "grade" => level(|l| l.grade),
            "ground" => level(|l| l.ground),
            "footing" => level(|l| l.footing),
            "height" => {
                let heights = wall.stretches.iter().map(|s| s.levels.top - s.levels.footing);
                heights.reduce(Length::max).map_or(Value::Broken, quantity)
            }
            "area" => of_kind(quantity(outline::gross_area(wall)), Kind::GrossArea),
            "net_area" => of_kind(quantity(outline::net_area(f, number, wall)), Kind::NetArea),
            "bare_band" => {
                let bands = quantity::wall_bands(f, number, Basis::Design);
                quantity::bare_band(&bands).map_or(Value::None, quantity)
            }
            "outside" | "inside" | "head" => surface_of(&this, name),
            "existing" => Value::Bool(wall.existing),
            "structure" => {
                wall.assembly.and_then(|id| f.assembly(id).structure.clone()).map_or(Value::None, Value::Product)
            }
            _ => Value::Broken,
        }
    }

    fn opening_member(&mut self, f: &Arc<Foundation>, number: usize, opening: &Opening, name: &str) -> Value {
        match name {
            "name" => Value::text(opening.name.as_str()),
            "kind" => self.enum_member("OpeningKind", opening.kind.name()),
            "size" => Value::Size(Arc::new([quantity(opening.width), quantity(opening.height)])),
            "free_area" => quantity(opening.free_area.unwrap_or_default()),
            "in_wall" => opening.wall.map_or(Value::Broken, |w| Value::Element(Element::Wall(f.clone(), w))),
            "from_corner" => {
                let Some(wall) = opening.wall.and_then(|w| f.walls.get(w)) else { return Value::Broken };
                let near = opening.at.min(wall.length - opening.at - opening.width);
                quantity(near.max(Length::default()))
            }
            "in_closed_space" => {
                let stands = opening_rect(f, number).is_some();
                Value::Bool(f.space == wythe_model::SpaceKind::Closed && stands)
            }
            "plugged" => Value::Bool(opening.plugged),
            "existing" => Value::Bool(opening.existing),
            "face" => surface_of(&Element::Opening(f.clone(), number), "face"),
            _ => Value::Broken,
        }
    }
}

fn pier_member(f: &Arc<Foundation>, number: usize, pier: &Pier, name: &str) -> Value {
    match name {
        "name" => Value::text(pier.name.as_str()),
        "width" => quantity(pier.width),
        "depth" => quantity(pier.depth),
        "height" => quantity(pier.top - pier.ground),
        "face" | "head" => surface_of(&Element::Pier(f.clone(), number), name),
        _ => Value::Broken,
    }
}

/// A face of a part.
fn surface_of(element: &Element, face: &str) -> Value {
    Value::Element(Element::Surface(Box::new(element.clone()), Symbol::new(face)))
}

/// A typed quantity as a value.
pub(crate) fn quantity<T>(typed: T) -> Value
where
    Quantity: TryFrom<T>,
{
    Quantity::try_from(typed).map_or(Value::Broken, Value::Quantity)
}

fn of_kind(value: Value, kind: Kind) -> Value {
    match value {
        Value::Quantity(q) => Value::Quantity(Quantity { kind: Some(kind), ..q }),
        other => other,
    }
}

/// A height above the datum as an elevation.
fn datum(height: Length) -> Value {
    let offset: Result<Quantity, QuantityError> = Quantity::try_from(height).map_err(QuantityError::Arithmetic);
    let scalar: Scalar = offset.map_or(Scalar::ZERO, |q| q.value);
    Value::Elevation(Level::Datum, scalar)
}
