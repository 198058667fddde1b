//! Suspended floor over a space vented to the outside, ISO 13370 clause 7.2: the vented crawl
//! space, warm side above the floor.

use uom::si::f64::{HeatTransfer, Length, Ratio, Velocity};

use super::{FloorPlan, FloorResistances, Soil, equivalent_thickness, floor_transmittance};
use crate::admit;
use crate::error::Result;
use crate::quantity::{ThermalInsulance, transmittance_si};

/// Wind shielding of the vents, ISO 13370:2017 table 9.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum WindShielding {
    /// City center: 0.02.
    Sheltered,
    /// Suburb: 0.05.
    Average,
    /// Open country: 0.10.
    Exposed,
}

impl WindShielding {
    /// The factor f_w.
    pub(crate) fn factor(self) -> f64 {
        match self {
            Self::Sheltered => 0.02,
            Self::Average => 0.05,
            Self::Exposed => 0.10,
        }
    }
}

/// A floor over a vented space.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SuspendedFloor {
    /// Area and exposed perimeter.
    pub plan: FloorPlan,
    /// Thickness of the outer walls.
    pub wall_thickness: Length,
    /// The ground.
    pub soil: Soil,
    /// Films at the ground of the space (both downward films) and any insulation R_g on it.
    pub ground: FloorResistances,
    /// Transmittance U_f of the floor above, from house to space.
    pub floor_above: HeatTransfer,
    /// Height h of the floor's upper face over the grade outside.
    pub height: Length,
    /// Transmittance U_w of the space's walls above grade.
    pub wall_above_grade: HeatTransfer,
    /// Vent area ε over the length of perimeter, m²/m.
    pub vent_area: Length,
    /// Mean wind speed v at 10 m.
    pub wind: Velocity,
    /// Wind shielding f_w.
    pub shielding: WindShielding,
}

/// Steady transmittances of a suspended floor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SuspendedTransmittance {
    /// U_g of the ground below the space.
    pub ground: HeatTransfer,
    /// U_x of walls and air exchange, per area of floor.
    pub space: HeatTransfer,
    /// U from house to outside.
    pub transmittance: HeatTransfer,
}

impl SuspendedFloor {
    /// 1/U = 1/U_f + 1/(U_g + U_x), with U_x = 2hU_w/B + 1450·ε·v·f_w/B.
    ///
    /// # Errors
    /// Inputs outside their range.
    pub fn transmittance(&self) -> Result<SuspendedTransmittance> {
        let b = self.plan.characteristic_dimension()?.value;
        let lambda = self.soil.lambda()?;
        let d_g = equivalent_thickness(self.wall_thickness, lambda, &self.ground)?;
        let u_g = floor_transmittance(b, d_g, lambda);
        let u_f = admit::positive("transmittance of the floor", self.floor_above.value, "W/(m²·K)")?;
        let h = admit::not_negative("height above grade", self.height.value, "m")?;
        let u_w =
            admit::not_negative("transmittance of the wall above grade", self.wall_above_grade.value, "W/(m²·K)")?;
        let epsilon = admit::not_negative("vent area", self.vent_area.value, "m²/m")?;
        let v = admit::within("wind speed", self.wind.value, 0.0, 60.0, "m/s")?;
        let u_x = 2.0 * h * u_w / b + 1_450.0 * epsilon * v * self.shielding.factor() / b;
        Ok(SuspendedTransmittance {
            ground: transmittance_si(u_g),
            space: transmittance_si(u_x),
            transmittance: transmittance_si(1.0 / (1.0 / u_f + 1.0 / (u_g + u_x))),
        })
    }
}

/// Ground insulation and the two films at the floor of the space: ISO 13370 takes R_si at the
/// ground as for downward flow.
#[must_use]
pub fn crawl_ground(insulation: ThermalInsulance) -> FloorResistances {
    FloorResistances {
        inside_film: crate::heat::film::inside_film(crate::heat::film::HeatFlow::Downward),
        floor: insulation,
        outside_film: crate::heat::film::outside_film(),
    }
}

/// The air flow through the vents that the constant 1450 of the standard stands for: ε·P·v·f_w
/// times 0.6, taken as a share of net vent area × wind speed.
pub(crate) const VENT_DISCHARGE: f64 = 0.6;

/// Share of vent area × wind speed that passes as air, f_w × discharge: for a volume flow.
pub(crate) fn vent_flow_share(shielding: WindShielding) -> Ratio {
    crate::quantity::ratio(VENT_DISCHARGE * shielding.factor())
}
