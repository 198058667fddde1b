//! How the space is kept: open while the house is built, closed in service, vented in service.

use uom::si::f64::{Area, Length, VolumeRate};
use wythe_model::geometry::{Basis, Plan};
use wythe_model::quantity::{Measure, QuantityLine, Role, quantities};
use wythe_model::{Act, Class, EdgeName, Face, Foundation, MeasuredFace, OpeningKind, Product, Work};
use wythe_physics::PhysicsError;
use wythe_physics::heat::ground::suspended::WindShielding;
use wythe_physics::quantity::{RelativeHumidity, fahrenheit};
use wythe_physics::vapor::permeance::Permeance;
use wythe_physics::zone::scenario::{
    Beginning, Dehumidifier, Exhaust, GroundCover, House, Scenario, Vents, WaterRelease,
};
use wythe_physics::zone::space::CrawlSpace;

use crate::Assumptions;
use crate::assumption::{ASSUMED, COMMON};
use crate::envelope::Envelope;
use crate::figure::{days, kg, m, m2, m3_per_s, pa, share};
use crate::heat::{ground_insulation, vent_area};

/// Liters in a cubic meter.
const LITERS: f64 = 1_000.0;
/// Seconds in a day.
const SECONDS_A_DAY: f64 = 86_400.0;
/// Liters in a US pint, exact.
const PINT: f64 = 0.473_176_473;

/// The ground sheets of a foundation.
struct Sheets<'f> {
    /// The one that stays.
    liner: Option<(&'f Work, &'f Product)>,
    /// The one that is taken up again.
    sacrificial: Option<(&'f Work, &'f Product)>,
    face: Option<&'f Face>,
}

fn sheets(f: &Foundation) -> Sheets<'_> {
    let face = f.ground.assembly.and_then(|id| f.assemblies.get(id.0 as usize)).and_then(|a| a.face("face"));
    let works = face.map(|face| face.works.as_slice()).unwrap_or_default();
    let find = |sacrificial: bool| {
        let sheet = |w: &&Work| {
            matches!(w.act, Act::Lay | Act::Hang)
                && w.product.as_ref().is_some_and(|p| p.class == Class::Membrane && p.sacrificial == sacrificial)
        };
        works.iter().rev().find(sheet).and_then(|w| Some((w, w.product.as_deref()?)))
    };
    Sheets { liner: find(false), sacrificial: find(true), face }
}

/// The liner that stays, with its product.
pub(super) fn permanent_liner(f: &Foundation) -> Option<(&Work, &Product)> {
    sheets(f).liner
}

/// Whether some work of the joints between two sorts of part tapes or seals.
fn joint_sealed(f: &Foundation, kind: wythe_model::SurfaceKind) -> bool {
    f.joints
        .iter()
        .filter(|j| j.first.kind == kind || j.second.kind == kind)
        .any(|j| j.face.works.iter().any(|w| matches!(w.act, Act::Tape | Act::Seal)))
}

/// Whether the laps of a sheet are taped or sealed on its own face.
fn laps_sealed(face: Option<&Face>, layer: wythe_source::Symbol) -> bool {
    let works = face.map(|face| face.works.as_slice()).unwrap_or_default();
    works.iter().filter(|w| matches!(w.act, Act::Tape | Act::Seal)).any(|w| {
        w.place
            .is_some_and(|p| matches!(p.edge, EdgeName::Laps | EdgeName::Joints) && p.of.is_none_or(|of| of == layer))
    })
}

/// The length of a sheet's laps: as measured where work is done along them, else of strips along the floor's longer
/// side. Nought where the sheet has no size or is wider than the floor.
fn lap_length(f: &Foundation, work: &Work, product: &Product) -> Length {
    let measured = quantities(f, Basis::Design);
    let on_laps = |line: &&QuantityLine| {
        line.element.as_str() == "ground"
            && matches!(line.role, Role::Laps | Role::Joints)
            && measured.work(f, line).and_then(|w| w.place).is_some_and(|p| p.of == Some(work.layer))
    };
    let along = measured.lines.iter().filter(on_laps).filter_map(|line| match line.measure {
        Measure::Length(length) => Some(length),
        _ => None,
    });
    along.reduce(Length::max).unwrap_or_else(|| strips_laps(f, work, product).unwrap_or_default())
}

fn strips_laps(f: &Foundation, work: &Work, product: &Product) -> Option<Length> {
    let (a, b) = product.size?;
    let (low, high) = Plan::of(f, Basis::Design).outline(MeasuredFace::Inside).bounds()?;
    let (east, north) = (high.x - low.x, high.y - low.y);
    let overlap = work.by.unwrap_or_default();
    let step = (a.min(b) - overlap).value;
    let strips = ((east.min(north) - overlap).value / step).ceil();
    (step > 1e-3 && strips.is_finite() && strips >= 1.0).then(|| east.max(north) * (strips - 1.0))
}

