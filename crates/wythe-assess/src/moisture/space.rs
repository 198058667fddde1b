//! The building as the zone of the physics: bands, framing, soil.

use uom::si::f64::ThermalConductivity;
use wythe_model::geometry::Basis;
use wythe_model::quantity::{Band, wall_bands};
use wythe_model::{Class, Extent, Foundation, Interval, OpeningKind, Product, ThermalResistance, Work};
use wythe_physics::PhysicsError;
use wythe_physics::heat::ground::{FloorPlan, Soil};
use wythe_physics::mold::class::{Decline, Sensitivity};
use wythe_physics::quantity::{insulance_si, insulance_us, volumetric_heat_capacity};
use wythe_physics::vapor::permeance::{Permeance, in_series};
use wythe_physics::zone::space::{CrawlSpace, Exposure, FramingWood, ZoneBand};

use crate::Assumptions;
use crate::assumption::{ASSUMED, COMMON};
use crate::envelope::{Envelope, share_above_grade};
use crate::figure::{kg, kg_per_m3, m, m2};
use crate::heat::{RIM_HEIGHT, WallHeat, plug, resistance_of, rim, soil};

/// The space as designed: its own walls, and a floor above that is not insulated where the walls are.
pub(crate) fn designed(
    f: &Foundation,
    envelope: &Envelope,
    walls: &[WallHeat],
    assumed: &mut Assumptions,
) -> Result<CrawlSpace, PhysicsError> {
    let (conductivity, _) = soil(f, assumed);
    let vented = f.space == wythe_model::SpaceKind::Vented;
    let mut bands = wall_zone_bands(f, walls, assumed)?;
    bands.extend(openings(f, assumed)?);
    bands.push(rim_band(f, envelope, assumed)?);
    if envelope.shared.value > 0.0 {
        assumed.note("old work that is tied to", "as warm and as damp on its far side", ASSUMED);
    }
    Ok(CrawlSpace {
        plan: FloorPlan { area: envelope.floor, perimeter: envelope.perimeter },
        height: envelope.clear,
        depth: envelope.depth,
        wall_thickness: envelope.thickness,
        soil: soil_of(conductivity, assumed),
        bands,
        floor_above: floor_above(vented, assumed),
        wood: framing(envelope, assumed)?,
    })
}

/// The same space built to be vented: insulation in the floor above, none on the walls.
pub(crate) fn vented_counterpart(space: &CrawlSpace, assumed: &mut Assumptions) -> Result<CrawlSpace, PhysicsError> {
    assumed.note("the vented counterpart", "the same walls without board, liner and coat inside", ASSUMED);
    let mut out = space.clone();
    out.floor_above = floor_above(true, assumed);
    for band in out.bands.iter_mut().filter(|b| b.name.ends_with(GRADE)) {
        band.insulation = insulance_si(0.0);
        band.permeance = half_masonry(None)?;
    }
    Ok(out)
}

const GRADE: &str = "grade";

fn soil_of(conductivity: Interval<ThermalConductivity>, assumed: &mut Assumptions) -> Soil {
    assumed.note("heat capacity of the soil", "3.0 MJ/(m³·K)", "ISO 13370:2017 table 7, clay or silt (from memory)");
    Soil { conductivity: conductivity.mid, ..Soil::clay() }
}

fn floor_above(insulated: bool, assumed: &mut Assumptions) -> ThermalResistance {
    if insulated {
        let deck = insulance_us(0.68);
        return crate::heat::insulated_floor(assumed) + deck;
    }
    assumed.note("floor over a closed space", "R-2.6: 3/4 in deck, a finish and the film of the room", ASSUMED);
    insulance_us(2.6)
}

