//! How a crawl space is kept: its ground cover, its air exchange, its equipment and the house
//! above it.

use uom::si::f64::{Area, Length, Mass, MassRate, Pressure, Ratio, ThermodynamicTemperature, Time, VolumeRate};
use uom::si::mass_per_energy::kilogram_per_joule;

use crate::air::saturation::saturation;
use crate::error::Result;
use crate::heat::ground::suspended::WindShielding;
use crate::quantity::{RelativeHumidity, ThermalInsulance, fahrenheit};
use crate::vapor::permeance::Permeance;

/// Cover of the ground. Bare soil is a cover with an unsealed share of one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroundCover {
    /// Permeance of the sheet.
    pub sheet: Permeance,
    /// Share of the floor left bare: gaps at walls and piers, tears, uncovered ground.
    pub unsealed: Ratio,
    /// Length of all laps.
    pub lap_length: Length,
    /// Width of overlap, along which vapor must pass an open lap.
    pub lap_width: Length,
    /// Share of the laps left unsealed.
    pub open_laps: Ratio,
    /// Height of the gap in an open lap.
    pub lap_gap: Length,
    /// Permeance of the top of the soil where it is bare; large for wet soil. A dry crust lowers
    /// it (assumption to be varied: no table is at hand).
    pub soil_surface: Permeance,
    /// Insulation laid on the ground under the cover.
    pub insulation: ThermalInsulance,
}

/// Vents to the outside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vents {
    /// Net free area of all of them.
    pub net_area: Area,
    /// Shielding from wind. The flow is 0.6·f_w × area × wind speed, which is what the constant of
    /// ISO 13370's suspended floor stands for.
    pub shielding: WindShielding,
}

/// A fan that draws crawl air to the outside; the same volume follows it in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exhaust {
    /// Flow.
    pub flow: VolumeRate,
    /// Share of the air that follows from the house; the rest comes from outside.
    pub from_house: Ratio,
}

/// A dehumidifier with its rating.
///
/// Removal is taken as linear in the vapor pressure of the air, from nothing at `floor` to the
/// rating at the rating condition, and no more beyond it. With the floor at 611 Pa (a coil at 0 °C), 65 °F and 60 % gives
/// 44 % of the 80 °F and 60 % rating; common practice, no source, says "near half".
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dehumidifier {
    /// Water removed at the rating condition.
    pub rated: MassRate,
    /// Air temperature of the rating.
    pub rated_temperature: ThermodynamicTemperature,
    /// Relative humidity of the rating.
    pub rated_humidity: RelativeHumidity,
    /// Vapor pressure at which removal ends.
    pub floor: Pressure,
    /// Humidity it holds.
    pub set_point: RelativeHumidity,
    /// Water removed per electric energy, in kg/J (1.8 L/kWh is 5·10⁻⁷).
    pub efficiency: uom::si::f64::MassPerEnergy,
}

impl Dehumidifier {
    /// A machine rated in US pints a day at 80 °F and 60 %, with 1.8 L/kWh and a floor of 611 Pa
    /// (assumptions).
    ///
    /// # Errors
    /// A rating that is not positive.
    pub fn rated_at_80_60(pints_a_day: Ratio, set_point: RelativeHumidity) -> Result<Self> {
        let pints = crate::admit::positive("rating", pints_a_day.value, "pint/day")?;
        // 1 US liquid pint = 0.473176473 L, exact; water at 1 kg/L.
        Ok(Self {
            rated: MassRate::new::<uom::si::mass_rate::kilogram_per_second>(pints * 0.473_176_473 / 86_400.0),
            rated_temperature: fahrenheit(80.0),
            rated_humidity: RelativeHumidity::percent(60.0)?,
            floor: crate::quantity::pascal(611.0),
            set_point,
            efficiency: uom::si::f64::MassPerEnergy::new::<kilogram_per_joule>(5.0e-7),
        })
    }

    /// Water it can remove from air of a vapor pressure.
    ///
    /// # Errors
    /// A rating condition drier than the floor.
    pub fn capacity(&self, vapor: Pressure) -> Result<MassRate> {
        let (slope, floor) = self.line()?;
        Ok(MassRate::new::<uom::si::mass_rate::kilogram_per_second>(
            (slope * (vapor.value - floor).max(0.0)).min(self.rated.value),
        ))
    }

    /// Slope (kg/(s·Pa)) and floor (Pa) of the removal line.
    pub(crate) fn line(&self) -> Result<(f64, f64)> {
        let rated = crate::admit::positive("dehumidifier rating", self.rated.value, "kg/s")?;
        let floor = crate::admit::not_negative("dehumidifier floor", self.floor.value, "Pa")?;
        let at_rating = saturation(self.rated_temperature)?.value * self.rated_humidity.ratio().value;
        let span =
            crate::admit::positive("vapor pressure of the rating condition over the floor", at_rating - floor, "Pa")?;
        Ok((rated / span, floor))
    }
}

/// The house above.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum House {
    /// Open to the outside: under construction.
    Open,
    /// Kept between a heating and a cooling temperature.
    Conditioned {
        /// Lowest temperature, held by heating.
        heating: ThermodynamicTemperature,
        /// Highest temperature, held by cooling.
        cooling: ThermodynamicTemperature,
        /// Vapor pressure that people and cooking add to that of the outside air
        /// (ISO 13788 annex A classes: roughly 100 to 800 Pa).
        moisture_excess: Pressure,
        /// Highest relative humidity, held by cooling.
        highest_humidity: RelativeHumidity,
    },
}

/// Water released into the space over time: drying concrete, masonry, green lumber elsewhere.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaterRelease {
    /// All the water to be released.
    pub total: Mass,
    /// Time constant of the decay.
    pub time_constant: Time,
}

/// Where a run begins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Beginning {
    /// At the first hour of the weather, in the state that repeats year after year.
    Periodic,
    /// At an hour of the weather year with framing of a given moisture content, as built; the
    /// temperatures are those of the repeating year.
    Built {
        /// Hour of the weather year, from 0.
        hour: usize,
        /// Moisture content of the framing.
        wood_moisture: Ratio,
    },
}

/// One way of keeping a crawl space.
#[derive(Debug, Clone, PartialEq)]
pub struct Scenario {
    /// Name, for the report.
    pub name: String,
    /// Ground cover.
    pub cover: GroundCover,
    /// Vents to the outside, if open.
    pub vents: Option<Vents>,
    /// Leakage of outside air through the walls and hatch.
    pub leakage: VolumeRate,
    /// House air blown in.
    pub supply: VolumeRate,
    /// Exhaust fan.
    pub exhaust: Option<Exhaust>,
    /// Dehumidifier.
    pub dehumidifier: Option<Dehumidifier>,
    /// The house above.
    pub house: House,
    /// Built-in water released from the first reported hour.
    pub release: Option<WaterRelease>,
    /// Where the reported year begins.
    pub beginning: Beginning,
}