/// Gap at an edge of a sheet that nothing seals, m.
const OPEN_EDGE: f64 = 0.005;
/// Bare share of a sealed liner: the mean of a hundred-thousandth to a thousandth over decades.
const SEALED_BARE: f64 = 0.0001;

fn bare(f: &Foundation) -> Result<GroundCover, PhysicsError> {
    Ok(GroundCover {
        sheet: Permeance::us_perms(100.0)?,
        unsealed: share(1.0),
        lap_length: m(0.0),
        lap_width: m(0.3),
        open_laps: share(0.0),
        lap_gap: m(0.001),
        soil_surface: Permeance::si(1.0e-8)?,
        insulation: ground_insulation(f),
    })
}

fn permeance_of(product: &Product, assumed: &mut Assumptions) -> Result<Permeance, PhysicsError> {
    match product.permeance {
        Some(stated) => Permeance::si(stated.mid.value),
        None => {
            assumed.note(
                "permeance of a sheet that states none",
                "0.06 perm",
                "ASHRAE Handbook of Fundamentals, polyethylene 6 mil (from memory)",
            );
            Permeance::us_perms(0.06)
        }
    }
}

/// The permanent liner as it is laid, lapped and sealed; bare soil where there is none.
fn liner(f: &Foundation, envelope: &Envelope, assumed: &mut Assumptions) -> Result<GroundCover, PhysicsError> {
    note_soil(assumed);
    let sheets = sheets(f);
    let Some((work, product)) = sheets.liner else { return bare(f) };
    let taped = laps_sealed(sheets.face, work.layer);
    let mut open_edge = 0.0;
    if !joint_sealed(f, wythe_model::SurfaceKind::Wall) {
        open_edge += (envelope.perimeter + envelope.shared).value;
    }
    if !joint_sealed(f, wythe_model::SurfaceKind::Pier) {
        open_edge += f.piers.iter().map(|p| 2.0 * (p.width + p.depth).value).sum::<f64>();
    }
    assumed.note("bare share of a liner sealed all round", "0.01 % of the floor", ASSUMED);
    assumed.note("gap of a lap or an edge that nothing seals", "1 mm in a lap, 5 mm at walls and piers", ASSUMED);
    Ok(GroundCover {
        sheet: permeance_of(product, assumed)?,
        unsealed: share((SEALED_BARE + open_edge * OPEN_EDGE / envelope.floor.value).min(1.0)),
        lap_length: lap_length(f, work, product),
        lap_width: work.by.filter(|by| by.value > 0.0).unwrap_or_else(|| m(0.15)),
        open_laps: share(if taped { 0.0 } else { 1.0 }),
        ..bare(f)?
    })
}

fn note_soil(assumed: &mut Assumptions) {
    assumed.note("soil under the space", "damp up to its surface, 1e-8 kg/(s·m²·Pa) where bare", ASSUMED);
}

/// The sacrificial sheet with its laps open; bare soil where there is none.
fn sacrificial(f: &Foundation, assumed: &mut Assumptions) -> Result<GroundCover, PhysicsError> {
    note_soil(assumed);
    let sheets = sheets(f);
    let Some((work, product)) = sheets.sacrificial else { return bare(f) };
    assumed.note("sacrificial sheet", "laps open, 5 % of the floor bare", ASSUMED);
    Ok(GroundCover {
        sheet: permeance_of(product, assumed)?,
        unsealed: share(0.05),
        lap_length: lap_length(f, work, product),
        lap_width: work.by.filter(|by| by.value > 0.0).unwrap_or_else(|| m(0.15)),
        open_laps: share(1.0),
        ..bare(f)?
    })
}

/// Whether a vent stands open in service.
fn open_in_service(f: &Foundation, opening: &wythe_model::Opening) -> bool {
    let closed = f.phases.iter().any(|p| p.closes.iter().any(|c| c.as_str() == "vent"));
    !opening.plugged && !closed && opening.assembly.is_none()
}

fn vents(f: &Foundation, envelope: &Envelope, in_service: bool, assumed: &mut Assumptions) -> Option<Vents> {
    let mut net = vent_area(f, assumed);
    if in_service {
        let open = f.openings.iter().filter(|o| o.kind == OpeningKind::Vent && open_in_service(f, o));
        net = open.map(|o| o.free_area.unwrap_or(o.width * o.height * 0.5)).fold(Area::default(), |a, b| a + b);
    } else if net.value <= 0.0 {
        assumed.note("vents where none are drawn", "1/150 of the floor", "International Residential Code R408.1");
        net = m2(envelope.floor.value / 150.0);
    }
    assumed.note("shielding from wind", "average", "ISO 13370:2017 table 9");
    (net.value > 0.0).then_some(Vents { net_area: net, shielding: WindShielding::Average })
}