fn framing(envelope: &Envelope, assumed: &mut Assumptions) -> Result<FramingWood, PhysicsError> {
    assumed.note(
        "framing over the space",
        "2x10 joists at 16 in with a 3/4 in deck: 2.1 of surface and 18.5 kg for each m² of floor, 450 kg/m³",
        COMMON,
    );
    assumed.note("wood in the air's reach within hours", "its outer 3 mm", ASSUMED);
    assumed.note(
        "mold class of the framing",
        "sensitive (planed wood), declining as wood",
        "Ojanen et al. 2010 (from memory)",
    );
    Ok(FramingWood {
        area: m2(2.1 * envelope.floor.value),
        mass: kg(18.5 * envelope.floor.value),
        density: kg_per_m3(450.0),
        surface_layer: m(0.003),
        // Softwood a centimeter deep, ISO 10456 μ of 20 to 50: 4e-10 to 1e-9 kg/(s·m²·Pa) (from memory).
        inward_permeance: Permeance::si(5.0e-10)?,
        sensitivity: Sensitivity::Sensitive,
        decline: Decline::Wood,
    })
}

/// Half the masonry toward the inside. Hollow block where the product does not say.
fn half_masonry(structure: Option<&Product>) -> Result<Permeance, PhysicsError> {
    match structure.and_then(|p| p.permeance) {
        Some(stated) => Permeance::si(2.0 * stated.mid.value),
        None => Permeance::us_perms(2.0 * 2.4),
    }
}

/// What lies inside of the masonry at a height of a stretch, from the middle of the masonry to the air.
fn permeance(f: &Foundation, wall: usize, band: &Band, assumed: &mut Assumptions) -> Result<Permeance, PhysicsError> {
    let found = f.walls.get(wall).and_then(|w| f.assemblies.get(w.assembly?.0 as usize));
    let structure = found.and_then(|a| a.structure.as_deref());
    if structure.is_some_and(|p| p.permeance.is_none()) || structure.is_none() {
        assumed.note(
            "permeance of masonry that states none",
            "2.4 perm, 8 in hollow block",
            "ASHRAE Handbook of Fundamentals, vapor transmission table (from memory)",
        );
    }
    let mut all = vec![half_masonry(structure)?];
    for work in covering(f, wall, band, "inside") {
        if let Some(stated) = work.product.as_ref().filter(|p| !p.sacrificial).and_then(|p| p.permeance) {
            all.push(Permeance::si(stated.mid.value)?);
        }
    }
    in_series(&all)
}

/// The works on a face that put a layer over the middle of a band, in the order they go on.
pub(super) fn covering<'f>(f: &'f Foundation, wall: usize, band: &Band, face: &str) -> Vec<&'f Work> {
    let found = f.walls.get(wall).and_then(|w| f.assemblies.get(w.assembly?.0 as usize));
    let works = found.and_then(|a| a.face(face)).map(|face| face.works.as_slice()).unwrap_or_default();
    let Some(levels) = levels(f, wall, band) else { return Vec::new() };
    let middle = (band.low + band.high) / 2.0;
    let here = |e: &Extent| {
        let (low, high) = e.on(&levels);
        low < middle && middle < high
    };
    works.iter().filter(|w| w.act.places() && w.extent.as_ref().is_some_and(here)).collect()
}

fn levels(f: &Foundation, wall: usize, band: &Band) -> Option<wythe_model::Levels> {
    wythe_model::geometry::levels_at(f.walls.get(wall)?, (band.from + band.to) / 2.0)
}

