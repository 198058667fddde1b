//! Water of the zone: the vapor pressure of the air found each step from every flow at once.
//!
//! Every flow falls as the vapor pressure rises, so the balance has one root, and the pieces are
//! straight, so Newton's method ends in a few steps. Stores change by the flows themselves, so that
//! the water balance closes to rounding.

use super::curve::Curves;
use super::scenario::Scenario;
use super::space::CrawlSpace;
use crate::admit;
use crate::air::state::MASS_RATIO;
use crate::error::Result;
use crate::vapor::permeance::{Permeance, STILL_AIR, in_series};

/// Gas constant of water vapor, J/(kg·K).
const GAS_CONSTANT_VAPOR: f64 = 461.5;
/// Surface coefficient of vapor transfer, kg/(s·m²·Pa): Lewis relation with 3 W/(m²·K) of
/// convection in still air near 15 °C, h_c/(ρ·c_p·R_v·T).
const VAPOR_FILM: f64 = 3.0 / (1.2 * 1006.0 * GAS_CONSTANT_VAPOR * 288.0);
/// Condensate a wall holds before it runs down, kg/m² (a film of a tenth of a millimetre;
/// assumption).
const WALL_FILM: f64 = 0.1;
/// Band of relative humidity over which the dehumidifier comes on in full.
const CONTROL_BAND: f64 = 0.02;

/// The constant part of the water balance.
pub(super) struct Paths {
    /// m³.
    volume: f64,
    /// kg/(s·Pa): through the sheet, through open laps, from bare soil.
    pub(super) sheet: f64,
    pub(super) laps: f64,
    pub(super) bare: f64,
    /// kg/(s·Pa) through each band from its masonry.
    band_inward: Vec<f64>,
    /// kg/(s·Pa) to the film on each band and on the cover.
    band_film: Vec<f64>,
    band_film_limit: Vec<f64>,
    cover_film: f64,
    /// kg/(s·Pa) to the framing and from its outer layer inward.
    wood_film: f64,
    wood_inward: f64,
    /// kg of dry wood in the outer layer and in the core.
    surface_mass: f64,
    core_mass: f64,
    dehumidifier: Option<Removal>,
}

/// The removal line of a dehumidifier.
struct Removal {
    /// kg/(s·Pa) over the floor, Pa, up to the rating, kg/s.
    slope: f64,
    floor: f64,
    rated: f64,
    /// Relative humidity it holds.
    set: f64,
}

/// The stores of water.
#[derive(Clone)]
pub(super) struct Water {
    /// kg of vapor in the air.
    pub(super) vapor: f64,
    /// Vapor pressure, Pa.
    pub(super) pressure: f64,
    /// Moisture content of the outer layer and the core of the wood.
    pub(super) surface: f64,
    pub(super) core: f64,
    /// kg of condensate on each band and on the ground cover.
    pub(super) bands: Vec<f64>,
    pub(super) cover: f64,
}

/// What drives one step.
pub(super) struct WaterDrive {
    pub(super) step: f64,
    /// Pa, atmospheric.
    pub(super) atmosphere: f64,
    pub(super) outside_vapor: f64,
    pub(super) house_vapor: f64,
    /// kg/s of dry air from outside and from the house.
    pub(super) air_outside: f64,
    pub(super) air_house: f64,
    /// kg/s released by drying materials.
    pub(super) release: f64,
    /// Saturation pressures at the air, the framing, the soil's surface and the cover's surface.
    pub(super) at_air: f64,
    pub(super) at_wood: f64,
    pub(super) at_soil: f64,
    pub(super) at_cover: f64,
    pub(super) air_kelvin: f64,
}

/// Water that moved in one step, kg, positive into the air.
#[derive(Default, Clone, Copy)]
pub(super) struct Moved {
    pub(super) sheet: f64,
    pub(super) laps: f64,
    pub(super) bare: f64,
    pub(super) walls: f64,
    pub(super) outside: f64,
    pub(super) house: f64,
    pub(super) release: f64,
    pub(super) dehumidifier: f64,
    /// Water that ran off into bare ground.
    pub(super) drained: f64,
    /// Change of vapor, wood and films.
    pub(super) stored: f64,
    /// Condensed on bands and cover in this step, and which of them.
    pub(super) condensed_walls: f64,
    pub(super) condensed_cover: f64,
    /// Whether the framing took up liquid: its surface saturated.
    pub(super) wood_wet: bool,
}

