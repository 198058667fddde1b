//! A small crawl space for the tests of the zone's parts.

use uom::si::f64::{Mass, MassDensity, VolumeRate};
use uom::si::{mass, mass_density, volume_rate};

use super::scenario::{Beginning, GroundCover, House, Scenario};
use super::space::{CrawlSpace, Exposure, FramingWood, ZoneBand};
use crate::heat::ground::{FloorPlan, Soil};
use crate::mold::class::{Decline, Sensitivity};
use crate::quantity::{
    RelativeHumidity, celsius, insulance_si, metre, pascal, ratio, square_metre, volumetric_heat_capacity,
};
use crate::vapor::permeance::Permeance;

fn perms(value: f64) -> Permeance {
    Permeance::us_perms(value).unwrap()
}

/// One hundred square metres with one bare band.
pub(super) fn space() -> CrawlSpace {
    CrawlSpace {
        plan: FloorPlan { area: square_metre(100.0), perimeter: metre(40.0) },
        height: metre(1.0),
        depth: metre(0.3),
        wall_thickness: metre(0.2),
        soil: Soil::sand(),
        bands: vec![ZoneBand {
            name: "wall".into(),
            area: square_metre(30.0),
            exposure: Exposure::Air,
            insulation: insulance_si(0.0),
            masonry: insulance_si(0.2),
            masonry_thickness: metre(0.2),
            masonry_capacity: volumetric_heat_capacity(1.2e6),
            permeance: perms(2.4),
        }],
        floor_above: insulance_si(1.0),
        wood: FramingWood {
            area: square_metre(250.0),
            mass: Mass::new::<mass::kilogram>(2_500.0),
            density: MassDensity::new::<mass_density::kilogram_per_cubic_meter>(450.0),
            surface_layer: metre(0.003),
            inward_permeance: Permeance::si(5.0e-10).unwrap(),
            sensitivity: Sensitivity::Sensitive,
            decline: Decline::Wood,
        },
    }
}

/// Half covered, leaky.
pub(super) fn scenario() -> Scenario {
    Scenario {
        name: "example".into(),
        cover: GroundCover {
            sheet: perms(0.06),
            unsealed: ratio(0.5),
            lap_length: metre(30.0),
            lap_width: metre(0.3),
            open_laps: ratio(0.5),
            lap_gap: metre(0.001),
            soil_surface: Permeance::si(1.0e-8).unwrap(),
            insulation: insulance_si(0.0),
        },
        vents: None,
        leakage: VolumeRate::new::<volume_rate::cubic_meter_per_second>(0.05),
        supply: VolumeRate::default(),
        exhaust: None,
        dehumidifier: None,
        house: House::Conditioned {
            heating: celsius(20.0),
            cooling: celsius(24.0),
            moisture_excess: pascal(300.0),
            highest_humidity: RelativeHumidity::SATURATED,
        },
        release: None,
        beginning: Beginning::Periodic,
    }
}
