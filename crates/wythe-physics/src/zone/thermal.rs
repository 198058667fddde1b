//! Heat of the zone: a star of nodes around the air, stepped by the implicit Euler rule and solved
//! exactly, so that the heat balance closes to rounding.

use super::scenario::Scenario;
use super::space::{CrawlSpace, Exposure};
use crate::admit;
use crate::error::{PhysicsError, Result};
use crate::heat::film::{HeatFlow, inside_film, outside_film};
use crate::heat::ground::basement::HeatedBasement;
use crate::heat::ground::periodic::{OutsideSwing, floor_swing, wall_swing};
use crate::heat::ground::slab::SlabOnGround;
use crate::heat::ground::{FloorResistances, equivalent_thickness};
use crate::quantity::{conductance_si, insulance_si, metre};

/// Thickness of the soil layers from the top, m: fine where the days reach, coarse below.
const SOIL_LAYERS: [f64; 6] = [0.05, 0.10, 0.20, 0.35, 0.50, 0.80];
/// Number of soil nodes.
pub(super) const SOIL: usize = SOIL_LAYERS.len();

/// A wall band ready to step.
pub(super) struct BandNode {
    pub(super) exposure: Exposure,
    /// W/K from the air to the masonry node.
    inward: f64,
    /// W/K from the masonry node to what it stands against.
    outward: f64,
    /// J/K.
    capacity: f64,
    /// Share of the air-to-masonry resistance that is film.
    pub(super) film_share: f64,
    swing: Option<OutsideSwing>,
}

/// The constant part of the network.
pub(super) struct Network {
    pub(super) bands: Vec<BandNode>,
    /// J/K of the air with light surfaces.
    air_capacity: f64,
    /// W/K between air and framing.
    wood_inward: f64,
    /// W/K between framing and house.
    wood_outward: f64,
    wood_capacity: f64,
    /// W/K from air to the first soil node, between soil nodes, and from the last to the virtual
    /// temperature.
    soil_links: [f64; SOIL + 1],
    soil_capacity: [f64; SOIL],
    /// Share of the air-to-first-node resistance up to the soil's surface.
    pub(super) cover_share: f64,
    /// Share of the air-to-first-node resistance that is film.
    pub(super) film_share: f64,
    floor_swing: OutsideSwing,
}

/// Temperatures of all nodes, °C.
#[derive(Clone)]
pub(super) struct Temperatures {
    pub(super) air: f64,
    pub(super) wood: f64,
    pub(super) bands: Vec<f64>,
    pub(super) soil: [f64; SOIL],
}

/// What drives one step.
pub(super) struct Drive {
    pub(super) outside: f64,
    pub(super) house: f64,
    /// Virtual ground temperature below the floor and beside the walls.
    pub(super) ground_floor: f64,
    pub(super) ground_walls: f64,
    /// W/K of air from outside and from the house.
    pub(super) air_outside: f64,
    pub(super) air_house: f64,
    /// W released by equipment.
    pub(super) gain: f64,
    pub(super) step: f64,
}

/// Energy of one step, J, positive into the zone.
#[derive(Default, Clone, Copy)]
pub(super) struct Energy {
    pub(super) walls: f64,
    pub(super) ground: f64,
    pub(super) house: f64,
    pub(super) air: f64,
    pub(super) equipment: f64,
    pub(super) stored: f64,
}

/// Density × specific heat of air with the light things in it, J/(m³·K): 1.2 · 1006 with a factor
/// of 3 for ducts, facings and surfaces (assumption; it smooths within the hour only).
const AIR_CAPACITY: f64 = 3.0 * 1.2 * 1006.0;
/// Specific heat of wood, J/(kg·K) (ISO 10456).
const WOOD_HEAT: f64 = 1600.0;

