//! The loss of the whole space by part, for one degree between inside and outside.

use uom::si::f64::{Area, Ratio, ThermalConductance};
use wythe_model::{Class, Foundation, OpeningKind, Product, ThermalResistance};
use wythe_physics::PhysicsError;
use wythe_physics::heat::film::{inside_film_us, outside_film_us};
use wythe_physics::heat::ground::crawl::CrawlState;
use wythe_physics::heat::series::series;
use wythe_physics::quantity::insulance_us;

use super::parallel::rim_insulation;
use super::report::WallHeat;
use super::wall::{above_grade_transmittance, resistance};
use super::{Form, GroundHeat};
use crate::Assumptions;
use crate::assumption::ASSUMED;
use crate::envelope::Envelope;
use crate::figure::{m, m2, share, w_per_k};

/// A part of the loss.
#[derive(Clone, Debug, PartialEq)]
pub struct LossPart {
    /// What it is.
    pub name: &'static str,
    /// Its area.
    pub area: Area,
    /// Its loss.
    pub conductance: ThermalConductance,
    /// Its share of all.
    pub share: Ratio,
    /// Whether the ground lies behind it, which smooths the seasons.
    pub ground: bool,
}

/// Height of the rim over the sill, m: the depth of a 2x10, 9-1/4 in, and its plate.
pub(crate) const RIM_HEIGHT: f64 = 0.235 + 0.038;
/// Resistance of a rim board of 1-1/2 in softwood at an inch.
pub(super) const RIM_BOARD: f64 = 1.88;
/// Cavity insulation of a rim that the plans call insulated.
pub(super) const RIM_INSULATION: f64 = 13.0;

/// The rim over the sill: its board and the insulation on it, films left out.
pub(crate) fn rim(f: &Foundation, assumed: &mut Assumptions) -> (ThermalResistance, ThermalResistance) {
    assumed.note("height of the rim and its plate", "10-3/4 in (2x10 and 1-1/2 in)", ASSUMED);
    assumed.note(
        "rim board",
        "1-1/2 in softwood, R-1.88",
        "ASHRAE Handbook of Fundamentals, building materials table, softwood (from memory)",
    );
    let insulation = if f.sill.rim_insulated { rim_insulation(assumed) } else { ThermalResistance::default() };
    (insulance_us(RIM_BOARD), insulation)
}

/// The insulated door or plug set in an opening.
pub(crate) fn plug(f: &Foundation, opening: usize) -> Option<&Product> {
    let assembly = f.assemblies.get(f.openings.get(opening)?.assembly?.0 as usize)?;
    let works = assembly.faces.iter().flat_map(|face| &face.works);
    let set = works.filter(|w| w.act.places()).filter_map(|w| w.product.as_deref());
    set.filter(|p| matches!(p.class, Class::Equipment | Class::Board)).find(|p| resistance(p).is_some())
}

pub(super) fn parts(
    f: &Foundation,
    envelope: &Envelope,
    walls: &[WallHeat],
    ground: &GroundHeat,
    assumed: &mut Assumptions,
) -> Result<Vec<LossPart>, PhysicsError> {
    let mut parts = Vec::new();
    let mut add = |name: &'static str, area: f64, conductance: f64, ground: bool| {
        if conductance > 0.0 {
            parts.push(LossPart { name, area: m2(area), conductance: w_per_k(conductance), share: share(0.0), ground });
        }
    };
    if ground.state == CrawlState::ClosedConditioned {
        if let Some((area, u)) = above_grade_transmittance(walls) {
            add("walls above grade", area.value, u.value * area.value, false);
        }
        inside(envelope, &ground.chosen, &mut add);
        openings(f, assumed, &mut add)?;
        let (board, insulation) = rim(f, assumed);
        let layers: Vec<_> = [board, insulation].into_iter().filter(|r| r.value > 0.0).collect();
        let rim = series(inside_film_us(), &layers, outside_film_us())?;
        let area = (envelope.perimeter * m(RIM_HEIGHT)).value;
        add("rim over the sill", area, rim.transmittance.value * area, false);
    } else {
        // The envelope is the floor above; the space below it is in its transmittance already.
        let area = envelope.floor.value;
        add("floor over the space, with the space below it", area, ground.chosen.floor.mid.value * area, false);
    }
    let total: f64 = parts.iter().map(|p| p.conductance.value).sum();
    for part in &mut parts {
        part.share = share(if total > 0.0 { part.conductance.value / total } else { 0.0 });
    }
    Ok(parts)
}

fn inside(envelope: &Envelope, form: &Form, add: &mut impl FnMut(&'static str, f64, f64, bool)) {
    let below = (envelope.depth * envelope.perimeter).value;
    if let Some(wall) = &form.wall {
        add("walls below grade, with the ground beside them", below, wall.mid.value * below, true);
    }
    let area = envelope.floor.value;
    add("crawl floor, with the ground under it", area, form.floor.mid.value * area, true);
}

fn openings(
    f: &Foundation,
    assumed: &mut Assumptions,
    add: &mut impl FnMut(&'static str, f64, f64, bool),
) -> Result<(), PhysicsError> {
    let words = [
        (OpeningKind::Access, "access door"),
        (OpeningKind::Vent, "vents, plugged"),
        (OpeningKind::Flood, "flood openings"),
        (OpeningKind::BeamPocket, "beam pockets"),
        (OpeningKind::Sleeve, "sleeves"),
    ];
    for (kind, word) in words {
        let (mut area, mut loss) = (0.0, 0.0);
        for (index, opening) in f.openings.iter().enumerate().filter(|(_, o)| o.kind == kind && !o.existing) {
            let size = (opening.width * opening.height).value;
            let layer = plug(f, index).and_then(resistance).map(|r| r.mid);
            let layer = layer.unwrap_or_else(|| match kind {
                OpeningKind::BeamPocket => {
                    assumed.note("beam end in its pocket", "as 3 in of softwood, R-3.75", ASSUMED);
                    insulance_us(3.75)
                }
                _ => {
                    assumed.note("opening with nothing set in it", "as a thin sheet, R-0.1", ASSUMED);
                    insulance_us(0.1)
                }
            });
            let u = series(inside_film_us(), &[layer], outside_film_us())?.transmittance;
            area += size;
            loss += u.value * size;
        }
        assumed.note("openings", "as if all of them stood in outside air, at their size in the wall", ASSUMED);
        add(word, area, loss, false);
    }
    Ok(())
}
