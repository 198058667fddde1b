//! Everything that is worked out of one house, for a report on it.

use std::collections::BTreeSet;

use jiff::civil::Date;
use wythe_assess::heat::{HeatReport, heat};
use wythe_assess::moisture::{MoistureOptions, MoistureReport, Start, moisture};
use wythe_bill::Job;
use wythe_bill::cost::{PriceBook, price};
use wythe_bill::labor::{HouseLabor, labor};
use wythe_bill::timeline::{self, Schedule, WorkCalendar, WorkWeek};
use wythe_eval::{JudgedFoundation, films};
use wythe_findings::{Finding, FindingName, codes};
use wythe_model::Phase;
use wythe_model::ledger::CrewRates;
use wythe_project::Origin;
use wythe_render::Files as _;
use wythe_report::{House, Report, Waived};
use wythe_source::{LineTable, Span};
use wythe_takeoff::price::PricedBill;

use crate::bill::plans::{Houses, Plans};
use crate::bill::written::shower;
use crate::climate::{add, weather};
use crate::repository::Opened;
use crate::results::standing;

/// What holds of every house of a repository.
pub(super) struct Common<'a> {
    pub plans: &'a Plans,
    pub houses: &'a Houses,
    pub book: Option<PriceBook>,
    pub crew: Option<&'a CrewRates>,
    /// What is wrong with the price list.
    pub faults: Vec<Finding>,
    /// The first day anyone may work.
    pub start: Option<Date>,
}

impl<'a> Common<'a> {
    pub(super) fn of(plans: &'a Plans, houses: &'a Houses, prices: Option<&str>, start: Option<Date>) -> Self {
        let (book, faults) = plans.ledgers.prices(&plans.opened, prices);
        let crew = plans.ledgers.crew(houses.rates.as_deref());
        let today = plans.opened.project.manifest().today;
        Common { plans, houses, book, crew, faults, start: start.or(today) }
    }

    fn today(&self) -> Option<Date> {
        self.plans.opened.project.manifest().today
    }
}

/// What was worked out of a house.
pub(super) struct Worked<'a> {
    judged: &'a JudgedFoundation,
    job: Job,
    heat: Option<HeatReport>,
    moisture: Option<MoistureReport>,
    bill: Option<PricedBill>,
    labor: Vec<HouseLabor>,
    schedule: Option<Schedule>,
    calendar: WorkCalendar,
    lacking: Vec<Finding>,
}

