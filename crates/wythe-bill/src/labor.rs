//! Labor of a house: every piece of work at the crew's rates, visit by visit.

use uom::si::f64::{Length, Ratio};
use wythe_findings::{Finding, codes};
use wythe_model::ledger::CrewRates;
use wythe_model::quantity::Measure;
use wythe_model::{Act, Class, Foundation};
use wythe_source::Symbol;
use wythe_takeoff::labor::{
    self, CrewRules, HeadroomFactor, LaborError, LaborFinding, Rate, Task, VisitLabor, WorkQuantity, WorkVisit,
};

use crate::cost::{Currency, Money, MoneyError};
use crate::{Job, TakeoffLine};

/// The labor of one house.
#[derive(Clone, Debug, PartialEq)]
pub struct HouseLabor {
    /// The house's number in the job.
    pub house: usize,
    /// Its visits, in the order of work.
    pub visits: Vec<VisitLabor>,
    /// What the charged time costs, where the rates say what an hour costs.
    pub cost: Option<Money>,
}

/// The labor of every house of a job. A work without a rate is found and left out.
pub fn labor(job: &Job, crew: &CrewRates) -> (Vec<HouseLabor>, Vec<Finding>) {
    labor_in_rain(job, crew, 0)
}

/// The same with so many rains at each house to mop up and dry after, dealt out to the visits while it is open.
pub fn labor_in_rain(job: &Job, crew: &CrewRates, rains: u32) -> (Vec<HouseLabor>, Vec<Finding>) {
    let rules = rules(crew);
    let (mut out, mut findings) = (Vec::new(), Vec::new());
    for (house, f) in job.houses.iter().enumerate() {
        let mut planned = planned(job, house, f, crew);
        wet(&mut planned, f, rains);
        match labor::visits(&planned, &rules) {
            Ok((visits, lacking)) => {
                findings.extend(lacking.iter().map(|l| lack(l, crew)));
                let cost = cost(&visits, crew).transpose();
                let cost = cost.unwrap_or_else(|error| {
                    findings.push(Finding::new(codes::LABOR_IMPOSSIBLE, crew.origin, error.to_string()));
                    None
                });
                out.push(HouseLabor { house, visits, cost });
            }
            Err(error) => {
                findings.push(Finding::new(codes::LABOR_IMPOSSIBLE, crew.origin, error.to_string()));
                break;
            }
        }
    }
    findings.sort_by(|a, b| a.order_key().cmp(&b.order_key()));
    findings.dedup_by(|a, b| a.order_key() == b.order_key());
    (out, findings)
}

fn cost(visits: &[VisitLabor], crew: &CrewRates) -> Option<Result<Money, MoneyError>> {
    let (amount, currency) = crew.hourly?;
    let currency: Currency = currency.as_str().parse().ok()?;
    Some(labor::labor_cost(visits, crew.people, Money { amount, currency }))
}

fn rules(crew: &CrewRates) -> CrewRules {
    let rates = crew.rates.iter().map(|r| Rate { task: key(r.verb, r.class), per_hour: quantity(r.per_hour) });
    CrewRules {
        people: crew.people,
        day: crew.day,
        set_up: crew.set_up,
        tear_down: crew.tear_down,
        travel: crew.travel,
        drying: crew.drying,
        minimum: crew.minimum,
        headroom: crew.low_headroom.iter().map(|&(below, factor)| HeadroomFactor { below, factor }).collect(),
        rates: rates.collect(),
    }
}

fn key(verb: Symbol, class: Option<Class>) -> String {
    class.map_or_else(|| verb.to_string(), |c| format!("{verb} {}", c.name()))
}

fn quantity(measure: Measure) -> WorkQuantity {
    match measure {
        Measure::Area(a) => WorkQuantity::Area(a),
        Measure::Length(l) => WorkQuantity::Length(l),
        Measure::Volume(v) => WorkQuantity::Volume(v),
        Measure::Count(n) => WorkQuantity::Count(n),
    }
}