impl Paths {
    pub(super) fn new(space: &CrawlSpace, scenario: &Scenario) -> Result<Self> {
        let area = space.plan.area.value;
        let cover = &scenario.cover;
        let unsealed = admit::within("unsealed share of the ground cover", cover.unsealed.value, 0.0, 1.0, "")?;
        let open = admit::within("open share of laps", cover.open_laps.value, 0.0, 1.0, "")?;
        let lap_length = admit::not_negative("length of laps", cover.lap_length.value, "m")?;
        let lap_width = admit::positive("width of laps", cover.lap_width.value, "m")?;
        let gap = admit::within("gap of an open lap", cover.lap_gap.value, 0.0, 0.1, "m")?;
        let film = Permeance::si(VAPOR_FILM)?;
        let through_sheet = in_series(&[cover.sheet, film])?.to_si();
        let from_soil = in_series(&[cover.soil_surface, film])?.to_si();
        let covered = area * (1.0 - unsealed);
        let mut band_inward = Vec::with_capacity(space.bands.len());
        let mut band_film = Vec::with_capacity(space.bands.len());
        let mut band_film_limit = Vec::with_capacity(space.bands.len());
        for band in &space.bands {
            band_inward.push(band.area.value * in_series(&[band.permeance, film])?.to_si());
            band_film.push(band.area.value * VAPOR_FILM);
            band_film_limit.push(band.area.value * WALL_FILM);
        }
        let wood = &space.wood;
        let density = admit::positive("density of framing", wood.density.value, "kg/m³")?;
        let layer = admit::positive("outer layer of framing", wood.surface_layer.value, "m")?;
        let surface_mass = wood.area.value * layer * density;
        let core_mass = admit::positive("mass of framing less its outer layer", wood.mass.value - surface_mass, "kg")?;
        let dehumidifier = match &scenario.dehumidifier {
            None => None,
            Some(machine) => {
                let (slope, floor) = machine.line()?;
                Some(Removal { slope, floor, rated: machine.rated.value, set: machine.set_point.value() })
            }
        };
        Ok(Self {
            volume: area * space.height.value,
            sheet: covered * through_sheet,
            laps: STILL_AIR * gap / lap_width * lap_length * open,
            bare: area * unsealed * from_soil,
            band_inward,
            band_film,
            band_film_limit,
            cover_film: covered * VAPOR_FILM,
            wood_film: wood.area.value * VAPOR_FILM,
            wood_inward: wood.area.value * wood.inward_permeance.to_si(),
            surface_mass,
            core_mass,
            dehumidifier,
        })
    }

    /// Water held everywhere, kg.
    pub(super) fn held(&self, water: &Water) -> f64 {
        water.vapor
            + self.surface_mass * water.surface
            + self.core_mass * water.core
            + water.bands.iter().sum::<f64>()
            + water.cover
    }

    /// A start in equilibrium with a relative humidity.
    pub(super) fn start(&self, curves: Curves, t: f64, humidity: f64) -> Water {
        let pressure = humidity * curves.saturation(t);
        Water {
            vapor: self.volume * pressure / (GAS_CONSTANT_VAPOR * (t + 273.15)),
            pressure,
            surface: curves.moisture(humidity),
            core: curves.moisture(humidity),
            bands: vec![0.0; self.band_film.len()],
            cover: 0.0,
        }
    }

