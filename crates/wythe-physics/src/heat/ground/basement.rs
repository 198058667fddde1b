//! Basements, ISO 13370 clauses 7.3 to 7.5: heated (the closed conditioned crawl below grade)
//! and unheated.

use std::f64::consts::PI;

use uom::si::f64::{Frequency, HeatTransfer, Length, Volume};

use super::{FloorPlan, FloorResistances, Soil, equivalent_thickness, floor_transmittance};
use crate::admit;
use crate::error::Result;
use crate::quantity::{LinearTransmittance, ThermalInsulance, conductivity_si, metre, transmittance_si};

/// A heated space whose floor lies below the grade.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeatedBasement {
    /// Area and exposed perimeter of the floor.
    pub plan: FloorPlan,
    /// Depth z of the floor below grade; at most about the height of the wall.
    pub depth: Length,
    /// Thickness of the walls at grade.
    pub wall_thickness: Length,
    /// The ground.
    pub soil: Soil,
    /// Films and build-up of the floor.
    pub floor: FloorResistances,
    /// Inside film of the wall.
    pub wall_film: ThermalInsulance,
    /// Build-up of the wall below grade, films left out.
    pub wall: ThermalInsulance,
}

/// Steady transmittances of a heated basement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BasementTransmittance {
    /// U_bf of the floor.
    pub floor: HeatTransfer,
    /// U_bw of the wall below grade.
    pub wall: HeatTransfer,
    /// Effective U' over floor and wall together.
    pub effective: HeatTransfer,
    /// Equivalent thickness d_t of the floor.
    pub floor_thickness: Length,
    /// Equivalent thickness d_w of the wall.
    pub wall_thickness: Length,
}

impl HeatedBasement {
    /// Floor with d_t + z/2; wall 2λ/(πz)·(1 + 0.5 d_t/(d_t + z))·ln(z/d_w + 1).
    ///
    /// # Errors
    /// Inputs outside their range; a depth that is not positive (use the slab form instead).
    pub fn transmittance(&self) -> Result<BasementTransmittance> {
        let (area, perimeter) = self.plan.admitted()?;
        let b = area / (0.5 * perimeter);
        let lambda = self.soil.lambda()?;
        let z = admit::within("depth below grade", self.depth.value, 1e-6, 20.0, "m")?;
        let d_t = equivalent_thickness(self.wall_thickness, lambda, &self.floor)?;
        let film = admit::not_negative("inside film of the wall", self.wall_film.value, "m²·K/W")?;
        let r_w = admit::not_negative("resistance of the wall", self.wall.value, "m²·K/W")?;
        let d_w = admit::positive(
            "equivalent thickness of the wall",
            lambda * (film + r_w + self.floor.outside_film.value),
            "m",
        )?;
        let u_bf = if d_t + 0.5 * z < b {
            2.0 * lambda / (PI * b + d_t + 0.5 * z) * (PI * b / (d_t + 0.5 * z) + 1.0).ln()
        } else {
            floor_transmittance(b, d_t + 0.5 * z, lambda)
        };
        // The standard replaces d_t by d_w in the wall formula where the wall is the weaker.
        let d_for_wall = if d_w < d_t { d_w } else { d_t };
        let u_bw = 2.0 * lambda / (PI * z) * (1.0 + 0.5 * d_for_wall / (d_for_wall + z)) * (z / d_w + 1.0).ln();
        let effective = (area * u_bf + z * perimeter * u_bw) / (area + z * perimeter);
        Ok(BasementTransmittance {
            floor: transmittance_si(u_bf),
            wall: transmittance_si(u_bw),
            effective: transmittance_si(effective),
            floor_thickness: metre(d_t),
            wall_thickness: metre(d_w),
        })
    }
}

/// What lies above an unheated basement or a closed but unconditioned crawl space.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UnheatedAbove {
    /// Transmittance U_f of the floor between house and space.
    pub floor: HeatTransfer,
    /// Height h of the floor's upper face over the grade.
    pub height: Length,
    /// Transmittance U_w of the space's walls above grade.
    pub wall: HeatTransfer,
    /// Air volume V of the space.
    pub volume: Volume,
    /// Air changes n of the space with outside, per hour in the standard.
    pub air_changes: Frequency,
}

/// Transmittance between house and outside over an unheated basement:
/// 1/U = 1/U_f + A/(A·U_bf + zP·U_bw + hP·U_w + 0.33·n·V), ISO 13370 clause 7.4.
///
/// # Errors
/// Inputs outside their range.
pub fn unheated_basement(basement: &HeatedBasement, above: &UnheatedAbove) -> Result<HeatTransfer> {
    let below = basement.transmittance()?;
    let (area, perimeter) = basement.plan.admitted()?;
    let u_f = admit::positive("transmittance of the floor", above.floor.value, "W/(m²·K)")?;
    let h = admit::not_negative("height above grade", above.height.value, "m")?;
    let u_w = admit::not_negative("transmittance of the wall", above.wall.value, "W/(m²·K)")?;
    let volume = admit::not_negative("air volume", above.volume.value, "m³")?;
    let changes = admit::not_negative("air changes", above.air_changes.value * 3_600.0, "1/h")?;
    let conductance = area * below.floor.value
        + basement.depth.value * perimeter * below.wall.value
        + h * perimeter * u_w
        + 0.33 * changes * volume;
    Ok(transmittance_si(1.0 / (1.0 / u_f + area / conductance)))
}

/// Linear transmittance that the walls below grade add per metre of perimeter, z·U_bw.
#[must_use]
pub fn wall_below_grade(below: &BasementTransmittance, depth: Length) -> LinearTransmittance {
    conductivity_si(below.wall.value * depth.value)
}
