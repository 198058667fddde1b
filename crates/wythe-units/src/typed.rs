//! Between run-time quantities and the compile-time typed ones the physics takes.

use uom::si::f64::{
    Angle, Area, Energy, Force, HeatCapacity, HeatFluxDensity, HeatTransfer, Length, Mass, MassDensity, Power,
    Pressure, Ratio, SpecificHeatCapacity, TemperatureInterval, ThermalConductance, ThermalConductivity,
    ThermodynamicTemperature, Time, Velocity, Volume, VolumeRate,
};
use uom::si::{ISQ, Quantity as Typed, SI};
use uom::typenum::{N1, N2, P1, P3, Z0};

use crate::{ArithmeticError, Dim, Quantity, QuantityError, Scalar};

/// Thermal resistance of an area, m²·K/W.
pub type ArealThermalResistance = Typed<ISQ<Z0, N1, P3, Z0, P1, Z0, Z0>, SI<f64>, f64>;

/// Thermal transmittance, W/(m²·K): the library calls it heat transfer.
pub type ThermalTransmittance = HeatTransfer;

/// Water vapor permeance, kg/(s·m²·Pa).
pub type Permeance = Typed<ISQ<N1, Z0, P1, Z0, Z0, Z0, Z0>, SI<f64>, f64>;

/// Water vapor permeability, kg/(s·m·Pa): the same type as time.
pub type VaporPermeability = Time;

/// Mass flow, kg/s.
pub type MassFlow = uom::si::f64::MassRate;

/// Mass flow through an area, kg/(m²·s).
type MassFlux = Typed<ISQ<N2, P1, N1, Z0, Z0, Z0, Z0>, SI<f64>, f64>;

/// The value of a quantity that must have this dimension.
fn expect(quantity: Quantity, dim: Dim) -> Result<f64, QuantityError> {
    if quantity.dim == dim {
        Ok(quantity.value.to_f64())
    } else {
        Err(QuantityError::Dimension { left: quantity.dim, right: dim })
    }
}

macro_rules! typed {
    ($($typed:ty => $dim:expr;)*) => {$(
        impl TryFrom<Quantity> for $typed {
            type Error = QuantityError;

            fn try_from(quantity: Quantity) -> Result<Self, QuantityError> {
                let value = expect(quantity, $dim)?;
                Ok(Self { dimension: Default::default(), units: Default::default(), value })
            }
        }

        impl TryFrom<$typed> for Quantity {
            type Error = ArithmeticError;

            fn try_from(typed: $typed) -> Result<Self, ArithmeticError> {
                Ok(Quantity::new(Scalar::approx(typed.value)?, $dim))
            }
        }
    )*};
}

typed! {
    Ratio => Dim::NONE;
    Angle => Dim::ANGLE;
    Length => Dim::LENGTH;
    Area => Dim::AREA;
    Volume => Dim::VOLUME;
    Mass => Dim::MASS;
    Time => Dim::TIME;
    TemperatureInterval => Dim::TEMPERATURE;
    ThermodynamicTemperature => Dim::TEMPERATURE;
    Velocity => Dim::SPEED;
    Force => Dim::FORCE;
    Pressure => Dim::PRESSURE;
    Energy => Dim::ENERGY;
    Power => Dim::POWER;
    HeatFluxDensity => Dim::HEAT_FLUX;
    ArealThermalResistance => Dim::AREAL_RESISTANCE;
    ThermalTransmittance => Dim::TRANSMITTANCE;
    ThermalConductivity => Dim::CONDUCTIVITY;
    ThermalConductance => Dim::CONDUCTANCE;
    HeatCapacity => Dim::HEAT_CAPACITY;
    SpecificHeatCapacity => Dim::SPECIFIC_HEAT;
    Permeance => Dim::PERMEANCE;
    VolumeRate => Dim::FLOW;
    MassFlow => Dim::MASS_FLOW;
    MassFlux => Dim::MASS_FLUX;
    MassDensity => Dim::DENSITY;
}
