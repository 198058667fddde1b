//! Mold at a spot that is colder than the framing, from the hours of the zone and the spot's temperature factor.

use uom::si::f64::Ratio;

use super::result::ZoneHour;
use crate::air::saturation::saturation_over_water;
use crate::heat::surface::surface_temperature;
use crate::mold::class::{Decline, Sensitivity};
use crate::mold::growth::{MoldIndex, MoldSurface};
use crate::quantity::RelativeHumidity;

/// The highest mold index over the hours at a surface whose temperature lies the share `factor` of the way from the
/// outside air to the air of the space (ISO 13788:2012, 4.2), with the vapor of that air; from a clean start.
#[must_use]
pub fn highest_mold_at(hours: &[ZoneHour], factor: Ratio, sensitivity: Sensitivity, decline: Decline) -> MoldIndex {
    let mut surface = MoldSurface::clean(sensitivity, decline);
    let mut highest = surface.index();
    for hour in hours {
        let at = surface_temperature(factor, hour.air, hour.outside);
        // The zone admits only temperatures for which both are known.
        let (Ok(air), Ok(full)) = (saturation_over_water(hour.air), saturation_over_water(at)) else { continue };
        let humidity = RelativeHumidity::clamped(hour.humidity.ratio().value * (air / full).value);
        if let Ok(index) = surface.advance(at, humidity)
            && index > highest
        {
            highest = index;
        }
    }
    highest
}
