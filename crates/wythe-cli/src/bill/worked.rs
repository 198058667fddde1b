//! Houses with everything worked out: takeoff, bill, labor and schedule.

use std::collections::BTreeSet;

use jiff::civil::Date;
use wythe_bill::Job;
use wythe_bill::cost::price;
use wythe_bill::labor::{HouseLabor, labor};
use wythe_bill::outcome::Outcome;
use wythe_bill::timeline::{self, Schedule, WorkCalendar, WorkWeek};
use wythe_eval::films;
use wythe_findings::{Finding, Severity};
use wythe_takeoff::price::PricedBill;

use super::plans::{Houses, Plans};

/// Houses with everything worked out.
pub(crate) struct Worked {
    pub job: Job,
    pub bill: Option<PricedBill>,
    pub labor: Vec<HouseLabor>,
    pub schedule: Option<Schedule>,
    /// What the check finds, by house; information left out.
    pub findings: Vec<(usize, Finding)>,
}

/// Works everything out that the ledgers allow.
pub(crate) fn worked(plans: &Plans, houses: &Houses, prices: Option<&str>, start: Option<Date>) -> Worked {
    let job = plans.job(houses);
    let (book, _) = plans.ledgers.prices(&plans.opened, prices);
    let today = plans.opened.project.manifest().today;
    let bill = book.and_then(|book| price(&job, &book, Vec::new(), None, today).ok()).map(|(bill, _)| bill);
    let crew = plans.ledgers.crew(houses.rates.as_deref());
    let visits = crew.map_or(Vec::new(), |crew| labor(&job, crew).0);
    let schedule = crew.zip(start).and_then(|(crew, start)| {
        let (activities, _) = timeline::activities(&job, crew, &visits);
        let calendar = WorkCalendar {
            week: WorkWeek::FIVE_DAYS,
            holidays: BTreeSet::new(),
            weather: BTreeSet::new(),
            drying_days: 0,
        };
        timeline::schedule(&activities, &calendar, start, crew).ok()
    });
    let of_house = |(number, j): (usize, &wythe_eval::JudgedFoundation)| {
        let all = j.findings.iter().filter(|f| f.severity > Severity::Information);
        all.map(|f| (number, f.clone())).collect::<Vec<_>>()
    };
    let findings = plans.judged.iter().enumerate().flat_map(of_house).collect();
    Worked { job, bill, labor: visits, schedule, findings }
}

impl Worked {
    /// The few figures that a what-if lays side by side.
    pub(crate) fn outcome(&self) -> Outcome {
        let labor = (!self.labor.is_empty()).then_some(self.labor.as_slice());
        let mut outcome = Outcome::of(&self.job, self.bill.as_ref(), labor, films());
        let count = |severity: Severity| self.findings.iter().filter(|(_, f)| f.severity == severity).count();
        outcome.errors = count(Severity::Error);
        outcome.warnings = count(Severity::Warning);
        outcome
    }
}
