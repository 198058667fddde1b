//! The functions of the prelude that look at the building or name a file.

use std::sync::Arc;

use uom::si::f64::{HeatTransfer, Length};
use wythe_check::Requirements;
use wythe_check::lines::{self, Status};
use wythe_findings::codes;
use wythe_model::geometry::Basis;
use wythe_model::quantity::{Films, wall_average, wall_bands};
use wythe_model::{Class, ClimateReading, Control, Foundation, OpeningKind, Permeance, ThermalResistance, Work};
use wythe_source::{Span, Symbol};
use wythe_units::{Dim, Quantity, Scalar, parse_r_value, unit_named};

use super::{damp, quantity, surface, weather};
use crate::lower;
use crate::{Element, Evaluator, Value};

/// Still-air film inside a wall, h·ft²·°F/Btu: ASHRAE Handbook of Fundamentals, surface conductances, vertical surface.
const INSIDE_FILM: &str = "R-0.68";
/// Film outside in winter wind, h·ft²·°F/Btu: the same table, 15 mph (from memory).
const OUTSIDE_FILM: &str = "R-0.17";

/// Works out a function without a body, by its name.
pub(crate) fn function(ev: &mut Evaluator<'_>, name: &str, args: &[Value], span: Span) -> Value {
    match (name, args) {
        ("monthly", [Value::Text(path)]) => weather::named(path, ClimateReading::Monthly, span),
        ("hourly", [Value::Text(path), Value::None]) => weather::named(path, ClimateReading::Hourly, span),
        ("hourly", [Value::Text(path), Value::Record(columns)]) => weather::mapped(ev, path, columns, span),
        ("normals", lists) => weather::stated(lists, span),
        ("table", [Value::Text(path)]) => Value::Table(path.clone()),
        ("clear_above", [Value::Element(Element::Surface(of, face)), Value::Class(class)]) => {
            clear_above(of, *face, *class).map_or(Value::Broken, quantity)
        }
        ("layers", [Value::Element(Element::Surface(of, face)), Value::Class(class)]) => {
            surface::layers(of, *face, |w| is(w, *class))
        }
        ("has", [Value::Element(Element::Surface(of, face)), Value::Class(class)]) => {
            let works = surface::face_of(of, *face).map_or(&[][..], |f| &f.works);
            Value::Bool(works.iter().enumerate().any(|(i, w)| is(w, *class) && surface::stays(works, i)))
        }
        ("laps", [Value::Element(Element::Surface(of, face)), Value::Class(class)]) => {
            surface::laps(of, *face, |w| w.product.is_none() || is(w, *class))
        }
        ("tails", [Value::Element(Element::Surface(of, face))]) => surface::tails(of, *face),
        ("resistance", [Value::Element(Element::Wall(f, wall)), Value::Member(_, band)]) => {
            resistance(f, *wall, *band).map_or(Value::Broken, quantity)
        }
        ("insulation", [Value::Element(Element::Wall(f, wall))]) => insulation(f, *wall),
        ("transmittance", [Value::Element(Element::Wall(f, wall))]) => {
            transmittance(f, *wall).map_or(Value::Broken, quantity)
        }
        ("permeance_of", [Value::Element(Element::Surface(of, face))]) => {
            permeance(of, *face).map_or(Value::Broken, quantity)
        }
        ("retarder", [Value::Element(Element::Surface(of, face))]) => retarder(ev, of, *face),
        ("mold_index", [Value::Element(Element::Sill(f))]) => damp::sill_mold(ev, f),
        ("state", [Value::Element(Element::Opening(f, opening)), phase]) => {
            let name = match phase {
                Value::Phase(phase) => phase.name,
                Value::Name(name) => Some(*name),
                _ => None,
            };
            opening_state(ev, f, *opening, name, span)
        }
        ("line_holds", [Value::Element(Element::Foundation(f)), control]) => {
            let name = lower::member_name(ev, control);
            let control = name.and_then(|n| Control::ALL.into_iter().find(|c| c.name() == n.as_str()));
            match control {
                Some(control) => Value::Bool(line_holds(ev, f, control)),
                None => Value::Broken,
            }
        }
        _ => {
            if !args.iter().any(Value::is_broken) {
                ev.report(codes::RULE_FAILED_TO_RUN, span, format!("`{name}` cannot be worked out for this"));
            }
            Value::Broken
        }
    }
}

