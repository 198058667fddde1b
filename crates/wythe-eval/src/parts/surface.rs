//! Faces, layers, laps, tails and joints as rules see them.

use std::sync::Arc;

use uom::si::f64::Length;
use wythe_model::geometry::hair;
use wythe_model::{Act, Assembly, AssemblyId, Class, EdgeName, Face, Foundation, Levels, Work};
use wythe_source::Symbol;

use super::quantity;
use super::site::interval;
use crate::{Element, Value};

/// The face a surface stands for.
pub(crate) fn face_of(of: &Element, name: Symbol) -> Option<&Face> {
    match of {
        Element::Joint(f, i) => f.joints.get(*i).map(|j| &j.face),
        other => assembly_of(other)?.face(name.as_str()),
    }
}

/// The assembly a part is built with.
pub(super) fn assembly_of(of: &Element) -> Option<&Arc<Assembly>> {
    let number: fn(&Foundation, usize) -> Option<AssemblyId> = match of {
        Element::Wall(..) => |f, i| f.walls.get(i)?.assembly,
        Element::Opening(..) => |f, i| f.openings.get(i)?.assembly,
        Element::Pier(..) => |f, i| f.piers.get(i)?.assembly,
        Element::Ground(_) => |f, _| f.ground.assembly,
        _ => return None,
    };
    let (f, i) = match of {
        Element::Wall(f, i) | Element::Opening(f, i) | Element::Pier(f, i) => (f, *i),
        Element::Ground(f) => (f, 0),
        _ => return None,
    };
    f.assemblies.get(number(f, i)?.0 as usize)
}

/// The levels of each stretch of a part.
fn levels_of(of: &Element) -> Vec<Levels> {
    match of {
        Element::Wall(f, i) => {
            f.walls.get(*i).map_or_else(Vec::new, |w| w.stretches.iter().map(|s| s.levels).collect())
        }
        Element::Pier(f, i) => f.piers.get(*i).map_or_else(Vec::new, |pier| vec![pier.levels()]),
        _ => Vec::new(),
    }
}

/// The least of a length over the stretches of a part, told from the levels and the layer's lower and upper end.
fn least(of: &Element, work: &Work, pick: impl Fn(&Levels, Length, Length) -> Length) -> Option<Length> {
    let extent = work.extent?;
    let lengths = levels_of(of).into_iter().map(|levels| {
        let (low, high) = extent.on(&levels);
        pick(&levels, low, high)
    });
    lengths.reduce(Length::min)
}

/// A field of a surface, a layer, a lap, a tail or a joint.
pub(super) fn member(element: &Element, name: &str) -> Value {
    match element {
        Element::Surface(of, face) => match name {
            "name" => Value::text(format!("{} {face}", crate::show::element_name(of))),
            "layers" => layers(of, *face, |_| true),
            _ => Value::Broken,
        },
        Element::Layer(of, face, number) => {
            let Some(face_found) = face_of(of, *face) else { return Value::Broken };
            let Some(work) = face_found.works.get(*number) else { return Value::Broken };
            layer_member(of, face_found, *number, work, name)
        }
        Element::Lap(of, face, number) => match face_of(of, *face).and_then(|f| Some((f, f.works.get(*number)?))) {
            Some((face, work)) => lap_member(face, *number, work, name),
            None => Value::Broken,
        },
        Element::Tail(of, face, number) => match (face_of(of, *face).and_then(|f| f.works.get(*number)), name) {
            (Some(work), "name") => Value::text(work.layer.as_str()),
            (Some(work), "length") => quantity(work.by.unwrap_or_default()),
            _ => Value::Broken,
        },
        Element::Joint(f, i) => match (f.joints.get(*i), name) {
            (Some(joint), "name") => Value::text(joint.name.as_str()),
            (Some(joint), "laps") => laps(element, joint.name, |_| true),
            _ => Value::Broken,
        },
        _ => Value::Broken,
    }
}

/// Whether a layer is there in the end: a sacrificial sheet that is taken up again is not held to what stays.
pub(super) fn stays(works: &[Work], number: usize) -> bool {
    let Some(work) = works.get(number) else { return false };
    let later = &works[number + 1..];
    let again = later.iter().position(|w| w.act.places() && w.layer == work.layer).unwrap_or(later.len());
    !later[..again].iter().any(|w| w.act == Act::Remove && w.layer == work.layer)
}

/// The works that put the layers of a face in place that stay, of one class if one is meant.
pub(crate) fn staying(of: &Element, face: Symbol, class: Option<Class>) -> Vec<usize> {
    let works = face_of(of, face).map_or(&[][..], |f| &f.works);
    let is = |w: &Work| w.product.as_ref().is_some_and(|p| class.is_none_or(|c| p.class == c));
    works.iter().enumerate().filter(|(i, w)| w.act.places() && is(w) && stays(works, *i)).map(|(i, _)| i).collect()
}

