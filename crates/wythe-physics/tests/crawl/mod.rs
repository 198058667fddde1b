//! An invented house and an invented humid-summer climate for the zone tests.
#![allow(clippy::unwrap_used, reason = "a test stops at its first surprise")]
#![allow(dead_code, reason = "each test uses a part")]

use uom::si::f64::{Area, Length, Mass, MassDensity, Pressure, Ratio, Velocity, VolumeRate};
use uom::si::{area, length, mass, mass_density, pressure, ratio as ratio_unit, velocity, volume_rate};
use wythe_physics::heat::ground::suspended::WindShielding;
use wythe_physics::heat::ground::{FloorPlan, Soil};
use wythe_physics::mold::class::{Decline, Sensitivity};
use wythe_physics::quantity::{RelativeHumidity, celsius, insulance_si, insulance_us, volumetric_heat_capacity};
use wythe_physics::vapor::permeance::Permeance;
use wythe_physics::weather::{WeatherHour, WeatherOrigin, WeatherYear};
use wythe_physics::zone::scenario::{Beginning, Dehumidifier, GroundCover, House, Scenario, Vents};
use wythe_physics::zone::space::{CrawlSpace, Exposure, FramingWood, ZoneBand};

pub fn m(v: f64) -> Length {
    Length::new::<length::meter>(v)
}
pub fn m2(v: f64) -> Area {
    Area::new::<area::square_meter>(v)
}
pub fn share(v: f64) -> Ratio {
    Ratio::new::<ratio_unit::ratio>(v)
}
pub fn rh(percent: f64) -> RelativeHumidity {
    RelativeHumidity::percent(percent).unwrap()
}
pub fn flow(cubic_metre_per_second: f64) -> VolumeRate {
    VolumeRate::new::<volume_rate::cubic_meter_per_second>(cubic_metre_per_second)
}

/// 28 × 40 ft cottage on 8 in block, crawl floor 0.4 m below grade, foil-faced board inside with a
/// bare band of 0.1 m at the top.
pub fn cottage() -> CrawlSpace {
    let perimeter = 39.8;
    let band = |name: &str, height: f64, exposure, board: f64, perms: f64| ZoneBand {
        name: name.into(),
        area: m2(perimeter * height),
        exposure,
        insulation: insulance_us(board),
        masonry: insulance_us(1.11),
        masonry_thickness: m(0.19),
        masonry_capacity: volumetric_heat_capacity(1.2e6),
        permeance: Permeance::us_perms(perms).unwrap(),
    };
    CrawlSpace {
        plan: FloorPlan { area: m2(95.8), perimeter: m(perimeter) },
        height: m(1.0),
        depth: m(0.4),
        wall_thickness: m(0.19),
        soil: Soil::clay(),
        bands: vec![
            band("below grade", 0.4, Exposure::Ground, 8.9, 0.05),
            band("above grade", 0.5, Exposure::Air, 8.9, 0.05),
            band("bare band", 0.1, Exposure::Air, 0.0, 2.4),
            ZoneBand {
                name: "rim".into(),
                masonry: insulance_us(1.5),
                masonry_thickness: m(0.04),
                ..band("rim", 0.25, Exposure::Air, 13.0, 1.0)
            },
        ],
        floor_above: insulance_si(0.6),
        wood: FramingWood {
            area: m2(260.0),
            mass: Mass::new::<mass::kilogram>(2500.0),
            density: MassDensity::new::<mass_density::kilogram_per_cubic_meter>(450.0),
            surface_layer: m(0.003),
            inward_permeance: Permeance::si(5.0e-10).unwrap(),
            sensitivity: Sensitivity::Sensitive,
            decline: Decline::Wood,
        },
    }
}

/// The same cottage built for a vented space, as is common: insulation in the floor above (about
/// R-19 with the deck), none on the walls.
pub fn vented_cottage() -> CrawlSpace {
    let mut space = cottage();
    space.floor_above = insulance_us(22.0);
    for band in &mut space.bands {
        if band.name != "rim" {
            band.insulation = insulance_si(0.0);
            band.permeance = Permeance::us_perms(2.4).unwrap();
        }
    }
    space
}

/// A permanent liner, sealed but for a hundredth of a percent of the floor.
pub fn sealed_liner() -> GroundCover {
    GroundCover {
        sheet: Permeance::us_perms(0.06).unwrap(),
        unsealed: share(0.0001),
        lap_length: m(30.0),
        lap_width: m(0.3),
        open_laps: share(0.0),
        lap_gap: m(0.001),
        soil_surface: Permeance::si(1.0e-8).unwrap(),
        insulation: insulance_si(0.0),
    }
}

