//! Surface temperatures and the temperature factor f_Rsi: where mold or water would show first.

use uom::si::f64::{HeatTransfer, Ratio, ThermodynamicTemperature};

use crate::admit;
use crate::air::saturation::{saturation_iso_13788, temperature_at_saturation_iso_13788};
use crate::error::{PhysicsError, Result};
use crate::quantity::{RelativeHumidity, ThermalInsulance, ZERO_CELSIUS, kelvin, pascal, ratio};

/// Temperature factor of a plane surface: f_Rsi = 1 − U·R_si, ISO 13788:2012 clause 4.3 with
/// one-dimensional flow.
///
/// # Errors
/// Inputs that are not positive, or a film that is more than the whole resistance.
pub fn temperature_factor(transmittance: HeatTransfer, inside: ThermalInsulance) -> Result<Ratio> {
    let u = admit::positive("transmittance", transmittance.value, "W/(m²·K)")?;
    let r = admit::positive("inside film", inside.value, "m²·K/W")?;
    if u * r >= 1.0 {
        return Err(PhysicsError::Contradiction {
            what: "inside film".into(),
            why: "is more than the total resistance of the build-up".into(),
        });
    }
    Ok(ratio(1.0 - u * r))
}

/// Temperature factor from a computed surface temperature, for two- and three-dimensional spots.
///
/// # Errors
/// Inside and outside at the same temperature, values that are not finite.
pub fn temperature_factor_from(
    surface: ThermodynamicTemperature,
    inside: ThermodynamicTemperature,
    outside: ThermodynamicTemperature,
) -> Result<Ratio> {
    let span = admit::finite("temperature difference", inside.value - outside.value)?;
    let rise = admit::finite("surface temperature", surface.value - outside.value)?;
    if span.abs() < 1e-9 {
        return Err(PhysicsError::Contradiction {
            what: "inside and outside temperature".into(),
            why: "are equal, so that no temperature factor exists".into(),
        });
    }
    Ok(ratio(rise / span))
}

/// Surface temperature of a spot with a given temperature factor.
#[must_use]
pub fn surface_temperature(
    factor: Ratio,
    inside: ThermodynamicTemperature,
    outside: ThermodynamicTemperature,
) -> ThermodynamicTemperature {
    kelvin(outside.value + factor.value * (inside.value - outside.value))
}

/// Inside and outside air of one month.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MonthlyAir {
    /// Mean inside air temperature.
    pub inside: ThermodynamicTemperature,
    /// Mean inside relative humidity.
    pub inside_humidity: RelativeHumidity,
    /// Mean outside air temperature.
    pub outside: ThermodynamicTemperature,
}

/// What a month asks of a surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RequiredFactor {
    /// Lowest acceptable surface temperature.
    pub surface: ThermodynamicTemperature,
    /// Temperature factor that reaches it; none where the outside is as warm as that surface
    /// needs to be.
    pub factor: Option<Ratio>,
}

/// Lowest temperature factor that keeps the relative humidity at a surface at or below
/// `criterion` (0.8 against mold, 1.0 against condensation), ISO 13788:2012 clause 5.
///
/// # Errors
/// Temperatures outside −100 to 200 °C, dry inside air, a criterion of zero.
pub fn required_factor(month: &MonthlyAir, criterion: RelativeHumidity) -> Result<RequiredFactor> {
    let limit = admit::positive("surface humidity criterion", criterion.value(), "")?;
    let humidity = admit::positive("inside relative humidity", month.inside_humidity.value(), "")?;
    let vapor = saturation_iso_13788(month.inside)?.value * humidity;
    let surface = temperature_at_saturation_iso_13788(pascal(vapor / limit))?;
    admit::within("outside temperature", month.outside.value - ZERO_CELSIUS, -100.0, 200.0, "°C")?;
    let span = month.inside.value - month.outside.value;
    let factor = if span > 1e-9 && surface.value > month.outside.value {
        Some(ratio((surface.value - month.outside.value) / span))
    } else {
        None
    };
    Ok(RequiredFactor { surface, factor })
}

/// The month that asks the most of a surface, by index into `months`, with its requirement.
///
/// # Errors
/// An empty list, or an error of [`required_factor`].
pub fn critical_month(months: &[MonthlyAir], criterion: RelativeHumidity) -> Result<(usize, RequiredFactor)> {
    let mut worst: Option<(usize, RequiredFactor)> = None;
    for (index, month) in months.iter().enumerate() {
        let need = required_factor(month, criterion)?;
        let harder = match (&worst, need.factor) {
            (None, _) => true,
            (Some((_, held)), Some(factor)) => held.factor.is_none_or(|h| factor > h),
            (Some(_), None) => false,
        };
        if harder {
            worst = Some((index, need));
        }
    }
    worst.ok_or(PhysicsError::Empty { what: "list of months".into() })
}

/// A spot in the month in which its surface is the most humid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpotInMonth {
    /// Index into the months given.
    pub month: usize,
    /// Surface temperature in that month.
    pub surface: ThermodynamicTemperature,
    /// Relative humidity at the surface; saturated where water would condense.
    pub humidity: RelativeHumidity,
    /// Whether the humidity keeps to the criterion.
    pub acceptable: bool,
}

/// The worst month of a spot of known temperature factor: the band, the sill, the hatch, a pier.
///
/// # Errors
/// An empty list, a factor outside 0 to 1, temperatures outside −100 to 200 °C.
pub fn worst_month(factor: Ratio, months: &[MonthlyAir], criterion: RelativeHumidity) -> Result<SpotInMonth> {
    admit::within("temperature factor", factor.value, 0.0, 1.0, "")?;
    let mut worst: Option<(f64, SpotInMonth)> = None;
    for (index, month) in months.iter().enumerate() {
        let surface = surface_temperature(factor, month.inside, month.outside);
        let vapor = saturation_iso_13788(month.inside)?.value * month.inside_humidity.value();
        let share = vapor / saturation_iso_13788(surface)?.value;
        if worst.as_ref().is_none_or(|(held, _)| share > *held) {
            let spot = SpotInMonth {
                month: index,
                surface,
                humidity: RelativeHumidity::clamped(share),
                acceptable: share <= criterion.value(),
            };
            worst = Some((share, spot));
        }
    }
    worst.map(|(_, spot)| spot).ok_or(PhysicsError::Empty { what: "list of months".into() })
}
