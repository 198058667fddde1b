//! Code minimum beside computed load: supply air, exhaust, dehumidifier, and vents while the house is built.

use uom::si::f64::{Area, Mass, MassRate, ThermodynamicTemperature, VolumeRate};
use uom::si::{area, mass_rate, volume_rate};
use wythe_model::{Foundation, SpaceKind};
use wythe_physics::PhysicsError;
use wythe_physics::quantity::RelativeHumidity;
use wythe_physics::sizing::code::{ClosedCrawlCode, PerFloorArea, vent_area as code_vents};
use wythe_physics::sizing::load::{AirMeans, HumidityLimit, dehumidifier_load, least_air};
use wythe_physics::vapor::retarder::{RetarderClass, RetarderLimits};
use wythe_physics::weather::WeatherYear;
use wythe_physics::zone::scenario::{Dehumidifier, Scenario};
use wythe_physics::zone::space::CrawlSpace;

use crate::Assumptions;
use crate::assumption::ASSUMED;
use crate::envelope::Envelope;
use crate::figure::share;
use crate::heat::vent_area;

/// What the code asks at least, of which one way of conditioning is enough.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CodeLeast {
    /// Exhaust.
    pub exhaust: VolumeRate,
    /// Supply air.
    pub supply: VolumeRate,
    /// Rating of a dehumidifier; the code names no condition for it.
    pub dehumidifier: MassRate,
    /// Net area of vents of a vented space, without a cover of class I.
    pub vents: Area,
    /// The same with a cover of class I.
    pub vents_covered: Area,
}

/// What the weather asks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ComputedLoad {
    /// Rating at 80 °F and 60 % of a dehumidifier alone that holds 55 % all year.
    pub dehumidifier: MassRate,
    /// Most water it removes in a day.
    pub peak_day: Mass,
    /// The month of that day.
    pub peak_month: u8,
    /// Temperature and humidity of that day's air.
    pub air: (ThermodynamicTemperature, RelativeHumidity),
    /// Water it removes in the year.
    pub year: Mass,
    /// The least supply of house air alone that keeps 65 %; none where five times the code's least does not.
    pub supply: Option<VolumeRate>,
    /// The least exhaust alone that keeps 65 %; none where five times the code's least does not.
    pub exhaust: Option<VolumeRate>,
}

/// Sizes, code minimum beside computed load.
#[derive(Clone, Debug, PartialEq)]
pub struct Sizing {
    /// The code.
    pub code: CodeLeast,
    /// What the foundation declares.
    pub declared_supply: Option<VolumeRate>,
    /// What it declares.
    pub declared_exhaust: Option<VolumeRate>,
    /// What it declares, as a volume of water a day.
    pub declared_dehumidifier: Option<VolumeRate>,
    /// Net area of the vents as drawn.
    pub drawn_vents: Area,
    /// Whether the ground cover is of class I.
    pub class_i_cover: bool,
    /// The load; none for a vented space.
    pub load: Option<ComputedLoad>,
}

/// One US pint of water a day in kg/s, and a foot squared in m²: exact factors.
const PINT_A_DAY: f64 = 0.473_176_473 / 86_400.0;
const SQUARE_FOOT: f64 = 0.092_903_04;

fn code() -> ClosedCrawlCode {
    let cfm = VolumeRate::new::<volume_rate::cubic_foot_per_minute>(1.0);
    let per = |feet: f64| Area::new::<area::square_meter>(feet * SQUARE_FOOT);
    ClosedCrawlCode {
        exhaust: PerFloorArea { amount: cfm, area: per(50.0) },
        supply: PerFloorArea { amount: cfm, area: per(50.0) },
        dehumidifier: PerFloorArea {
            amount: MassRate::new::<mass_rate::kilogram_per_second>(70.0 * PINT_A_DAY),
            area: per(1000.0),
        },
    }
}

pub(super) fn sizing(
    f: &Foundation,
    envelope: &Envelope,
    space: &CrawlSpace,
    service: &Scenario,
    weather: &WeatherYear,
    assumed: &mut Assumptions,
) -> Result<Sizing, PhysicsError> {
    assumed.note(
        "code minimum",
        "1 cfm of supply or exhaust for 50 ft², or 70 pint a day for 1000 ft²; vents 1/150, or 1/1500 over a cover of \
         class I",
        "International Residential Code R408.1 and R408.3 (from memory; editions differ)",
    );
    let options = code().options(envelope.floor)?;
    let class = RetarderLimits::model_code()?.class(service.cover.sheet)?;
    Ok(Sizing {
        code: CodeLeast {
            exhaust: options.exhaust,
            supply: options.supply,
            dehumidifier: options.dehumidifier,
            vents: code_vents(envelope.floor, share(1.0 / 150.0))?,
            vents_covered: code_vents(envelope.floor, share(1.0 / 1500.0))?,
        },
        declared_supply: f.conditioning.supply_air,
        declared_exhaust: f.conditioning.exhaust,
        declared_dehumidifier: f.conditioning.dehumidifier,
        drawn_vents: vent_area(f, assumed),
        class_i_cover: class == Some(RetarderClass::One),
        load: match f.space {
            SpaceKind::Closed => Some(load(space, service, weather, options.supply, assumed)?),
            SpaceKind::Vented => None,
        },
    })
}

fn load(
    space: &CrawlSpace,
    service: &Scenario,
    weather: &WeatherYear,
    code: VolumeRate,
    assumed: &mut Assumptions,
) -> Result<ComputedLoad, PhysicsError> {
    assumed.note(
        "computed loads",
        "each way alone: a dehumidifier to hold 55 %, air to keep 65 % but for 88 hours",
        ASSUMED,
    );
    let alone =
        Scenario { supply: VolumeRate::default(), exhaust: None, dehumidifier: None, release: None, ..service.clone() };
    let machine = Dehumidifier::rated_at_80_60(share(70.0), RelativeHumidity::percent(55.0)?)?;
    let found = dehumidifier_load(space, &alone, weather, &machine)?;
    let limit = HumidityLimit { humidity: RelativeHumidity::percent(65.0)?, hours: 88 };
    let highest = code * 5.0;
    let air = |means| least_air(space, &alone, weather, means, limit, highest).map(|least| least.map(|l| l.flow));
    Ok(ComputedLoad {
        dehumidifier: found.rating,
        peak_day: found.peak_day,
        peak_month: found.peak_month,
        air: (found.air, found.humidity),
        year: found.year,
        supply: air(AirMeans::Supply)?,
        exhaust: air(AirMeans::Exhaust { from_house: share(0.5) })?,
    })
}