fn is(work: &Work, class: Class) -> bool {
    work.act.places() && work.product.as_ref().is_some_and(|p| p.class == class)
}

fn clear_above(of: &Element, face: Symbol, class: Class) -> Option<Length> {
    let works = &surface::face_of(of, face)?.works;
    let Element::Wall(f, number) = of else { return None };
    let wall = f.walls.get(*number)?;
    let mut least: Option<Length> = None;
    for stretch in &wall.stretches {
        let highest = works
            .iter()
            .enumerate()
            .filter(|(i, w)| is(w, class) && surface::stays(works, *i))
            .filter_map(|(_, w)| Some(w.extent?.on(&stretch.levels).1))
            .reduce(Length::max);
        // With no such layer the whole height is clear.
        let clear = highest.map_or(stretch.levels.top - stretch.levels.ground, |h| stretch.levels.top - h);
        least = Some(least.map_or(clear, |l| l.min(clear)));
    }
    least
}

/// The resistance of a band, without films: 0 the board band (the best), 1 the bare band (the worst), 2 the whole.
fn resistance(f: &Arc<Foundation>, wall: usize, band: u32) -> Option<ThermalResistance> {
    let bands = wall_bands(f, wall, Basis::Design);
    let covered = bands.iter().filter(|b| !b.bare).map(|b| b.r_total);
    let bare = bands.iter().filter(|b| b.bare).map(|b| b.r_total);
    match band {
        0 => covered.reduce(|a, b| a.min(b)),
        1 => bare.reduce(|a, b| a.min(b)),
        _ => {
            let average = wall_average(
                &bands,
                Films { inside: ThermalResistance::default(), outside: ThermalResistance::default() },
            )?;
            (average.u.value > 0.0).then(|| 1.0 / average.u)
        }
    }
}

/// The resistance of boards alone: the least over the bands that have one.
fn insulation(f: &Arc<Foundation>, wall: usize) -> Value {
    let assembly = f.walls.get(wall).and_then(|w| f.assemblies.get(w.assembly?.0 as usize));
    let Some(assembly) = assembly else { return zero_resistance() };
    let boards = assembly.faces.iter().filter(|face| face.name.as_str() != "head").flat_map(|face| &face.works);
    let mut total: Option<[Quantity; 3]> = None;
    for work in boards.filter(|w| is(w, Class::Board)) {
        let Some(product) = &work.product else { continue };
        let stated = super::site::interval(product.resistance).bounds();
        let worked_out = product.layer_resistance().and_then(|r| Quantity::try_from(r).ok()).map(|q| [q; 3]);
        let Some(bounds) = stated.or(worked_out) else { continue };
        total = match total {
            None => Some(bounds),
            Some(sum) => {
                let added = [0, 1, 2].map(|i| sum[i].checked_add(bounds[i]));
                match added {
                    [Ok(a), Ok(b), Ok(c)] => Some([a, b, c]),
                    _ => Some(sum),
                }
            }
        };
    }
    total.map_or_else(zero_resistance, Value::within)
}

fn zero_resistance() -> Value {
    Value::Quantity(Quantity::new(Scalar::ZERO, Dim::AREAL_RESISTANCE))
}

/// The films of the handbook.
pub fn films() -> Films {
    let r = |text: &str| parse_r_value(text).ok().and_then(|q| ThermalResistance::try_from(q).ok()).unwrap_or_default();
    Films { inside: r(INSIDE_FILM), outside: r(OUTSIDE_FILM) }
}

