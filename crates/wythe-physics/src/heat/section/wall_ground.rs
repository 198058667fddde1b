//! The crawl wall in its ground as a two-dimensional section: insulated inside up to the bare
//! band, footing left as soil, ground out to where it no longer matters.

use uom::si::f64::{Length, ThermalConductivity, ThermodynamicTemperature};

use super::mesh::Fineness;
use super::shape::{Environment, Fill, Rectangle, Section, Side};
use super::solve::{SectionSolution, solve};
use crate::admit;
use crate::error::{PhysicsError, Result};
use crate::quantity::{ThermalInsulance, conductivity_si, insulance_si, metre, ratio};

/// Inside air, by index, in the section of a wall and its ground.
pub const INSIDE: usize = 0;
/// Outside air, by index.
pub const OUTSIDE: usize = 1;

/// Measures of the section. The grade outside is the level y = 0; the outer face of the wall is
/// x = 0, with the crawl space to the left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WallGround {
    /// Half the characteristic dimension of the floor: inside width of the section, to the line of
    /// symmetry (ISO 10211:2017 table 1).
    pub half_width: Length,
    /// Depth of the crawl floor below grade; zero for a slab on ground.
    pub depth: Length,
    /// Height of the top of the wall above grade; zero leaves out the wall above.
    pub height: Length,
    /// Thickness of the masonry or concrete wall.
    pub wall_thickness: Length,
    /// Conductivity of the wall.
    pub wall_conductivity: ThermalConductivity,
    /// Thickness of insulation on the inside of the wall; zero for none.
    pub insulation_thickness: Length,
    /// Conductivity of that insulation.
    pub insulation_conductivity: ThermalConductivity,
    /// Height of the bare band left between insulation and top of wall.
    pub bare_band: Length,
    /// Conductivity of the soil.
    pub soil_conductivity: ThermalConductivity,
    /// Resistance of the floor build-up, added to its film.
    pub floor: ThermalInsulance,
    /// Film of the inside wall surface.
    pub wall_film: ThermalInsulance,
    /// Film of the floor.
    pub floor_film: ThermalInsulance,
    /// Film of wall and ground outside.
    pub outside_film: ThermalInsulance,
    /// Inside air temperature.
    pub inside: ThermodynamicTemperature,
    /// Outside air temperature, mean of the year for the steady ground loss.
    pub outside: ThermodynamicTemperature,
}

impl WallGround {
    /// The section with ground out to 2.5 times the floor's width and as deep, the cut-off of
    /// ISO 10211:2017 table 1.
    ///
    /// # Errors
    /// Measures that are not positive where they must be, or a band taller than the wall.
    pub fn section(&self) -> Result<Section> {
        let half = admit::positive("half width of the floor", self.half_width.value, "m")?;
        let z = admit::within("depth below grade", self.depth.value, 0.0, 20.0, "m")?;
        let h = admit::within("height above grade", self.height.value, 0.0, 20.0, "m")?;
        let w = admit::positive("wall thickness", self.wall_thickness.value, "m")?;
        let d = admit::not_negative("insulation thickness", self.insulation_thickness.value, "m")?;
        let band = admit::not_negative("bare band", self.bare_band.value, "m")?;
        admit::not_negative("floor resistance", self.floor.value, "m²·K/W")?;
        if d > 0.0 && band > z + h {
            return Err(PhysicsError::Contradiction {
                what: "bare band".into(),
                why: "is taller than the wall".into(),
            });
        }
        let reach = 2.5 * 2.0 * half;
        let left = -w - half;
        let paint = |x: [f64; 2], y: [f64; 2], fill| Rectangle {
            left: metre(x[0]),
            right: metre(x[1]),
            bottom: metre(y[0]),
            top: metre(y[1]),
            fill,
        };
        let soil = Fill::Solid(self.soil_conductivity);
        let mut rectangles = vec![paint([left, reach], [-z - reach, 0.0], soil)];
        if h > 0.0 {
            rectangles.push(paint([0.0, reach], [0.0, h], Fill::Air(OUTSIDE)));
            rectangles.push(paint([left, -w], [-z, h], Fill::Air(INSIDE)));
            rectangles.push(paint([-w, 0.0], [-z, h], Fill::Solid(self.wall_conductivity)));
        } else {
            if z > 0.0 {
                rectangles.push(paint([left, -w], [-z, 0.0], Fill::Air(INSIDE)));
                rectangles.push(paint([-w, 0.0], [-z, 0.0], Fill::Solid(self.wall_conductivity)));
            }
            // A thin slice above grade carries the airs; the wall's top passes no heat.
            let slice = 0.05;
            rectangles.push(paint([left, -w], [0.0, slice], Fill::Air(INSIDE)));
            rectangles.push(paint([-w, 0.0], [0.0, slice], Fill::Cut));
            rectangles.push(paint([0.0, reach], [0.0, slice], Fill::Air(OUTSIDE)));
        }
        if d > 0.0 && z + h > band {
            rectangles.push(paint([-w - d, -w], [-z, h - band], Fill::Solid(self.insulation_conductivity)));
        }
        Ok(Section {
            rectangles,
            environments: vec![
                Environment {
                    temperature: self.inside,
                    upright_film: self.wall_film,
                    level_film: insulance_si(self.floor_film.value + self.floor.value),
                },
                Environment {
                    temperature: self.outside,
                    upright_film: self.outside_film,
                    level_film: self.outside_film,
                },
            ],
            left: Side::Adiabatic,
            right: Side::Adiabatic,
            bottom: Side::Adiabatic,
            top: Side::Adiabatic,
        })
    }

    /// Solves the section with cells from 10 mm at the edges, each `growth` wider than the last.
    ///
    /// # Errors
    /// As [`WallGround::section`] and [`solve`].
    pub fn solve(&self) -> Result<SectionSolution> {
        solve(&self.section()?, &default_fineness(self.half_width))
    }
}

/// A mesh fine enough that halving every cell changes U by less than 0.5 % (tested).
#[must_use]
pub fn default_fineness(half_width: Length) -> Fineness {
    Fineness { finest: metre(0.01), coarsest: metre((0.25 * half_width.value).max(0.02)), growth: ratio(1.25) }
}

/// Equivalent conductivity of a wall of known resistance and thickness, for the section.
///
/// # Errors
/// A thickness or resistance that is not positive.
pub fn equivalent_conductivity(thickness: Length, resistance: ThermalInsulance) -> Result<ThermalConductivity> {
    let d = admit::positive("wall thickness", thickness.value, "m")?;
    let r = admit::positive("wall resistance", resistance.value, "m²·K/W")?;
    Ok(conductivity_si(d / r))
}