impl<'a> Worked<'a> {
    /// Works out all that the sources and ledgers allow.
    pub(super) fn of(common: &Common<'a>, judged: &'a JudgedFoundation) -> Worked<'a> {
        let f = &judged.foundation;
        let job = Job::of(std::slice::from_ref(f), &common.plans.terms(common.houses));
        let mut lacking: Vec<Finding> = Vec::new();
        add(&mut lacking, job.findings.iter().cloned());
        let bill = common.book.as_ref().and_then(|book| {
            add(&mut lacking, common.faults.iter().cloned());
            match price(&job, book, Vec::new(), None, common.today()) {
                Ok((bill, missing)) => {
                    add(&mut lacking, missing);
                    Some(bill)
                }
                Err(error) => {
                    let unusable = Finding::new(codes::PRICE_UNUSABLE, book.sheet.origin, error.to_string());
                    add(&mut lacking, [unusable]);
                    None
                }
            }
        });
        let calendar = WorkCalendar {
            week: WorkWeek::FIVE_DAYS,
            holidays: BTreeSet::new(),
            weather: BTreeSet::new(),
            drying_days: 0,
        };
        let mut worked = Worked {
            judged,
            job,
            heat: None,
            moisture: None,
            bill,
            labor: Vec::new(),
            schedule: None,
            calendar,
            lacking: Vec::new(),
        };
        if let Some(crew) = common.crew {
            worked.plan(crew, common.start, &mut lacking);
        }
        let framing = worked.framing();
        (worked.heat, worked.moisture) = climate(common, judged, framing, &mut lacking);
        worked.lacking = lacking;
        worked
    }

    /// Labor, and the schedule where there is a day to start on.
    fn plan(&mut self, crew: &CrewRates, start: Option<Date>, lacking: &mut Vec<Finding>) {
        let (visits, without) = labor(&self.job, crew);
        add(lacking, without);
        if let Some(start) = start {
            let (activities, unsaid) = timeline::activities(&self.job, crew, &visits);
            add(lacking, unsaid);
            match timeline::schedule(&activities, &self.calendar, start, crew) {
                Ok(planned) => self.schedule = Some(planned),
                Err(finding) => add(lacking, [*finding]),
            }
        }
        self.labor = visits;
    }

    /// The day the framing goes up by the schedule: that of the first phase that brings beams or a floor.
    fn framing(&self) -> Option<Start> {
        let schedule = self.schedule.as_ref()?;
        let brings = |p: &&std::sync::Arc<Phase>| p.brings.iter().any(|b| matches!(b.as_str(), "beams" | "floor"));
        let phase = self.judged.foundation.phases.iter().find(brings)?.name?;
        let first = schedule.activities.iter().find(|a| a.activity.phase == phase.as_str())?.first;
        // Months and days of a calendar date lie within a byte.
        Some(Start { month: first.month().unsigned_abs(), day: first.day().unsigned_abs() })
    }

    /// Gives what was worked out to somebody who puts it on paper; `up` leads from there to the top of a site.
    pub(super) fn told<T>(&self, common: &Common<'_>, up: Option<&str>, to: impl FnOnce(&House<'_>) -> T) -> T {
        let opened = &common.plans.opened;
        let link = |span: Span| up.and_then(|up| source_link(opened, span, up));
        let house = House {
            foundation: &self.judged.foundation,
            findings: &self.judged.findings,
            waived: self
                .judged
                .waived
                .iter()
                .map(|(finding, waiver)| Waived {
                    finding,
                    because: &waiver.because,
                    who: &waiver.who,
                    until: waiver.until,
                })
                .collect(),
            lacking: &self.lacking,
            standing: standing(self.judged),
            traces: &self.judged.traces,
            films: films(),
            heat: self.heat.as_ref(),
            moisture: self.moisture.as_ref(),
            job: &self.job,
            bill: common.book.as_ref().zip(self.bill.as_ref()),
            labor: &self.labor,
            schedule: self.schedule.as_ref().map(|s| (s, &self.calendar)),
            today: common.today(),
            show: shower(opened),
            link: &link,
            version: env!("CARGO_PKG_VERSION"),
        };
        to(&house)
    }

    /// The report on it.
    pub(super) fn report(&self, common: &Common<'_>) -> Report {
        self.told(common, None, wythe_report::report)
    }

    /// What is bought for it.
    pub(super) fn products(&self) -> Vec<(String, String)> {
        self.job
            .order
            .iter()
            .map(|item| (item.product.name.to_string(), format!("{} {}", item.units, item.unit)))
            .collect()
    }

    /// The file it is declared in.
    pub(super) fn file(&self, common: &Common<'_>) -> String {
        let entry = common.plans.opened.project.entry(self.judged.foundation.origin.file);
        entry.map_or(String::new(), |e| e.path.to_string())
    }
}

fn climate(
    common: &Common<'_>,
    judged: &JudgedFoundation,
    framing: Option<Start>,
    lacking: &mut Vec<Finding>,
) -> (Option<HeatReport>, Option<MoistureReport>) {
    let f = &judged.foundation;
    let site = match weather(common.plans, f) {
        Ok(site) => Some(site),
        Err(finding) => {
            let none = finding.name == FindingName::Code(codes::WEATHER_MISSING);
            add(lacking, (!none).then_some(*finding));
            None
        }
    };
    let warm = heat(f, site.as_deref());
    add(lacking, warm.findings);
    let damp = site.map(|site| moisture(f, &site, &MoistureOptions { start: framing, close_in: true }));
    let damp = damp.and_then(|got| {
        add(lacking, got.findings);
        got.report
    });
    (warm.report, damp)
}

/// Where a place can be read on the site: what the repository does not hold is not on it.
fn source_link(opened: &Opened, span: Span, up: &str) -> Option<String> {
    let entry = opened.project.entry(span.file).filter(|e| e.origin == Origin::Repository)?;
    let line = LineTable::new(opened.text(span.file)).line_of(span.start) + 1;
    Some(format!("{up}{}#L{line}", wythe_report::site::source_path(entry.path.as_str())))
}