fn transmittance(f: &Arc<Foundation>, wall: usize) -> Option<HeatTransfer> {
    Some(wall_average(&wall_bands(f, wall, Basis::Design), films())?.u)
}

/// Permeances add as reciprocals.
fn permeance(of: &Element, face: Symbol) -> Option<Permeance> {
    let works = &surface::face_of(of, face)?.works;
    let placed = works.iter().enumerate().filter(|(i, w)| w.act.places() && surface::stays(works, *i));
    let known = placed.filter_map(|(_, w)| Some(w.product.as_ref()?.permeance?.mid));
    known.filter(|p| p.value > 0.0).reduce(|a, b| a * b / (a + b))
}

fn retarder(ev: &Evaluator<'_>, of: &Element, face: Symbol) -> Value {
    let works = surface::face_of(of, face).map_or(&[][..], |f| &f.works);
    let least = works
        .iter()
        .enumerate()
        .filter(|(i, w)| {
            w.product.as_ref().is_some_and(|p| !p.sacrificial) && w.act.places() && surface::stays(works, *i)
        })
        .filter_map(|(_, w)| super::site::interval(w.product.as_ref()?.permeance).bounds())
        .map(|bounds| bounds[1])
        .reduce(|a, b| if a.compare(b).is_ok_and(std::cmp::Ordering::is_le) { a } else { b });
    // Classes by permeance, IRC R702.7: I up to 0.1 perm, II up to 1.0, III up to 10.
    let name = match least {
        None => "vapor_open",
        Some(p) => {
            let perm = unit_named("perm").map_or(1.0, |u| u.factor_scalar().to_f64());
            match p.value.to_f64() / perm {
                p if p <= 0.1 * (1.0 + 1e-6) => "class_i",
                p if p <= 1.0 * (1.0 + 1e-6) => "class_ii",
                p if p <= 10.0 * (1.0 + 1e-6) => "class_iii",
                _ => "vapor_open",
            }
        }
    };
    ev.enum_member("RetarderClass", name)
}

/// A vent is open from the start, unless a phase has closed the vents since one last opened them; an access opening
/// is closed once its door is set.
fn opening_state(
    ev: &mut Evaluator<'_>,
    f: &Arc<Foundation>,
    opening: usize,
    phase: Option<Symbol>,
    span: Span,
) -> Value {
    let Some(opening) = f.openings.get(opening) else { return Value::Broken };
    let Some(until) = phase.and_then(|p| f.phase_index(p)) else {
        let name = phase.map_or_else(String::new, |p| p.to_string());
        ev.report(codes::NO_SUCH_PART, span, format!("{} has no phase `{name}`", f.name));
        return Value::Broken;
    };
    let done = &f.phases[..=until];
    let open = match opening.kind {
        OpeningKind::Vent | OpeningKind::Flood => {
            let vent = Symbol::new("vent");
            done.iter().fold(true, |open, p| {
                if p.closes.contains(&vent) {
                    opening.kind == OpeningKind::Flood
                } else {
                    open || p.opens.contains(&vent)
                }
            })
        }
        _ => {
            let set = opening.assembly.is_some_and(|id| {
                let works = f.assembly(id).faces.iter().flat_map(|face| &face.works);
                works.filter_map(|w| f.phase_index(w.phase?.name)).any(|at| at <= until)
            });
            !set
        }
    };
    ev.enum_member("OpeningState", if open { "open" } else { "closed" })
}

/// Whether no section of the foundation breaks the line.
fn line_holds(ev: &Evaluator<'_>, f: &Arc<Foundation>, control: Control) -> bool {
    let asked =
        ev.asked.iter().find(|(of, _)| Arc::ptr_eq(of, f)).map_or_else(Requirements::default, |(_, a)| a.clone());
    let (_, traces) = lines::check(f, &asked);
    traces.iter().filter(|t| t.control == control).all(|t| t.status != Status::Broken)
}