impl Network {
    pub(super) fn new(space: &CrawlSpace, scenario: &Scenario) -> Result<Self> {
        let (area, _) = space.plan.admitted()?;
        let lambda = space.soil.lambda()?;
        let height = admit::within("height of the crawl space", space.height.value, 0.05, 10.0, "m")?;
        let depth = admit::within("depth below grade", space.depth.value, 0.0, 10.0, "m")?;
        let film_down = inside_film(HeatFlow::Downward);
        let film_wall = inside_film(HeatFlow::Horizontal);
        let cover = admit::not_negative("ground insulation", scenario.cover.insulation.value, "m²·K/W")?;
        let resistances =
            FloorResistances { inside_film: film_down, floor: insulance_si(cover), outside_film: outside_film() };
        let basement = |wall: f64| HeatedBasement {
            plan: space.plan,
            depth: space.depth,
            wall_thickness: space.wall_thickness,
            soil: space.soil,
            floor: resistances,
            wall_film: film_wall,
            wall: insulance_si(wall),
        };
        let u_floor = if depth > 1e-6 {
            // The wall's resistance does not enter the floor's transmittance.
            basement(1.0).transmittance()?.floor.value
        } else {
            SlabOnGround { plan: space.plan, wall_thickness: space.wall_thickness, soil: space.soil, resistances }
                .transmittance()?
                .transmittance
                .value
        };
        let d_t = equivalent_thickness(space.wall_thickness, lambda, &resistances)?;
        let floor_conductance = u_floor * area;
        let floor_swing =
            floor_swing(&space.plan, &space.soil, metre(d_t), space.depth, conductance_si(floor_conductance))?;
        let above = film_down.value + cover;
        let available = 1.0 / u_floor - above;
        let column: f64 = SOIL_LAYERS.iter().sum();
        // The soil column takes at most four fifths of the steady resistance; the rest is virtual.
        let scale = (0.8 * available * lambda / column).min(1.0);
        let layers = SOIL_LAYERS.map(|d| d * scale);
        let heat = admit::positive("soil heat capacity", space.soil.heat_capacity.value, "J/(m³·K)")?;
        let mut soil_links = [0.0; SOIL + 1];
        let first = above + 0.5 * layers[0] / lambda;
        soil_links[0] = area / first;
        for n in 1..SOIL {
            soil_links[n] = area * lambda / (0.5 * (layers[n - 1] + layers[n]));
        }
        let rest = available - (layers.iter().sum::<f64>() - 0.5 * layers[SOIL - 1]) / lambda;
        soil_links[SOIL] = area / admit::positive("virtual resistance of the ground", rest, "m²·K/W")?;
        let bands = bands(space, depth, &basement)?;
        let wood_mass = admit::positive("mass of framing", space.wood.mass.value, "kg")?;
        let wood_area = admit::positive("surface of framing", space.wood.area.value, "m²")?;
        let floor_above = admit::positive("resistance of the floor above", space.floor_above.value, "m²·K/W")?;
        Ok(Self {
            bands,
            air_capacity: AIR_CAPACITY * area * height,
            // Heat moves up or down by season; the horizontal film is the middle.
            wood_inward: wood_area / film_wall.value,
            wood_outward: area / floor_above,
            wood_capacity: wood_mass * WOOD_HEAT,
            soil_links,
            soil_capacity: layers.map(|d| d * heat * area),
            cover_share: above / first,
            film_share: film_down.value / first,
            floor_swing,
        })
    }

    /// All nodes at one temperature.
    pub(super) fn uniform(&self, t: f64) -> Temperatures {
        Temperatures { air: t, wood: t, bands: vec![t; self.bands.len()], soil: [t; SOIL] }
    }

    /// Share of the outside swing seen by the floor, and of the walls (the first ground band).
    pub(super) fn swings(&self) -> (OutsideSwing, OutsideSwing) {
        let walls = self.bands.iter().find_map(|b| b.swing).unwrap_or(self.floor_swing);
        (self.floor_swing, walls)
    }

    /// Advances one step in place and returns the energy that crossed each boundary.
    pub(super) fn step(&self, state: &mut Temperatures, drive: &Drive) -> Energy {
        let dt = drive.step;
        let mut conductance = self.air_capacity / dt + drive.air_outside + drive.air_house;
        let mut source = self.air_capacity / dt * state.air
            + drive.air_outside * drive.outside
            + drive.air_house * drive.house
            + drive.gain;
        // Each arm of the star is folded into the air node: g·(t_eq − t_air).
        for (band, &old) in self.bands.iter().zip(&state.bands) {
            let store = band.capacity / dt;
            let beyond = match band.exposure {
                Exposure::Air => drive.outside,
                Exposure::Ground => drive.ground_walls,
            };
            let rest = store + band.outward;
            let g = band.inward * rest / (band.inward + rest);
            conductance += g;
            source += g * (store * old + band.outward * beyond) / rest;
        }
        let wood_store = self.wood_capacity / dt;
        let wood_rest = wood_store + self.wood_outward;
        let wood_g = self.wood_inward * wood_rest / (self.wood_inward + wood_rest);
        conductance += wood_g;
        source += wood_g * (wood_store * state.wood + self.wood_outward * drive.house) / wood_rest;
        // The soil column from the bottom up: each node sees what lies below as one arm.
        let mut below_g = self.soil_links[SOIL];
        let mut below_t = drive.ground_floor;
        let mut arm_g = [0.0; SOIL];
        let mut arm_t = [0.0; SOIL];
        for n in (0..SOIL).rev() {
            let store = self.soil_capacity[n] / dt;
            let rest = store + below_g;
            let t = (store * state.soil[n] + below_g * below_t) / rest;
            arm_g[n] = rest;
            arm_t[n] = t;
            let link = self.soil_links[n];
            below_g = link * rest / (link + rest);
            below_t = t;
        }
        conductance += below_g;
        source += below_g * below_t;
        let air = source / conductance;

        let mut energy = Energy {
            air: dt * (drive.air_outside * (drive.outside - air) + drive.air_house * (drive.house - air)),
            equipment: dt * drive.gain,
            stored: self.air_capacity * (air - state.air),
            ..Energy::default()
        };
        for (band, t) in self.bands.iter().zip(state.bands.iter_mut()) {
            let store = band.capacity / dt;
            let beyond = match band.exposure {
                Exposure::Air => drive.outside,
                Exposure::Ground => drive.ground_walls,
            };
            let new = (store * *t + band.outward * beyond + band.inward * air) / (store + band.outward + band.inward);
            energy.stored += band.capacity * (new - *t);
            energy.walls += dt * band.outward * (beyond - new);
            *t = new;
        }
        let wood = (wood_store * state.wood + self.wood_outward * drive.house + self.wood_inward * air)
            / (wood_rest + self.wood_inward);
        energy.stored += self.wood_capacity * (wood - state.wood);
        energy.house = dt * self.wood_outward * (drive.house - wood);
        let mut over = air;
        for n in 0..SOIL {
            let link = self.soil_links[n];
            let new = (arm_g[n] * arm_t[n] + link * over) / (arm_g[n] + link);
            energy.stored += self.soil_capacity[n] * (new - state.soil[n]);
            state.soil[n] = new;
            over = new;
        }
        energy.ground = dt * self.soil_links[SOIL] * (drive.ground_floor - state.soil[SOIL - 1]);
        state.air = air;
        state.wood = wood;
        energy
    }
}

