//! The longest exposed wall in its ground as a section in two dimensions: what the standard and the band averages leave
//! out, set beside them.

use uom::si::f64::{Length, Ratio, ThermalConductivity};
use wythe_model::Foundation;
use wythe_model::geometry::{Basis, Plan};
use wythe_physics::PhysicsError;
use wythe_physics::heat::film::{HeatFlow, inside_film, outside_film};
use wythe_physics::heat::ground::crawl::CrawlState;
use wythe_physics::heat::section::wall_ground::{INSIDE, WallGround, equivalent_conductivity};
use wythe_physics::quantity::{LinearTransmittance, celsius, insulance_si};
use wythe_source::Symbol;

use super::report::{BandHeat, WallHeat};
use super::{GroundHeat, ground};
use crate::Assumptions;
use crate::assumption::ASSUMED;
use crate::envelope::Envelope;
use crate::figure::{lambda, m, share};

/// The section of a wall with its ground.
#[derive(Clone, Debug, PartialEq)]
pub struct SectionCheck {
    /// The wall.
    pub wall: Symbol,
    /// Heat of wall and half the floor by the section, for each meter of wall and degree.
    pub by_section: LinearTransmittance,
    /// The same by the bands over grade and the standard's ground.
    pub by_standard: LinearTransmittance,
    /// Temperature factor of the coldest spot inside, film of 0.13 m²·K/W.
    pub coldest_factor: Ratio,
    /// Cells of the mesh.
    pub cells: usize,
}

/// The section of the longest exposed wall with a build-up; none where the space is no heated one.
pub(super) fn section(
    f: &Foundation,
    envelope: &Envelope,
    walls: &[WallHeat],
    ground: &GroundHeat,
    assumed: &mut Assumptions,
) -> Result<Option<SectionCheck>, PhysicsError> {
    if ground.state != CrawlState::ClosedConditioned {
        return Ok(None);
    }
    let plan = Plan::of(f, Basis::Design);
    let length = |index: &usize| plan.walls.get(*index).map_or(0.0, |w| w.inside.length().value);
    let known = envelope.exposed.iter().filter(|i| walls.get(**i).is_some_and(|w| !w.bands.is_empty()));
    let Some(&index) = known.max_by(|a, b| length(a).total_cmp(&length(b))) else { return Ok(None) };
    let Some(case) = case(f, envelope, index, walls, ground) else { return Ok(None) };
    assumed.note(
        "section in two dimensions",
        "the first stretch of the longest wall at its own levels, footing taken as soil",
        ASSUMED,
    );
    let (section, by_standard) = case?;
    let solved = section.solve()?;
    let span = section.inside.value - section.outside.value;
    let heat = solved.heat_from.get(INSIDE).map_or(0.0, |q| q.value);
    let coldest = solved.coldest_surface.get(INSIDE).copied().flatten().unwrap_or(section.inside);
    Ok(Some(SectionCheck {
        wall: walls[index].name,
        by_section: lambda(heat / span),
        by_standard,
        coldest_factor: share((coldest.value - section.outside.value) / span),
        cells: solved.cells,
    }))
}

/// The measures of the section and the same heat by bands and standard; none where the wall has no thickness.
fn case(
    f: &Foundation,
    envelope: &Envelope,
    index: usize,
    walls: &[WallHeat],
    ground: &GroundHeat,
) -> Option<Result<(WallGround, LinearTransmittance), PhysicsError>> {
    let (wall, heat) = (f.walls.get(index)?, walls.get(index)?);
    let levels = wall.stretches.first()?.levels;
    let structure = f.assemblies.get(wall.assembly?.0 as usize)?.structure.as_deref()?;
    let thickness = structure.thickness.filter(|t| t.value > 0.0)?;
    let resistance = super::resistance_of(structure)?.mid;
    // The insulated band that begins lowest stands for the insulation; the bare one over it for the band.
    let in_first = |b: &&BandHeat| b.from.value <= heat.bands.first().map_or(0.0, |f| f.from.value) + 1e-6;
    let insulated = heat.bands.iter().filter(in_first).find(|b| !b.bare);
    let bare: f64 = heat.bands.iter().filter(in_first).filter(|b| b.bare).map(|b| (b.high - b.low).value).sum();
    let added = insulated.map_or(0.0, |b| (b.resistance.mid.value - resistance.value).max(0.0));
    let board = heat.layers.iter().filter(|l| l.face == "inside" && l.resistance.is_some()).filter_map(|l| l.thickness);
    let board: f64 = board.map(|t| t.value).sum::<f64>().max(0.01);
    let depth = (levels.grade - levels.ground).max(Length::default());
    let height = (levels.top - levels.grade.max(levels.ground)).max(Length::default());
    let build = || {
        let measures = WallGround {
            half_width: ground.dimension * 0.5,
            depth,
            height,
            wall_thickness: thickness,
            wall_conductivity: equivalent_conductivity(thickness, resistance)?,
            insulation_thickness: m(if added > 0.0 { board } else { 0.0 }),
            insulation_conductivity: conductivity(board, added),
            bare_band: m(bare),
            soil_conductivity: ground.soil.mid,
            floor: ground::ground_insulation(f),
            wall_film: inside_film(HeatFlow::Horizontal),
            floor_film: inside_film(HeatFlow::Downward),
            outside_film: outside_film(),
            inside: celsius(20.0),
            outside: celsius(0.0),
        };
        Ok((measures, by_standard(envelope, heat, ground, depth)))
    };
    Some(build())
}

fn conductivity(thickness: f64, resistance: f64) -> ThermalConductivity {
    lambda(if resistance > 0.0 { thickness / resistance } else { 1.0 })
}

/// Half the floor, the wall below grade and the bands of the first stretch over grade, for a meter of wall.
fn by_standard(envelope: &Envelope, wall: &WallHeat, ground: &GroundHeat, depth: Length) -> LinearTransmittance {
    let from = wall.bands.first().map_or(0.0, |b| b.from.value);
    let first = wall.bands.iter().filter(|b| b.above_grade && b.from.value <= from + 1e-6);
    let films = insulance_si(0.13 + 0.04).value - 0.85 * 0.176_110;
    let over: f64 = first.map(|b| (b.high - b.low).value / (1.0 / b.without_fasteners.value + films)).sum();
    let below = ground.chosen.wall.map_or(0.0, |u| u.mid.value) * depth.value;
    let floor = ground.chosen.floor.mid.value * (envelope.floor / envelope.perimeter).value;
    lambda(over + below + floor)
}
