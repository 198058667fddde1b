//! Moisture as a range: the inputs that are seldom known sampled together, and those that matter most named.

use uom::si::f64::Ratio;
use wythe_findings::Finding;
use wythe_model::{Foundation, Interval};
use wythe_physics::PhysicsError;
use wythe_physics::uncertainty::crawl::{
    CrawlCase, crawl_spread, framing_density, leakage, open_laps, soil_conductivity, unsealed_share,
};
use wythe_physics::uncertainty::sample::{Parameter, SamplePlan};
use wythe_physics::uncertainty::spread::Spread;
use wythe_physics::vapor::permeance::Permeance;
use wythe_source::Symbol;

use super::{assessed, prepare, scenarios};
use crate::Assessed;
use crate::assumption::ASSUMED;
use crate::figure::{kg_per_m3, share};
use crate::weather::SiteWeather;

/// How many samples, and from which seed: the same seed gives the same result.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RangePlan {
    /// Samples, 2 to 100 000.
    pub samples: usize,
    /// Seed.
    pub seed: u64,
}

impl Default for RangePlan {
    fn default() -> Self {
        RangePlan { samples: 200, seed: 1 }
    }
}

/// An input that is varied.
#[derive(Clone, Debug, PartialEq)]
pub struct RangeInput {
    /// Its name, as the influences give it.
    pub name: &'static str,
    /// From where to where, with units.
    pub range: String,
    /// Where the range comes from.
    pub source: &'static str,
}

/// The space in service as a range.
#[derive(Clone, Debug, PartialEq)]
pub struct RangeReport {
    /// The foundation.
    pub foundation: Symbol,
    /// The plan.
    pub plan: RangePlan,
    /// The inputs varied.
    pub inputs: Vec<RangeInput>,
    /// Each outcome with its percentiles and its inputs, the most influential first.
    pub outcomes: Vec<Spread>,
}

/// Samples the space in service.
pub fn ranges(f: &Foundation, weather: &SiteWeather, plan: RangePlan) -> Assessed<RangeReport> {
    assessed(f, |findings: &mut Vec<Finding>| {
        let Some(case) = prepare(f, findings)? else { return Ok(None) };
        let mut inputs = Vec::new();
        let mut parameters = Vec::new();
        let mut vary = |name, range: String, source, parameter: Parameter<CrawlCase>| {
            inputs.push(RangeInput { name, range, source });
            parameters.push(parameter);
        };
        let (soil, source) = soil(f, case.space.soil.conductivity);
        vary(
            "soil conductivity",
            format!("{:.2} to {:.2} W/(m·K)", soil.low.value, soil.high.value),
            source,
            soil_conductivity(soil.low, soil.high),
        );
        let cover = &case.service.cover;
        if cover.lap_length.value > 0.0 && cover.unsealed.value < 1.0 {
            let (low, high) = if cover.open_laps.value > 0.0 { (0.5, 1.0) } else { (0.0, 0.1) };
            let range = format!("{:.0} to {:.0} % of the laps", 100.0 * low, 100.0 * high);
            vary("open laps", range, ASSUMED, open_laps(share(low), share(high)));
        }
        if cover.unsealed.value < 1.0 {
            let (low, high) = (cover.unsealed.value / 10.0, (cover.unsealed.value * 10.0).min(1.0));
            let range = format!("{:.4} to {:.3} % of the floor", 100.0 * low, 100.0 * high);
            vary("unsealed share", range, ASSUMED, unsealed_share(share(low), share(high)));
        }
        if let Some(stated) = liner_permeance(f) {
            let (low, high) = (Permeance::si(stated.low.value)?, Permeance::si(stated.high.value)?);
            let range = format!("{:.3} to {:.3} perm", low.to_us_perms(), high.to_us_perms());
            vary("permeance of the liner", range, "the product", liner(low, high));
        }
        let (least, _, most) = scenarios::LEAKAGE;
        vary(
            "leakage",
            format!("{least} to {most} air changes an hour"),
            ASSUMED,
            leakage(scenarios::leakage(&case.envelope, least), scenarios::leakage(&case.envelope, most)),
        );
        vary(
            "framing density",
            "400 to 520 kg/m³".into(),
            ASSUMED,
            framing_density(kg_per_m3(400.0), kg_per_m3(520.0)),
        );
        let base = CrawlCase { space: case.space, scenario: case.service };
        let plan_of_samples = SamplePlan { samples: plan.samples, seed: plan.seed };
        let outcomes = crawl_spread(&base, &weather.year, &parameters, plan_of_samples)?;
        Ok::<_, PhysicsError>(Some(RangeReport { foundation: f.name, plan, inputs, outcomes }))
    })
}

/// The soil as the site states it; three quarters to three halves of it where it gives one figure, for soil is wet
/// and dry by turns.
fn soil(
    f: &Foundation,
    mid: uom::si::f64::ThermalConductivity,
) -> (Interval<uom::si::f64::ThermalConductivity>, &'static str) {
    match f.site.soil_conductivity {
        Some(stated) if stated.low < stated.high => (stated, "the site"),
        Some(_) => (Interval { low: mid * 0.75, mid, high: mid * 1.5 }, "assumed round the site's figure"),
        None => (Interval { low: crate::figure::lambda(0.8), mid, high: crate::figure::lambda(2.0) }, ASSUMED),
    }
}

/// The bounds of the liner's permeance, where its product states some.
fn liner_permeance(f: &Foundation) -> Option<Interval<wythe_model::Permeance>> {
    let (_, product) = scenarios::permanent_liner(f)?;
    product.permeance.filter(|p| p.low.value > 0.0 && p.low < p.high)
}

fn liner(low: Permeance, high: Permeance) -> Parameter<CrawlCase> {
    Parameter::new("permeance of the liner", move |case: &mut CrawlCase, at: Ratio| {
        let value = low.to_si() + at.value * (high.to_si() - low.to_si());
        case.scenario.cover.sheet = Permeance::si(value).unwrap_or(low);
    })
}
