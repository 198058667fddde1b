//! Progress: the log of a house read against its takeoff and its order of work. What is done, what is left, what
//! stands open, and which inspection comes next.
//!
//! A log marks phases, or parts of a phase on walls, piers, openings and shares of the floor. A work counts as done
//! by the sum of its marks, never more than whole.

mod check;
mod exposed;
mod marks;

pub use exposed::Exposed;
pub use marks::Mark;

use jiff::civil::Date;
use uom::si::f64::Ratio;
use uom::si::ratio::ratio;
use wythe_findings::Finding;
use wythe_model::Foundation;
use wythe_model::ledger::{HoldResult, WorkLog};
use wythe_model::quantity::Measure;
use wythe_source::Symbol;

use crate::{Job, TakeoffLine};

/// The progress of one house.
#[derive(Clone, Debug)]
pub struct Progress {
    /// The day it is told of.
    pub today: Date,
    /// The phases, in order.
    pub phases: Vec<PhaseProgress>,
    /// How much of each line of the takeoff is done, in the order of the job's lines; lines of other houses are
    /// nought.
    pub done: Vec<Ratio>,
    /// What stands open today.
    pub exposed: Vec<Exposed>,
    /// What is wrong with the log.
    pub findings: Vec<Finding>,
}

/// A phase in progress.
#[derive(Clone, Debug, PartialEq)]
pub struct PhaseProgress {
    /// Its name.
    pub name: Symbol,
    /// How much of its work is done: the mean over its lines; of a phase without work of ours nought or one.
    pub done: Ratio,
    /// The first day it is in the log.
    pub first: Option<Date>,
    /// The last.
    pub last: Option<Date>,
    /// What must be seen at its end.
    pub hold: Option<String>,
    /// How that went, as last logged.
    pub seen: Option<HoldResult>,
}

impl PhaseProgress {
    /// Whether all of its work is done.
    pub fn is_done(&self) -> bool {
        self.done.get::<ratio>() >= 1.0 - 1e-9
    }
}

impl Progress {
    /// Reads a log of a house of a job.
    pub fn of(job: &Job, house: usize, log: &WorkLog, today: Date) -> Option<Progress> {
        let f = job.houses.get(house)?;
        let (marks, mut findings) = marks::read(f, log, today);
        findings.extend(check::order(f, log, &marks));
        findings.extend(check::holds(f, log));
        let done: Vec<Ratio> = job.lines.iter().map(|line| share_of(line, house, &marks)).collect();
        let phases = phases(f, job, house, log, &marks, &done);
        let exposed = exposed::exposed(f, log, &marks, &phases, today);
        findings.sort_by(|a, b| a.order_key().cmp(&b.order_key()));
        findings.dedup_by(|a, b| a.order_key() == b.order_key());
        Some(Progress { today, phases, done, exposed, findings })
    }

    /// The inspection that comes next: of the first phase whose hold is not passed.
    pub fn next_hold(&self) -> Option<&PhaseProgress> {
        self.phases.iter().find(|p| p.hold.is_some() && p.seen != Some(HoldResult::Passed))
    }

    /// The first phase that is not done.
    pub fn next_phase(&self) -> Option<&PhaseProgress> {
        self.phases.iter().find(|p| !p.is_done())
    }

    /// What is left of a line.
    pub fn left(&self, at: usize, line: &TakeoffLine) -> Measure {
        let left = 1.0 - self.done.get(at).map_or(0.0, |d| d.get::<ratio>());
        part(line.net, left)
    }

    /// The job with only what is left to do, for counting labor and material anew.
    pub fn rest(&self, job: &Job) -> Job {
        let mut rest = job.clone();
        for (at, line) in rest.lines.iter_mut().enumerate() {
            line.net = self.left(at, line);
        }
        rest.lines.retain(|l| !l.net.is_nothing());
        rest
    }
}

/// A part of a measure; pieces are rounded up.
fn part(measure: Measure, share: f64) -> Measure {
    let share = share.clamp(0.0, 1.0);
    match measure {
        Measure::Area(a) => Measure::Area(a * share),
        Measure::Length(l) => Measure::Length(l * share),
        Measure::Volume(v) => Measure::Volume(v * share),
        Measure::Count(n) => {
            let left = (n as f64 * share - 1e-9).ceil();
            Measure::Count(if left.is_finite() { left.max(0.0) as u64 } else { n })
        }
    }
}

fn share_of(line: &TakeoffLine, house: usize, marks: &[Mark]) -> Ratio {
    let product = line.product.as_ref().map(|p| p.name);
    let share = match line.phase {
        Some(phase) if line.house == house => marks::share(marks, line.element, phase, line.layer, product),
        _ => 0.0,
    };
    Ratio::new::<ratio>(share)
}

fn phases(
    f: &Foundation,
    job: &Job,
    house: usize,
    log: &WorkLog,
    marks: &[Mark],
    done: &[Ratio],
) -> Vec<PhaseProgress> {
    let named = f.phases.iter().filter_map(|p| p.name.map(|n| (p, n)));
    let one = |(phase, name): (&std::sync::Arc<wythe_model::Phase>, Symbol)| {
        let mine = job.lines.iter().zip(done).filter(|(l, _)| l.house == house && l.phase == Some(name));
        let (count, sum) = mine.fold((0_u32, 0.0), |(n, s), (_, d)| (n + 1, s + d.get::<ratio>()));
        let whole = marks.iter().any(|m| m.phase == name && m.element.is_none());
        let share = match (whole, count) {
            (true, _) => 1.0,
            (false, 0) => 0.0,
            (false, n) => sum / f64::from(n),
        };
        let dates = log.entries.iter().filter(|e| e.visit == Some(name) || e.done.contains(&name)).map(|e| e.date);
        PhaseProgress {
            name,
            done: Ratio::new::<ratio>(share),
            first: dates.clone().min(),
            last: dates.max(),
            hold: phase.hold.as_ref().map(|h| h.to_string()),
            seen: check::seen(log, name),
        }
    };
    named.map(one).collect()
}