/// The layers that stay on a face, in the order they are put in place.
pub(super) fn layers(of: &Element, face: Symbol, take: impl Fn(&Work) -> bool) -> Value {
    let works = face_of(of, face).map_or(&[][..], |f| &f.works);
    let placed = works.iter().enumerate().filter(|(i, w)| w.act.places() && take(w) && stays(works, *i));
    Value::list(placed.map(|(i, _)| Value::Element(Element::Layer(Box::new(of.clone()), face, i))))
}

/// The laps on a face: sheets laid with an overlap, and sheets lapped over others.
pub(super) fn laps(of: &Element, face: Symbol, take: impl Fn(&Work) -> bool) -> Value {
    let works = face_of(of, face).map_or(&[][..], |f| &f.works);
    let lapped = works.iter().enumerate();
    let lapped = lapped.filter(|(i, w)| matches!(w.act, Act::Lap | Act::Lay) && take(w) && stays(works, *i));
    Value::list(lapped.map(|(i, _)| Value::Element(Element::Lap(Box::new(of.clone()), face, i))))
}

/// The tails of hung sheets.
pub(super) fn tails(of: &Element, face: Symbol) -> Value {
    let works = face_of(of, face).map_or(&[][..], |f| &f.works);
    let hung = works.iter().enumerate().filter(|(i, w)| w.act == Act::Hang && stays(works, *i));
    Value::list(hung.map(|(i, _)| Value::Element(Element::Tail(Box::new(of.clone()), face, i))))
}

fn layer_member(of: &Element, face: &Face, number: usize, work: &Work, name: &str) -> Value {
    let Some(product) = &work.product else { return Value::Broken };
    let later = &face.works[number + 1..];
    let measured = |length: Option<Length>| length.map_or(Value::Broken, quantity);
    match name {
        "name" => Value::text(work.layer.as_str()),
        "made_of" => Value::Product(product.clone()),
        "thickness" => quantity(product.thickness.unwrap_or_default()),
        "permeance" => interval(product.permeance),
        "fastened" => Value::Bool(later.iter().any(|w| w.act == Act::Fasten && w.layer == work.layer)),
        "sealed" => Value::Bool(later.iter().any(|w| {
            matches!(w.act, Act::Tape | Act::Seal | Act::Cap) && w.place.is_some_and(|p| p.of == Some(work.layer))
        })),
        "heads_sealed" => Value::Bool(heads_sealed(later, work.layer)),
        "below_top" => measured(least(of, work, |levels, _, high| levels.top - high)),
        "below_grade" => measured(least(of, work, |levels, low, _| levels.grade - low)),
        "above_ground" => measured(least(of, work, |levels, _, high| high - levels.ground)),
        "reaches_ground" => {
            let short = least(of, work, |levels, low, _| levels.ground - low);
            Value::Bool(short.is_none_or(|s| s > -hair()))
        }
        "reaches_footing" => {
            let short = least(of, work, |levels, low, _| levels.footing - low);
            Value::Bool(short.is_none_or(|s| s > -hair()))
        }
        "reaches_grade" => {
            let over = least(of, work, |levels, _, high| high - levels.grade);
            Value::Bool(over.is_none_or(|o| o > -hair()))
        }
        _ => Value::Broken,
    }
}

/// Whether the heads of all fasteners that hold a layer are taped, sealed or coated after they are driven.
fn heads_sealed(later: &[Work], layer: Symbol) -> bool {
    let held = later.iter().enumerate().filter(|(_, w)| w.act == Act::Fasten && w.layer == layer);
    held.into_iter().all(|(at, fasten)| {
        let fastener = fasten.product.as_ref().map(|p| p.name);
        later[at + 1..].iter().any(|w| {
            matches!(w.act, Act::Tape | Act::Seal | Act::Coat | Act::Cap)
                && w.place.is_some_and(|p| p.edge == EdgeName::Heads && (p.of.is_none() || p.of == fastener))
        })
    })
}

fn lap_member(face: &Face, number: usize, work: &Work, name: &str) -> Value {
    let later = &face.works[number + 1..];
    match name {
        "name" => Value::text(match work.place.map(|p| p.edge) {
            Some(EdgeName::Layer(under)) => format!("{} over {under}", work.layer),
            _ => work.layer.to_string(),
        }),
        "width" => quantity(work.by.unwrap_or_default()),
        "taped" => Value::Bool(
            later
                .iter()
                .any(|w| matches!(w.act, Act::Tape | Act::Seal) && w.place.is_some_and(|p| p.of == Some(work.layer))),
        ),
        _ => Value::Broken,
    }
}