/// The visits of a house: one for each phase with work of its own. A lap is part of laying what laps.
fn planned(job: &Job, house: usize, f: &Foundation, crew: &CrewRates) -> Vec<WorkVisit> {
    let floor_on = f.phases.iter().position(|p| p.brings.iter().any(|b| b.as_str() == "floor"));
    let room = headroom(f);
    let mut out = Vec::new();
    for (number, phase) in f.phases.iter().enumerate() {
        let Some(name) = phase.name else { continue };
        let low = floor_on.is_some_and(|on| number > on);
        let tasks: Vec<Task> = job
            .lines
            .iter()
            .filter(|l| l.house == house && l.phase == Some(name) && l.act != Act::Lap)
            .map(|l| task(l, crew, low.then_some(room).flatten()))
            .collect();
        if !tasks.is_empty() {
            out.push(WorkVisit { phase: name.to_string(), tasks, rains: 0 });
        }
    }
    out
}

/// Deals rains out to the visits of the phases before the roof is on, in turn; to all where no phase ends the rain.
fn wet(planned: &mut [WorkVisit], f: &Foundation, rains: u32) {
    let roof_on = f.phases.iter().position(|p| p.ends.iter().any(|e| e.as_str() == "rain")).unwrap_or(usize::MAX);
    let open = |visit: &WorkVisit| {
        f.phases.iter().position(|p| p.name.is_some_and(|n| n.as_str() == visit.phase)).is_some_and(|at| at <= roof_on)
    };
    let mut open: Vec<&mut WorkVisit> = planned.iter_mut().filter(|v| open(v)).collect();
    let count = open.len() as u32;
    for (at, visit) in (0..count).zip(open.iter_mut()) {
        visit.rains = rains / count + u32::from(at < rains % count);
    }
}

fn task(line: &TakeoffLine, crew: &CrewRates, headroom: Option<Length>) -> Task {
    let verb = line.act.word();
    let class = line.product.as_ref().map(|p| p.class);
    let exact = crew.rates.iter().find(|r| r.verb.as_str() == verb && r.class.is_some() && r.class == class);
    let any = || crew.rates.iter().find(|r| r.verb.as_str() == verb && r.class.is_none());
    let task = match exact.or_else(any) {
        Some(rate) => key(rate.verb, rate.class),
        None => key(Symbol::new(verb), class),
    };
    let inside = line.face.as_str() != "outside";
    Task { task, quantity: quantity(line.net), headroom: headroom.filter(|_| inside) }
}

/// The least height between crawl floor and sill.
fn headroom(f: &Foundation) -> Option<Length> {
    let heights = f.walls.iter().flat_map(|w| &w.stretches).map(|s| s.levels.sill - s.levels.ground);
    heights.reduce(Length::min)
}

fn lack(lacking: &LaborFinding, crew: &CrewRates) -> Finding {
    let code = match lacking.error {
        LaborError::UnlikeUnits(_) => codes::RATE_UNLIKE,
        LaborError::NoRate(_) => codes::RATE_MISSING,
        _ => codes::LABOR_IMPOSSIBLE,
    };
    let named = |task: &str| crew.rates.iter().find(|r| key(r.verb, r.class) == task).map(|r| r.origin);
    let place = match &lacking.error {
        LaborError::UnlikeUnits(task) | LaborError::Quantity(task) => named(task),
        _ => None,
    };
    Finding::new(code, place.unwrap_or(crew.origin), lacking.error.to_string()).label("the labor is counted without it")
}

/// Crew-days of all visits together, not rounded.
pub fn crew_days(labor: &[HouseLabor]) -> Ratio {
    labor.iter().flat_map(|h| &h.visits).map(|v| v.crew_days).fold(Ratio::default(), |a, b| a + b)
}

/// What all visits cost; `None` where the rates say no hourly cost or the currencies differ.
pub fn labor_total(labor: &[HouseLabor]) -> Option<Money> {
    let mut total: Option<Money> = None;
    for house in labor {
        let cost = house.cost?;
        total = Some(total.map_or(Ok(cost), |t| t.plus(cost)).ok()?);
    }
    total
}
