//! The ground by ISO 13370: the form the space takes, its figures over the range of the soil, and the other form.

use uom::si::f64::{Area, Frequency, HeatTransfer, ThermalConductance, ThermalConductivity, Velocity};
use uom::si::{frequency, velocity};
use wythe_model::{Act, Class, Foundation, Interval, OpeningKind, SpaceKind, ThermalResistance};
use wythe_physics::PhysicsError;
use wythe_physics::heat::film::{HeatFlow, inside_film, outside_film};
use wythe_physics::heat::ground::basement::{HeatedBasement, UnheatedAbove, unheated_basement};
use wythe_physics::heat::ground::crawl::{CrawlState, GroundForm, GroundFormChoice, ground_form};
use wythe_physics::heat::ground::slab::SlabOnGround;
use wythe_physics::heat::ground::suspended::{SuspendedFloor, WindShielding, crawl_ground};
use wythe_physics::heat::ground::{FloorPlan, FloorResistances, Soil};

use super::parallel::insulated_floor;
use super::report::WallHeat;
use super::wall::{above_grade_transmittance, below_grade_resistance, resistance};
use crate::Assumptions;
use crate::assumption::{ASSUMED, COMMON};
use crate::envelope::Envelope;
use crate::figure::{lambda, m2, map, over, u, w_per_k};

/// A form of the standard with its figures.
#[derive(Clone, Debug, PartialEq)]
pub struct Form {
    /// The form.
    pub form: GroundForm,
    /// Transmittance of the floor: of the crawl floor where the space is inside the envelope, else from the house to
    /// the outside through the floor above.
    pub floor: Interval<HeatTransfer>,
    /// Transmittance of the walls below grade, where the form has them.
    pub wall: Option<Interval<HeatTransfer>>,
    /// The loss through floor and walls below grade together.
    pub conductance: Interval<ThermalConductance>,
}

/// The ground of a foundation.
#[derive(Clone, Debug, PartialEq)]
pub struct GroundHeat {
    /// How the space is kept.
    pub state: CrawlState,
    /// Which form, beside which, and why.
    pub choice: GroundFormChoice,
    /// The form chosen.
    pub chosen: Form,
    /// The form shown beside it.
    pub beside: Form,
    /// Conductivity of the soil.
    pub soil: Interval<ThermalConductivity>,
    /// Whether the site states it.
    pub soil_stated: bool,
    /// Characteristic dimension of the floor.
    pub dimension: uom::si::f64::Length,
}

/// How a foundation is kept in service.
fn state(f: &Foundation) -> CrawlState {
    let c = &f.conditioning;
    let conditioned = c.supply_air.is_some() || c.exhaust.is_some() || c.dehumidifier.is_some();
    match f.space {
        SpaceKind::Vented => CrawlState::Vented,
        SpaceKind::Closed if conditioned => CrawlState::ClosedConditioned,
        SpaceKind::Closed => CrawlState::ClosedUnconditioned,
    }
}

/// The soil's conductivity, or the range that is taken where the site says nothing.
pub(crate) fn soil(f: &Foundation, assumed: &mut Assumptions) -> (Interval<ThermalConductivity>, bool) {
    if let Some(stated) = f.site.soil_conductivity.filter(|s| s.low.value > 0.0) {
        return (stated, true);
    }
    assumed.note(
        "conductivity of the soil",
        "1.5 W/(m·K), 0.8 to 2.0",
        "ISO 13370:2017 table 7, clay or silt (from memory); the range is assumed",
    );
    (Interval { low: lambda(0.8), mid: lambda(1.5), high: lambda(2.0) }, false)
}

/// Net free area of the vents as drawn.
pub(crate) fn vent_area(f: &Foundation, assumed: &mut Assumptions) -> Area {
    let mut total = Area::default();
    for vent in f.openings.iter().filter(|o| o.kind == OpeningKind::Vent && !o.existing) {
        total += vent.free_area.unwrap_or_else(|| {
            assumed.note("free area of a vent that states none", "half of its size", COMMON);
            vent.width * vent.height * 0.5
        });
    }
    total
}

/// Insulation laid on the crawl floor.
pub(crate) fn ground_insulation(f: &Foundation) -> ThermalResistance {
    let assembly = f.ground.assembly.and_then(|id| f.assemblies.get(id.0 as usize));
    let works = assembly.and_then(|a| a.face("face")).map(|face| face.works.as_slice()).unwrap_or_default();
    let boards = works.iter().filter(|w| matches!(w.act, Act::Set | Act::Lay)).filter_map(|w| w.product.as_ref());
    let each = boards.filter(|p| p.class == Class::Board).filter_map(|p| resistance(p));
    each.fold(ThermalResistance::default(), |sum, r| sum + r.mid)
}

pub(super) fn ground(
    f: &Foundation,
    envelope: &Envelope,
    walls: &[WallHeat],
    assumed: &mut Assumptions,
) -> Result<GroundHeat, PhysicsError> {
    let state = state(f);
    let choice = ground_form(state, envelope.depth)?;
    let (soil, soil_stated) = soil(f, assumed);
    assumed.note(
        "films of the ground forms",
        "0.17 downward, 0.13 sideways, 0.04 outside m²·K/W",
        "ISO 6946:2017 table 7",
    );
    let plan = FloorPlan { area: envelope.floor, perimeter: envelope.perimeter };
    let mut case = Case { f, envelope, plan, walls, assumed };
    let chosen = case.form(choice.form, soil)?;
    let beside = case.form(choice.beside, soil)?;
    Ok(GroundHeat { state, choice, chosen, beside, soil, soil_stated, dimension: plan.characteristic_dimension()? })
}