/// The bands of all exposed walls, of one kind together.
fn wall_zone_bands(
    f: &Foundation,
    walls: &[WallHeat],
    assumed: &mut Assumptions,
) -> Result<Vec<ZoneBand>, PhysicsError> {
    const KINDS: [(bool, bool, &str); 4] = [
        (true, true, "bare band above grade"),
        (true, false, "insulated wall above grade"),
        (false, true, "bare wall below grade"),
        (false, false, "insulated wall below grade"),
    ];
    assumed.note("heat capacity of masonry", "1.2 MJ/(m³·K) of hollow block, 2.0 of concrete", ASSUMED);
    let mut out = Vec::new();
    for (above, bare, name) in KINDS {
        // Areas, and sums of area over resistance and of area times permeance.
        let [mut area, mut inner, mut masonry, mut vapor, mut thick, mut heat] = [0.0; 6];
        for (index, _) in walls.iter().enumerate().filter(|(_, w)| w.exposed && !w.bands.is_empty()) {
            let structure =
                f.walls.get(index).and_then(|w| f.assemblies.get(w.assembly?.0 as usize)?.structure.as_deref());
            let structure_r = structure.and_then(resistance_of).map_or(insulance_us(1.0).value, |r| r.mid.value);
            let capacity = if structure.is_some_and(|p| p.class == Class::Concrete) { 2.0e6 } else { 1.2e6 };
            for band in wall_bands(f, index, Basis::Design) {
                let a = band.area.value;
                if a <= 0.0 || band.above_grade != above || band.bare != bare {
                    continue;
                }
                // Layers outside of the masonry count with it: the zone knows masonry and what lies inside of it.
                let r_inside = (band.r_total.value - structure_r).max(0.0);
                area += a;
                inner += a / (r_inside + 1e-3);
                masonry += a * structure_r;
                vapor += a * permeance(f, index, &band, assumed)?.to_si();
                thick += a * structure.and_then(|p| p.thickness).map_or(0.19, |t| t.value);
                heat += a * capacity;
            }
        }
        if area > 0.0 {
            out.push(ZoneBand {
                name: name.into(),
                area: m2(area),
                exposure: if above { Exposure::Air } else { Exposure::Ground },
                insulation: insulance_si(if bare { 0.0 } else { (area / inner - 1e-3).max(0.0) }),
                masonry: insulance_si(masonry / area),
                masonry_thickness: m(thick / area),
                masonry_capacity: volumetric_heat_capacity(heat / area),
                permeance: Permeance::si(vapor / area)?,
            });
        }
    }
    Ok(out)
}

/// Doors, plugs and pockets, each kind a band.
fn openings(f: &Foundation, assumed: &mut Assumptions) -> Result<Vec<ZoneBand>, PhysicsError> {
    let [mut door, mut pocket] = [(0.0, 0.0, 0.0); 2];
    for (index, opening) in f.openings.iter().enumerate().filter(|(_, o)| !o.existing) {
        let area = (opening.width * opening.height).value * share_above_grade(f, index).max(0.05);
        let set = plug(f, index);
        let r = set.and_then(resistance_of).map_or(0.2, |r| r.mid.value);
        let w = set.and_then(|p| p.permeance).map_or(1.4e-10, |p| p.mid.value);
        let slot = if opening.kind == OpeningKind::BeamPocket { &mut pocket } else { &mut door };
        *slot = (slot.0 + area, slot.1 + area / (r + 1e-3), slot.2 + area * w);
    }
    let mut out = Vec::new();
    for (name, (area, conductance, vapor)) in [("doors and plugs", door), ("beam pockets", pocket)] {
        if area <= 0.0 {
            continue;
        }
        assumed.note("doors, plugs and beam pockets", "as bands of an inch of board before their insulation", ASSUMED);
        out.push(ZoneBand {
            name: name.into(),
            area: m2(area),
            exposure: Exposure::Air,
            insulation: insulance_si((area / conductance - 1e-3).max(0.0)),
            masonry: insulance_us(1.0),
            masonry_thickness: m(0.025),
            masonry_capacity: volumetric_heat_capacity(0.7e6),
            permeance: Permeance::si(vapor / area)?,
        });
    }
    Ok(out)
}

fn rim_band(f: &Foundation, envelope: &Envelope, assumed: &mut Assumptions) -> Result<ZoneBand, PhysicsError> {
    let (board, insulation) = rim(f, assumed);
    assumed.note("permeance inside of the rim board", "1 perm", ASSUMED);
    Ok(ZoneBand {
        name: "rim".into(),
        area: envelope.perimeter * m(RIM_HEIGHT),
        exposure: Exposure::Air,
        insulation,
        masonry: board,
        masonry_thickness: m(0.038),
        masonry_capacity: volumetric_heat_capacity(0.72e6),
        permeance: Permeance::us_perms(1.0)?,
    })
}