/// Leakage of a closed space, air changes an hour, with the range it is sampled over.
pub(crate) const LEAKAGE: (f64, f64, f64) = (0.05, 0.2, 1.0);

pub(crate) fn leakage(envelope: &Envelope, changes_an_hour: f64) -> VolumeRate {
    m3_per_s(envelope.volume().value * changes_an_hour / 3_600.0)
}

fn lived_in(assumed: &mut Assumptions) -> Result<House, PhysicsError> {
    assumed.note("house above", "68 °F heating, 75 °F and at most 55 % cooling", COMMON);
    assumed.note(
        "vapor that living adds to the house's air",
        "300 Pa",
        "ISO 13788:2012 annex A, low to middle class (from memory)",
    );
    Ok(House::Conditioned {
        heating: fahrenheit(68.0),
        cooling: fahrenheit(75.0),
        moisture_excess: pa(300.0),
        highest_humidity: RelativeHumidity::percent(55.0)?,
    })
}

/// Closed in service, conditioned as declared.
pub(crate) fn closed(f: &Foundation, envelope: &Envelope, assumed: &mut Assumptions) -> Result<Scenario, PhysicsError> {
    let c = &f.conditioning;
    assumed.note("leakage of the closed space", "0.2 changes an hour with the outside, 0.05 to 1", ASSUMED);
    let exhaust = c.exhaust.map(|flow| {
        assumed.note("air that follows an exhaust fan", "half from the house, half from outside", ASSUMED);
        Exhaust { flow, from_house: share(0.5) }
    });
    let dehumidifier = c.dehumidifier.map(|rate| {
        assumed.note("rating of the dehumidifier", "stated at 80 °F and 60 %; it holds 55 %; 1.8 L/kWh", ASSUMED);
        let pints = share(rate.value * SECONDS_A_DAY * LITERS / PINT);
        Dehumidifier::rated_at_80_60(pints, RelativeHumidity::percent(55.0)?)
    });
    Ok(Scenario {
        name: "closed in service".into(),
        cover: liner(f, envelope, assumed)?,
        vents: vents(f, envelope, true, assumed),
        leakage: leakage(envelope, LEAKAGE.1),
        supply: c.supply_air.unwrap_or_default(),
        exhaust,
        dehumidifier: dehumidifier.transpose()?,
        house: lived_in(assumed)?,
        release: None,
        beginning: Beginning::Periodic,
    })
}

/// Vented in service: vents open all year, the same liner, no equipment.
pub(crate) fn vented(f: &Foundation, envelope: &Envelope, assumed: &mut Assumptions) -> Result<Scenario, PhysicsError> {
    Ok(Scenario {
        name: "vented in service".into(),
        cover: liner(f, envelope, assumed)?,
        vents: vents(f, envelope, false, assumed),
        leakage: leakage(envelope, LEAKAGE.1),
        supply: VolumeRate::default(),
        exhaust: None,
        dehumidifier: None,
        house: lived_in(assumed)?,
        release: None,
        beginning: Beginning::Periodic,
    })
}

/// Moisture of framing lumber as it is built in.
const BUILT_IN: f64 = 0.22;

/// Open during construction: vents open over the sacrificial sheet, no house above, wet masonry and framing.
pub(crate) fn construction(
    f: &Foundation,
    envelope: &Envelope,
    space: &CrawlSpace,
    first_hour: usize,
    assumed: &mut Assumptions,
) -> Result<Scenario, PhysicsError> {
    let masonry: f64 = space.bands.iter().filter(|b| b.name.ends_with("grade")).map(|b| b.area.value).sum();
    assumed.note("water in new masonry", "10 kg for each m² of wall, two thirds gone in 60 days", ASSUMED);
    assumed.note("framing as it is built in", "22 % of moisture", COMMON);
    assumed.note("house during construction", "open to the outside air", ASSUMED);
    Ok(Scenario {
        name: "open during construction".into(),
        cover: sacrificial(f, assumed)?,
        vents: vents(f, envelope, false, assumed),
        leakage: leakage(envelope, LEAKAGE.2),
        supply: VolumeRate::default(),
        exhaust: None,
        dehumidifier: None,
        house: House::Open,
        release: Some(WaterRelease { total: kg(10.0 * masonry), time_constant: days(60.0) }),
        beginning: Beginning::Built { hour: first_hour, wood_moisture: share(BUILT_IN) },
    })
}