    /// Advances one step in place. `at_bands` and `at_masonry` hold the saturation pressure at each
    /// band's surface and the vapor pressure in its masonry.
    pub(super) fn step(
        &self,
        curves: Curves,
        water: &mut Water,
        drive: &WaterDrive,
        at_bands: &[f64],
        in_masonry: &[f64],
    ) -> Moved {
        let dt = drive.step;
        let before = self.held(water);
        // Flows linear in p: Σ g·(p_source − p).
        let exchange = MASS_RATIO / (drive.atmosphere - water.pressure);
        let outside = drive.air_outside * exchange;
        let house = drive.air_house * exchange;
        let ground = self.sheet + self.laps + self.bare;
        let store = self.volume / (GAS_CONSTANT_VAPOR * drive.air_kelvin * dt);
        let mut g = store + outside + house + ground;
        let mut source = water.vapor / dt
            + outside * drive.outside_vapor
            + house * drive.house_vapor
            + ground * drive.at_soil
            + drive.release;
        for (inward, vapor) in self.band_inward.iter().zip(in_masonry) {
            g += inward;
            source += inward * vapor;
        }

        let (h_surface, mut slope_surface) = curves.humidity(water.surface);
        let (h_core, slope_core) = curves.humidity(water.core);
        let mut p = water.pressure;
        let mut wood = WoodStep::default();
        // A second pass replaces the slope of the isotherm by its secant where the step is long.
        for pass in 0..4 {
            wood = self.wood_step(dt, drive.at_wood, h_surface, slope_surface, h_core, slope_core);
            p = self.root(drive, water, at_bands, g + wood.g, source + wood.source);
            let h_new = (wood.surface_0 + wood.surface_1 * p).clamp(0.0, 1.0);
            if pass == 3 || (h_new - h_surface).abs() < 0.01 || h_surface >= 1.0 {
                break;
            }
            slope_surface = (curves.moisture(h_new) - curves.moisture(h_surface)) / (h_new - h_surface);
        }

        let mut moved = Moved {
            sheet: dt * self.sheet * (drive.at_soil - p),
            laps: dt * self.laps * (drive.at_soil - p),
            bare: dt * self.bare * (drive.at_soil - p),
            outside: dt * outside * (drive.outside_vapor - p),
            house: dt * house * (drive.house_vapor - p),
            release: dt * drive.release,
            dehumidifier: -dt * self.removal(p, drive.at_air).0,
            ..Moved::default()
        };
        for (inward, vapor) in self.band_inward.iter().zip(in_masonry) {
            moved.walls += dt * inward * (vapor - p);
        }
        let h_new = wood.surface_0 + wood.surface_1 * p;
        let into_wood = self.wood_film * (p - drive.at_wood * h_new);
        let inward = wood.inward * (h_new - h_core);
        water.surface += dt * (into_wood - inward) / self.surface_mass;
        water.core += dt * inward / self.core_mass;
        moved.wood_wet = p > drive.at_wood;
        let mut run_off = 0.0;
        for ((held, &film), (&saturation, &limit)) in
            water.bands.iter_mut().zip(&self.band_film).zip(at_bands.iter().zip(&self.band_film_limit))
        {
            let flow = dt * (film * (p - saturation)).max(-*held / dt);
            *held = (*held + flow).max(0.0);
            moved.condensed_walls += flow.max(0.0);
            if *held > limit {
                run_off += *held - limit;
                *held = limit;
            }
        }
        let flow = dt * (self.cover_film * (p - drive.at_cover)).max(-water.cover / dt);
        water.cover = (water.cover + flow).max(0.0);
        moved.condensed_cover = flow.max(0.0);
        if self.cover_film > 0.0 {
            water.cover += run_off;
        } else {
            moved.drained = -run_off;
        }
        water.pressure = p;
        water.vapor = store * dt * p;
        moved.stored = self.held(water) - before;
        moved
    }

    /// Removal by the dehumidifier and its slope over the vapor pressure.
    fn removal(&self, p: f64, at_air: f64) -> (f64, f64) {
        let Some(machine) = &self.dehumidifier else {
            return (0.0, 0.0);
        };
        let duty = (p / at_air - machine.set) / CONTROL_BAND;
        if duty <= 0.0 || p <= machine.floor {
            return (0.0, 0.0);
        }
        let full = machine.slope * (p - machine.floor);
        let (capacity, slope) = if full < machine.rated { (full, machine.slope) } else { (machine.rated, 0.0) };
        if duty >= 1.0 {
            (capacity, slope)
        } else {
            (capacity * duty, slope * duty + capacity / (at_air * CONTROL_BAND))
        }
    }