struct Case<'a> {
    f: &'a Foundation,
    envelope: &'a Envelope,
    plan: FloorPlan,
    walls: &'a [WallHeat],
    assumed: &'a mut Assumptions,
}

/// Vent opening where a vented form is asked of a house that draws no vents, as a share of the floor.
const VENT_SHARE: f64 = 1.0 / 150.0;

impl Case<'_> {
    fn form(&mut self, form: GroundForm, soil: Interval<ThermalConductivity>) -> Result<Form, PhysicsError> {
        let area = self.plan.area.value;
        let below = self.envelope.depth * self.plan.perimeter;
        let (floor, wall) = match form {
            GroundForm::SlabOnGround => (over(soil, |k| Ok::<_, PhysicsError>(self.slab(k)?.value))?, None),
            GroundForm::HeatedBasement => {
                let floor = over(soil, |k| Ok::<_, PhysicsError>(self.basement(k)?.transmittance()?.floor.value))?;
                let wall = over(soil, |k| Ok::<_, PhysicsError>(self.basement(k)?.transmittance()?.wall.value))?;
                (floor, Some(wall))
            }
            GroundForm::SuspendedFloor => {
                let suspended = self.suspended()?;
                let with = |k| SuspendedFloor { soil: Soil { conductivity: k, ..Soil::clay() }, ..suspended };
                (over(soil, |k| Ok::<_, PhysicsError>(with(k).transmittance()?.transmittance.value))?, None)
            }
            GroundForm::UnheatedBasement => {
                let above = self.above();
                // The form needs a depth; where the floor is level with the grade a hair stands for none.
                (over(soil, |k| Ok::<_, PhysicsError>(unheated_basement(&self.basement(k)?, &above)?.value))?, None)
            }
        };
        let of = |pick: fn(&Interval<f64>) -> f64| {
            w_per_k(pick(&floor) * area + wall.as_ref().map_or(0.0, pick) * below.value)
        };
        Ok(Form {
            form,
            conductance: Interval { low: of(|i| i.low), mid: of(|i| i.mid), high: of(|i| i.high) },
            floor: map(floor, u),
            wall: wall.map(|w| map(w, u)),
        })
    }

    fn floor(&self) -> FloorResistances {
        FloorResistances {
            inside_film: inside_film(HeatFlow::Downward),
            floor: ground_insulation(self.f),
            outside_film: outside_film(),
        }
    }

    fn slab(&self, conductivity: ThermalConductivity) -> Result<HeatTransfer, PhysicsError> {
        let slab = SlabOnGround {
            plan: self.plan,
            wall_thickness: self.envelope.thickness,
            soil: Soil { conductivity, ..Soil::clay() },
            resistances: self.floor(),
        };
        Ok(slab.transmittance()?.transmittance)
    }

    fn basement(&self, conductivity: ThermalConductivity) -> Result<HeatedBasement, PhysicsError> {
        let wall = below_grade_resistance(self.walls).map_or_else(Default::default, |r| r.mid);
        Ok(HeatedBasement {
            plan: self.plan,
            depth: self.envelope.depth.max(crate::figure::m(1e-4)),
            wall_thickness: self.envelope.thickness,
            soil: Soil { conductivity, ..Soil::clay() },
            floor: self.floor(),
            wall_film: inside_film(HeatFlow::Horizontal),
            wall,
        })
    }

    fn floor_above(&mut self) -> HeatTransfer {
        let films = inside_film(HeatFlow::Downward) * 2.0;
        HeatTransfer::from(1.0 / (insulated_floor(self.assumed) + films))
    }

    fn wall_above(&self) -> HeatTransfer {
        above_grade_transmittance(self.walls).map_or_else(HeatTransfer::default, |(_, u)| u)
    }

    fn suspended(&mut self) -> Result<SuspendedFloor, PhysicsError> {
        let mut vents = vent_area(self.f, self.assumed);
        if vents.value <= 0.0 {
            self.assumed.note(
                "vents of the vented form",
                "1/150 of the floor",
                "International Residential Code R408.1",
            );
            vents = m2(self.plan.area.value * VENT_SHARE);
        }
        self.assumed.note("wind at ten metres, and its shielding", "4 m/s, average", ASSUMED);
        Ok(SuspendedFloor {
            plan: self.plan,
            wall_thickness: self.envelope.thickness,
            soil: Soil::clay(),
            ground: crawl_ground(ground_insulation(self.f)),
            floor_above: self.floor_above(),
            height: self.envelope.above_grade,
            wall_above_grade: self.wall_above(),
            vent_area: vents / self.plan.perimeter,
            wind: Velocity::new::<velocity::meter_per_second>(4.0),
            shielding: WindShielding::Average,
        })
    }

    fn above(&mut self) -> UnheatedAbove {
        self.assumed.note(
            "air exchange of a closed space that is not conditioned",
            "0.3 changes an hour",
            "ISO 13370:2017 clause 7.4 (from memory)",
        );
        UnheatedAbove {
            floor: self.floor_above(),
            height: self.envelope.above_grade,
            wall: self.wall_above(),
            volume: self.envelope.volume(),
            air_changes: Frequency::new::<frequency::hertz>(0.3 / 3_600.0),
        }
    }
}
