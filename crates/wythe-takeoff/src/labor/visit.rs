//! Visits: the tasks of one phase done in one coming, with everything that is not work at the wall.

use super::rate::{LaborError, Rate, WorkQuantity, time};
use crate::finite;
use crate::money::{Money, MoneyError};
use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive;
use uom::si::f64::{Length, Ratio, Time};
use uom::si::length::meter;
use uom::si::ratio::ratio;
use uom::si::time::hour;

/// Work is slower where a person cannot stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeadroomFactor {
    /// Applies to headroom below this.
    pub below: Length,
    /// Time is multiplied by this; at least one.
    pub factor: Ratio,
}

/// A crew and how its time counts.
#[derive(Clone, Debug, PartialEq)]
pub struct CrewRules {
    /// People in the crew.
    pub people: u32,
    /// A working day on site, travel not counted.
    pub day: Time,
    /// Setting up, each visit.
    pub set_up: Time,
    /// Tearing down, each visit.
    pub tear_down: Time,
    /// There and back, each day.
    pub travel: Time,
    /// Drying out and mopping up after each rain, where the work is open to it.
    pub drying: Time,
    /// Least time charged for a visit.
    pub minimum: Time,
    /// For low spaces; the factor of the lowest limit that is above the headroom holds.
    pub headroom: Vec<HeadroomFactor>,
    /// Production.
    pub rates: Vec<Rate>,
}

/// A piece of work.
#[derive(Clone, Debug, PartialEq)]
pub struct Task {
    /// The name its rate goes by.
    pub task: String,
    /// How much.
    pub quantity: WorkQuantity,
    /// Height to work in; `None` is full height.
    pub headroom: Option<Length>,
}

/// One coming of the crew.
#[derive(Clone, Debug, PartialEq)]
pub struct WorkVisit {
    /// The phase it belongs to.
    pub phase: String,
    /// What is done.
    pub tasks: Vec<Task>,
    /// Rains expected on open work.
    pub rains: u32,
}

/// A task left out of the count.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LaborFinding {
    /// The phase.
    pub phase: String,
    /// Why.
    pub error: LaborError,
}

/// Labor of one visit; all times are of the whole crew.
#[derive(Clone, Debug, PartialEq)]
pub struct VisitLabor {
    /// The phase.
    pub phase: String,
    /// At the work, headroom counted.
    pub work: Time,
    /// Work, set-up, tear-down and drying.
    pub on_site: Time,
    /// Days on site, not rounded.
    pub crew_days: Ratio,
    /// Whole days the crew comes.
    pub days: u32,
    /// On the road.
    pub travel: Time,
    /// What is charged: on site and travel, or the minimum.
    pub charged: Time,
}

/// Counts every visit. A task without a usable rate is a finding and the rest is still counted.
pub fn visits(planned: &[WorkVisit], rules: &CrewRules) -> Result<(Vec<VisitLabor>, Vec<LaborFinding>), LaborError> {
    check(rules)?;
    let mut counted = Vec::new();
    let mut findings = Vec::new();
    for visit in planned {
        let mut work = Time::new::<hour>(0.0);
        for task in &visit.tasks {
            match task_time(task, rules) {
                Ok(time) => work += time,
                Err(error) => findings.push(LaborFinding { phase: visit.phase.clone(), error }),
            }
        }
        let on_site = work + rules.set_up + rules.tear_down + rules.drying * f64::from(visit.rains);
        let crew_days = on_site / rules.day;
        let days = (crew_days.get::<ratio>() - 1e-9).ceil().max(1.0);
        let travel = rules.travel * days;
        counted.push(VisitLabor {
            phase: visit.phase.clone(),
            work,
            on_site,
            crew_days,
            days: days as u32,
            travel,
            charged: (on_site + travel).max(rules.minimum),
        });
    }
    Ok((counted, findings))
}

/// Cost of the charged time of a crew: people x hours x the hourly wage of one. Hours are taken to
/// hundredths before money comes in.
pub fn labor_cost(visits: &[VisitLabor], people: u32, hourly: Money) -> Result<Money, MoneyError> {
    let mut total = Money::zero(hourly.currency);
    for visit in visits {
        let hours = Decimal::from_f64(visit.charged.get::<hour>()).ok_or(MoneyError::TooLarge)?;
        let time = hours.round_dp(2).checked_mul(Decimal::from(people)).ok_or(MoneyError::TooLarge)?;
        total = total.plus(hourly.times(time)?.rounded())?;
    }
    Ok(total)
}

fn check(rules: &CrewRules) -> Result<(), LaborError> {
    if rules.people == 0 {
        return Err(LaborError::Rule("the number of people"));
    }
    if !finite::positive(rules.day.get::<hour>()) {
        return Err(LaborError::Rule("the working day"));
    }
    let others = [
        (rules.set_up, "set-up"),
        (rules.tear_down, "tear-down"),
        (rules.travel, "travel"),
        (rules.drying, "drying"),
        (rules.minimum, "the minimum charge"),
    ];
    for (time, name) in others {
        if !finite::not_negative(time.get::<hour>()) {
            return Err(LaborError::Rule(name));
        }
    }
    let sound = |h: &HeadroomFactor| {
        let f = h.factor.get::<ratio>();
        f >= 1.0 && f.is_finite() && h.below.get::<meter>().is_finite()
    };
    if !rules.headroom.iter().all(sound) {
        return Err(LaborError::Rule("a headroom factor"));
    }
    Ok(())
}

fn task_time(task: &Task, rules: &CrewRules) -> Result<Time, LaborError> {
    let rate = rules.rates.iter().find(|r| r.task == task.task).ok_or_else(|| LaborError::NoRate(task.task.clone()))?;
    let factor = match task.headroom {
        None => 1.0,
        Some(h) => rules
            .headroom
            .iter()
            .filter(|f| h < f.below)
            .min_by(|a, b| a.below.get::<meter>().total_cmp(&b.below.get::<meter>()))
            .map_or(1.0, |f| f.factor.get::<ratio>()),
    };
    Ok(time(task.quantity, rate)? * factor)
}
