//! Sums over the reported year: balances of heat and water, bands and months.

use uom::si::f64::{Energy as EnergyQuantity, Mass};
use uom::si::{energy, mass};

use super::moisture::Moved;
use super::result::{HeatTotals, WaterTotals, ZoneBandYear, ZoneHour, ZoneMonth};
use super::space::CrawlSpace;
use super::thermal::Energy;
use crate::quantity::{RelativeHumidity, ZERO_CELSIUS, celsius, ratio};

pub(super) fn kilograms(value: f64) -> Mass {
    Mass::new::<mass::kilogram>(value)
}

fn joules(value: f64) -> EnergyQuantity {
    EnergyQuantity::new::<energy::joule>(value)
}

/// Sums over the reported year.
pub(super) struct Tally {
    energy: Energy,
    energy_flow: f64,
    moved: Moved,
    water_flow: f64,
    pub(super) bands: Vec<ZoneBandYear>,
}

impl Tally {
    pub(super) fn new(space: &CrawlSpace) -> Self {
        Self {
            energy: Energy::default(),
            energy_flow: 0.0,
            moved: Moved::default(),
            water_flow: 0.0,
            bands: space
                .bands
                .iter()
                .map(|band| ZoneBandYear {
                    name: band.name.clone(),
                    coldest: celsius(200.0),
                    highest_humidity: RelativeHumidity::DRY,
                    condensing_hours: 0,
                })
                .collect(),
        }
    }

    pub(super) fn add(&mut self, e: &Energy, m: &Moved) {
        let sum = &mut self.energy;
        sum.walls += e.walls;
        sum.ground += e.ground;
        sum.house += e.house;
        sum.air += e.air;
        sum.equipment += e.equipment;
        sum.stored += e.stored;
        self.energy_flow += e.walls.abs() + e.ground.abs() + e.house.abs() + e.air.abs() + e.equipment.abs();
        let sum = &mut self.moved;
        for (total, part) in [
            (&mut sum.sheet, m.sheet),
            (&mut sum.laps, m.laps),
            (&mut sum.bare, m.bare),
            (&mut sum.walls, m.walls),
            (&mut sum.outside, m.outside),
            (&mut sum.house, m.house),
            (&mut sum.release, m.release),
            (&mut sum.dehumidifier, m.dehumidifier),
            (&mut sum.drained, m.drained),
        ] {
            *total += part;
            self.water_flow += part.abs();
        }
        sum.stored += m.stored;
    }

    pub(super) fn band(&mut self, index: usize, surface: f64, humidity: f64) {
        let band = &mut self.bands[index];
        if celsius(surface) < band.coldest {
            band.coldest = celsius(surface);
        }
        let here = RelativeHumidity::clamped(humidity);
        if here > band.highest_humidity {
            band.highest_humidity = here;
        }
        if humidity > 1.0 + 1e-9 {
            band.condensing_hours += 1;
        }
    }

    pub(super) fn water(&self) -> WaterTotals {
        let m = &self.moved;
        let sum = m.sheet + m.laps + m.bare + m.walls + m.outside + m.house + m.release + m.dehumidifier + m.drained;
        WaterTotals {
            sheet: kilograms(m.sheet),
            laps: kilograms(m.laps),
            bare_soil: kilograms(m.bare),
            walls: kilograms(m.walls),
            outside_air: kilograms(m.outside),
            house_air: kilograms(m.house),
            release: kilograms(m.release),
            dehumidifier: kilograms(m.dehumidifier),
            drained: kilograms(m.drained),
            stored: kilograms(m.stored),
            residual: ratio((sum - m.stored).abs() / self.water_flow.max(1e-12)),
        }
    }

    pub(super) fn heat(&self) -> HeatTotals {
        let e = &self.energy;
        let sum = e.walls + e.ground + e.house + e.air + e.equipment;
        HeatTotals {
            walls: joules(e.walls),
            ground: joules(e.ground),
            house: joules(e.house),
            air: joules(e.air),
            equipment: joules(e.equipment),
            stored: joules(e.stored),
            residual: ratio((sum - e.stored).abs() / self.energy_flow.max(1e-12)),
        }
    }
}

/// Summaries of runs of hours in one month; a year begun in mid-month gives that month twice.
pub(super) fn months(hours: &[ZoneHour]) -> Vec<ZoneMonth> {
    hours
        .chunk_by(|a, b| a.month == b.month)
        .map(|part| {
            let count = part.len() as f64;
            let mean = |of: fn(&ZoneHour) -> f64| part.iter().map(of).sum::<f64>() / count;
            let most = |of: fn(&ZoneHour) -> f64| part.iter().map(of).fold(0.0, f64::max);
            let days = count / 24.0;
            ZoneMonth {
                month: part[0].month,
                hours: u32::try_from(part.len()).unwrap_or(u32::MAX),
                outside: celsius(mean(|h| h.outside.value - ZERO_CELSIUS)),
                air: celsius(mean(|h| h.air.value - ZERO_CELSIUS)),
                humidity: RelativeHumidity::clamped(mean(|h| h.humidity.value())),
                highest_humidity: RelativeHumidity::clamped(most(|h| h.humidity.value())),
                wood_moisture: ratio(mean(|h| h.wood_moisture.value)),
                highest_wood_moisture: ratio(most(|h| h.wood_moisture.value)),
                condensing_hours: u32::try_from(part.iter().filter(|h| h.condenses()).count()).unwrap_or(u32::MAX),
                dehumidifier_per_day: kilograms(mean(|h| h.dehumidifier.value) * count / days),
                ground_water_per_day: kilograms(mean(|h| h.ground_water.value) * count / days),
                mold: part[part.len() - 1].mold,
            }
        })
        .collect()
}