pub fn bare_soil() -> GroundCover {
    GroundCover { unsealed: share(1.0), ..sealed_liner() }
}

pub fn lived_in() -> House {
    House::Conditioned {
        heating: celsius(20.5),
        cooling: celsius(24.0),
        moisture_excess: Pressure::new::<pressure::pascal>(300.0),
        highest_humidity: rh(55.0),
    }
}

pub fn closed() -> Scenario {
    Scenario {
        name: "closed in service".into(),
        cover: sealed_liner(),
        vents: None,
        leakage: flow(0.005),
        supply: flow(0.0),
        exhaust: None,
        dehumidifier: Some(Dehumidifier::rated_at_80_60(share(70.0), rh(55.0)).unwrap()),
        house: lived_in(),
        release: None,
        beginning: Beginning::Periodic,
    }
}

/// One square foot of net vent in 150 of floor, ground covered by a sheet with open laps.
pub fn vented() -> Scenario {
    Scenario {
        name: "vented in service".into(),
        cover: GroundCover { unsealed: share(0.05), open_laps: share(1.0), ..sealed_liner() },
        vents: Some(Vents { net_area: m2(95.8 / 150.0), shielding: WindShielding::Average }),
        leakage: flow(0.005),
        dehumidifier: None,
        ..closed()
    }
}

pub fn construction() -> Scenario {
    Scenario { name: "open during construction".into(), house: House::Open, ..vented() }
}

/// An invented year with cold winters and humid summers. Its means (14.4 °C, dew point 8.2 °C),
/// yearly and daily swings, and the spread of its five-day spells (wide in winter, narrow in
/// summer) are shaped after the months of the typical year of Greensboro, North Carolina, in
/// tests/reference/physics/greensboro_months.csv.
pub fn humid_year() -> WeatherYear {
    let lengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    let mut hours = Vec::with_capacity(8760);
    let mut index = 0;
    for (month, days) in (1..).zip(lengths) {
        for day in 1..=days {
            for hour in 0..24 {
                let year = std::f64::consts::TAU * (f64::from(index) / 8760.0 - 0.055);
                let daily = std::f64::consts::TAU * (f64::from(hour) - 15.0) / 24.0;
                let spell = 2.0_f64.sqrt() * (std::f64::consts::TAU * f64::from(index) / 120.0).sin();
                let (warm, moist) = (4.0 + 2.0 * year.cos(), 4.6 + 2.6 * year.cos());
                let t = 14.4 - 11.8 * year.cos() + 5.0 * daily.cos() + spell * warm;
                let dew = (8.2 - 12.0 * year.cos() + spell * moist).min(t - 0.2);
                let over_water =
                    |t: f64| wythe_physics::air::saturation::saturation_over_water(celsius(t)).unwrap().value;
                hours.push(WeatherHour {
                    month,
                    day,
                    hour,
                    temperature: celsius(t),
                    humidity: RelativeHumidity::new(share(over_water(dew) / over_water(t))).unwrap(),
                    pressure: Pressure::new::<pressure::pascal>(98_500.0),
                    wind: Velocity::new::<velocity::meter_per_second>(3.0),
                });
                index += 1;
            }
        }
    }
    WeatherYear::new(hours, WeatherOrigin::SynthesizedFromMonths).unwrap()
}

/// The same wall as a two-dimensional section.
pub fn wall_in_ground() -> wythe_physics::heat::section::wall_ground::WallGround {
    let lambda = uom::si::f64::ThermalConductivity::new::<uom::si::thermal_conductivity::watt_per_meter_kelvin>;
    wythe_physics::heat::section::wall_ground::WallGround {
        half_width: m(2.4),
        depth: m(0.4),
        height: m(0.6),
        wall_thickness: m(0.19),
        wall_conductivity: lambda(0.97),
        insulation_thickness: m(0.038),
        insulation_conductivity: lambda(0.024),
        bare_band: m(0.1),
        soil_conductivity: lambda(1.5),
        floor: insulance_si(0.0),
        wall_film: insulance_si(0.13),
        floor_film: insulance_si(0.17),
        outside_film: insulance_si(0.04),
        inside: celsius(20.0),
        outside: celsius(0.0),
    }
}