fn bands(space: &CrawlSpace, depth: f64, basement: &dyn Fn(f64) -> HeatedBasement) -> Result<Vec<BandNode>> {
    let film = inside_film(HeatFlow::Horizontal).value;
    let mut out = Vec::with_capacity(space.bands.len());
    for band in &space.bands {
        let name = |part: &str| format!("{part} of band {}", band.name);
        let area = admit::positive(name("area"), band.area.value, "m²")?;
        let insulation = admit::not_negative(name("insulation"), band.insulation.value, "m²·K/W")?;
        let masonry = admit::positive(name("masonry resistance"), band.masonry.value, "m²·K/W")?;
        let thickness = admit::positive(name("masonry thickness"), band.masonry_thickness.value, "m")?;
        let heat = admit::positive(name("masonry heat capacity"), band.masonry_capacity.value, "J/(m³·K)")?;
        let inner = film + insulation + 0.5 * masonry;
        let (outer, swing) = match band.exposure {
            Exposure::Air => (0.5 * masonry + outside_film().value, None),
            Exposure::Ground => {
                if depth <= 1e-6 {
                    return Err(PhysicsError::Contradiction {
                        what: format!("band {}", band.name).into(),
                        why: "stands against the ground, but the crawl floor is not below grade".into(),
                    });
                }
                let below = basement(insulation + masonry).transmittance()?;
                let swing = wall_swing(
                    &space.plan,
                    &space.soil,
                    below.wall_thickness,
                    space.depth,
                    conductance_si(below.wall.value * depth * space.plan.perimeter.value),
                )?;
                // What the standard's wall has beyond the middle of the masonry.
                let rest = 1.0 / below.wall.value - inner;
                (rest.max(0.5 * masonry), Some(swing))
            }
        };
        out.push(BandNode {
            exposure: band.exposure,
            inward: area / inner,
            outward: area / outer,
            capacity: area * thickness * heat,
            film_share: film / inner,
            swing,
        });
    }
    Ok(out)
}

#[cfg(test)]
mod tests {
    use super::super::example::{scenario, space};
    use super::*;

    // A step of a minute or of thirty years: the implicit rule stays between the temperatures that
    // drive it and closes its balance; the longest ends in the steady state.
    #[test]
    fn any_step_is_stable() {
        let network = Network::new(&space(), &scenario()).unwrap();
        for step in [60.0, 3_600.0, 86_400.0, 1e6, 1e9] {
            let mut state = network.uniform(15.0);
            for n in 0..50 {
                let outside = if n % 2 == 0 { -10.0 } else { 30.0 };
                let drive = Drive {
                    outside,
                    house: 20.0,
                    ground_floor: 12.0,
                    ground_walls: 10.0,
                    air_outside: 50.0,
                    air_house: 10.0,
                    gain: 0.0,
                    step,
                };
                let energy = network.step(&mut state, &drive);
                assert!((-10.0..=30.0).contains(&state.air), "{step} {}", state.air);
                assert!(state.soil.iter().all(|t| (-10.0..=30.0).contains(t)));
                let flow = energy.walls + energy.ground + energy.house + energy.air;
                let size = energy.walls.abs() + energy.house.abs() + energy.stored.abs();
                assert!((flow - energy.stored).abs() < 1e-9 * size, "{step}");
            }
        }
    }
}