    /// The vapor pressure at which all flows balance.
    fn root(&self, drive: &WaterDrive, water: &Water, at_bands: &[f64], g: f64, source: f64) -> f64 {
        let dt = drive.step;
        let balance = |p: f64| {
            let (removal, removal_slope) = self.removal(p, drive.at_air);
            let mut value = g * p - source + removal;
            let mut slope = g + removal_slope;
            let mut film = |conductance: f64, saturation: f64, held: f64| {
                let flow = conductance * (p - saturation);
                if flow > -held / dt {
                    value += flow;
                    slope += conductance;
                } else {
                    value -= held / dt;
                }
            };
            for ((&conductance, &saturation), &held) in self.band_film.iter().zip(at_bands).zip(&water.bands) {
                film(conductance, saturation, held);
            }
            film(self.cover_film, drive.at_cover, water.cover);
            (value, slope)
        };
        let mut p = water.pressure;
        let (mut low, mut high) = (0.0, f64::INFINITY);
        for _ in 0..60 {
            let (value, slope) = balance(p);
            if value > 0.0 {
                high = p;
            } else {
                low = p;
            }
            let mut next = p - value / slope;
            // Newton cannot leave the bracket of a rising function for good; halve if it tries.
            if !(next >= low && next <= high) {
                next = if high.is_finite() { 0.5 * (low + high) } else { 2.0 * p + 1.0 };
            }
            if (next - p).abs() <= 1e-10 * (1.0 + p) {
                return next;
            }
            p = next;
        }
        p
    }

    fn wood_step(
        &self,
        dt: f64,
        at_wood: f64,
        h_surface: f64,
        slope_surface: f64,
        h_core: f64,
        slope_core: f64,
    ) -> WoodStep {
        let store_surface = self.surface_mass * slope_surface / dt;
        let store_core = self.core_mass * slope_core / dt;
        let link = self.wood_inward * at_wood;
        // The core folded into the outer layer.
        let inward = link * store_core / (link + store_core);
        let total = store_surface + self.wood_film * at_wood + inward;
        let surface_0 = (store_surface * h_surface + inward * h_core) / total;
        let surface_1 = self.wood_film / total;
        WoodStep {
            surface_0,
            surface_1,
            inward,
            g: self.wood_film * (1.0 - at_wood * surface_1),
            source: self.wood_film * at_wood * surface_0,
        }
    }
}

/// The wood folded into the air's balance: humidity of its outer layer is
/// `surface_0 + surface_1·p`, and the air loses `g·p − source` to it.
#[derive(Default)]
struct WoodStep {
    surface_0: f64,
    surface_1: f64,
    inward: f64,
    g: f64,
    source: f64,
}

#[cfg(test)]
mod tests {
    use super::super::example::{scenario, space};
    use super::*;

    // Steps of a minute to a month between dry and soaking air: water stays positive, the balance
    // closes, and no more condenses than was brought.
    #[test]
    fn any_step_is_stable() {
        let paths = Paths::new(&space(), &scenario()).unwrap();
        let curves = Curves::new();
        for step in [60.0, 3_600.0, 86_400.0, 30.0 * 86_400.0] {
            let mut water = paths.start(curves, 18.0, 0.6);
            for n in 0..200 {
                let outside_vapor = if n % 2 == 0 { 200.0 } else { 3_000.0 };
                let drive = WaterDrive {
                    step,
                    atmosphere: 100_000.0,
                    outside_vapor,
                    house_vapor: 1_200.0,
                    air_outside: 0.05,
                    air_house: 0.0,
                    release: 0.0,
                    at_air: curves.saturation(18.0),
                    at_wood: curves.saturation(17.0),
                    at_soil: curves.saturation(15.0),
                    at_cover: curves.saturation(16.0),
                    air_kelvin: 291.15,
                };
                let surfaces = [curves.saturation(14.0)];
                let moved = paths.step(curves, &mut water, &drive, &surfaces, &[1_000.0]);
                let flow = moved.sheet
                    + moved.laps
                    + moved.bare
                    + moved.walls
                    + moved.outside
                    + moved.house
                    + moved.dehumidifier
                    + moved.drained;
                let size = moved.outside.abs() + moved.bare.abs() + moved.sheet.abs();
                assert!((flow - moved.stored).abs() < 1e-7 * size + 1e-9, "{step} {n}: {flow} {}", moved.stored);
                assert!(water.surface >= 0.0 && water.core >= 0.0 && water.pressure >= 0.0, "{step} {n}");
                assert!(water.bands[0] >= 0.0 && water.cover >= 0.0);
            }
        }
    }
}
