//! Floor slab on the ground, ISO 13370 clause 7.1: the floor of a space level with the grade.

use uom::si::f64::{HeatTransfer, Length};

use super::{FloorPlan, FloorResistances, Soil, equivalent_thickness, floor_transmittance};
use crate::error::Result;
use crate::quantity::{metre, transmittance_si};

/// A floor on the ground, insulated evenly or not at all.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlabOnGround {
    /// Area and exposed perimeter.
    pub plan: FloorPlan,
    /// Thickness of the outer walls.
    pub wall_thickness: Length,
    /// The ground.
    pub soil: Soil,
    /// Films and floor build-up.
    pub resistances: FloorResistances,
}

/// Steady transmittance of a floor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroundFloor {
    /// U between inside and outside air over the year's mean.
    pub transmittance: HeatTransfer,
    /// Characteristic dimension B.
    pub characteristic_dimension: Length,
    /// Total equivalent thickness d_t.
    pub equivalent_thickness: Length,
}

impl SlabOnGround {
    /// Steady transmittance: 2λ/(πB + d_t)·ln(πB/d_t + 1) for d_t < B, else λ/(0.457B + d_t).
    ///
    /// # Errors
    /// Inputs outside their range.
    pub fn transmittance(&self) -> Result<GroundFloor> {
        let b = self.plan.characteristic_dimension()?.value;
        let lambda = self.soil.lambda()?;
        let d_t = equivalent_thickness(self.wall_thickness, lambda, &self.resistances)?;
        Ok(GroundFloor {
            transmittance: transmittance_si(floor_transmittance(b, d_t, lambda)),
            characteristic_dimension: metre(b),
            equivalent_thickness: metre(d_t),
        })
    }
}
