//! Names of quantity types in the language, and the dimensions they stand for.

use crate::{Dim, Kind};

/// Every quantity type without a kind of its own: name in the language and dimension.
///
/// `Temperature` is the point and `TemperatureDifference` the difference; both have the dimension
/// of temperature, and the type checker tells them apart. `Money` and `Price` are not here: their
/// dimension depends on the currency.
pub const TYPE_NAMES: [(&str, Dim); 33] = [
    ("Number", Dim::NONE),
    ("Length", Dim::LENGTH),
    ("Area", Dim::AREA),
    ("Volume", Dim::VOLUME),
    ("Mass", Dim::MASS),
    ("Time", Dim::TIME),
    ("Duration", Dim::TIME),
    ("TemperatureDifference", Dim::TEMPERATURE),
    ("Temperature", Dim::TEMPERATURE),
    ("Speed", Dim::SPEED),
    ("Force", Dim::FORCE),
    ("Pressure", Dim::PRESSURE),
    ("Energy", Dim::ENERGY),
    ("Power", Dim::POWER),
    ("HeatFlux", Dim::HEAT_FLUX),
    ("ThermalResistance", Dim::AREAL_RESISTANCE),
    ("Transmittance", Dim::TRANSMITTANCE),
    ("ThermalTransmittance", Dim::TRANSMITTANCE),
    ("Conductivity", Dim::CONDUCTIVITY),
    ("ThermalConductivity", Dim::CONDUCTIVITY),
    ("HeatLoss", Dim::CONDUCTANCE),
    ("HeatCapacity", Dim::HEAT_CAPACITY),
    ("SpecificHeat", Dim::SPECIFIC_HEAT),
    ("Permeance", Dim::PERMEANCE),
    ("Flow", Dim::FLOW),
    ("MassFlow", Dim::MASS_FLOW),
    ("MassFlux", Dim::MASS_FLUX),
    ("Density", Dim::DENSITY),
    ("ArealMass", Dim::AREAL_MASS),
    ("LineForce", Dim::LINE_FORCE),
    ("Frequency", Dim::FREQUENCY),
    ("Elevation", Dim::LENGTH),
    ("Ratio", Dim::NONE),
];

impl Dim {
    /// The dimension, and the kind if any, of a quantity type.
    pub fn of_type_name(name: &str) -> Option<(Dim, Option<Kind>)> {
        if let Some(kind) = Kind::of_type_name(name) {
            return Some((kind.dim(), Some(kind)));
        }
        let (_, dim) = TYPE_NAMES.iter().find(|(known, _)| *known == name)?;
        Some((*dim, None))
    }

    /// The first type name of this dimension, if it has one.
    pub fn type_name(self) -> Option<&'static str> {
        TYPE_NAMES.iter().find(|(_, dim)| *dim == self).map(|(name, _)| *name)
    }
}
