//! Progress as tables: by phase, by element, what is left to install and to have on site, and what stands open.

use std::collections::BTreeMap;

use uom::si::ratio::ratio;
use wythe_bill::Job;
use wythe_bill::labor::{HouseLabor, crew_days};
use wythe_bill::order::OrderItem;
use wythe_bill::progress::Progress;
use wythe_model::ledger::HoldResult;
use wythe_model::quantity::Measure;

use super::{Cell, Document, Shower, Table};

/// The progress of the one house of a job. `rest` is the order for what is left, `labor` its labor.
pub fn progress(job: &Job, p: &Progress, rest: &[OrderItem], labor: &[HouseLabor], show: &Shower<'_>) -> Document {
    let name = job.houses.first().map_or("", |f| f.name.as_str());
    let mut document = Document::new("progress", format!("Progress of {name} on {}", p.today));
    match p.next_phase() {
        Some(phase) => document.remarks.push(format!(
            "Next: {} ({:.0} % done). Crew-days left: {:.1}.",
            phase.name,
            phase.done.get::<ratio>() * 100.0,
            crew_days(labor).value
        )),
        None => document.remarks.push("Every phase is done.".into()),
    }
    if let Some(hold) = p.next_hold() {
        let state = match hold.seen {
            Some(HoldResult::Failed) => "failed",
            Some(HoldResult::Waiting) => "waiting",
            _ => "due",
        };
        document.remarks.push(format!(
            "Next inspection, {state}: {} (after {}).",
            hold.hold.as_deref().unwrap_or(""),
            hold.name
        ));
    }
    document.tables.extend([exposed(p, show), phases(p), elements(job, p), left(rest), install(job, p, show)]);
    document
}

fn exposed(p: &Progress, show: &Shower<'_>) -> Table {
    let mut table = Table::new(
        "exposed",
        "Open today",
        &[
            ("what", "what"),
            ("elements", "where"),
            ("since", "since"),
            ("days", ">days"),
            ("rains", ">rains"),
            ("until", "until"),
            ("place", "place"),
        ],
    );
    for e in &p.exposed {
        let elements: Vec<&str> = e.elements.iter().map(|s| s.as_str()).collect();
        table.row(vec![
            Cell::text(&e.what),
            Cell::text(elements.join(", ")),
            Cell::text(e.since.to_string()),
            Cell::Count(e.days.max(0) as u64),
            Cell::Count(u64::from(e.rains)),
            Cell::text(e.until.map_or("", |u| u.as_str())),
            Cell::text(show.place(e.origin)),
        ]);
    }
    table
}

fn phases(p: &Progress) -> Table {
    let mut table = Table::new(
        "phases",
        "By phase",
        &[("phase", "phase"), ("done", ">done"), ("first", "first day"), ("last", "last day"), ("seen", "inspection")],
    );
    for phase in &p.phases {
        let seen = match (&phase.hold, phase.seen) {
            (None, _) => "",
            (Some(_), None) => "due",
            (Some(_), Some(HoldResult::Waiting)) => "waiting",
            (Some(_), Some(HoldResult::Passed)) => "passed",
            (Some(_), Some(HoldResult::Failed)) => "failed",
        };
        table.row(vec![
            Cell::text(phase.name.as_str()),
            percent(phase.done.get::<ratio>()),
            Cell::text(phase.first.map_or(String::new(), |d| d.to_string())),
            Cell::text(phase.last.map_or(String::new(), |d| d.to_string())),
            Cell::text(seen),
        ]);
    }
    table
}

fn percent(share: f64) -> Cell {
    Cell::Quantity { shown: format!("{:.0} %", share * 100.0), si: share, unit: "1" }
}

/// What is done on each element, and what comes next there.
fn elements(job: &Job, p: &Progress) -> Table {
    let mut table = Table::new(
        "elements",
        "By element",
        &[("element", "element"), ("done", ">done"), ("next", "next"), ("phase", "in"), ("left", ">works left")],
    );
    let mut order: Vec<&str> = Vec::new();
    for line in &job.lines {
        if !order.contains(&line.element.as_str()) {
            order.push(line.element.as_str());
        }
    }
    let phase_at = |name: Option<wythe_source::Symbol>| {
        name.and_then(|n| p.phases.iter().position(|x| x.name == n)).unwrap_or(usize::MAX)
    };
    for element in order {
        let mine: Vec<_> = job.lines.iter().zip(&p.done).filter(|(l, _)| l.element.as_str() == element).collect();
        let sum: f64 = mine.iter().map(|(_, d)| d.get::<ratio>()).sum();
        let open: Vec<_> = mine.iter().filter(|(_, d)| d.get::<ratio>() < 1.0 - 1e-9).collect();
        let next = open.iter().min_by_key(|(l, _)| phase_at(l.phase)).map(|(l, _)| l);
        table.row(vec![
            Cell::text(element),
            percent(if mine.is_empty() { 0.0 } else { sum / mine.len() as f64 }),
            Cell::text(next.map_or(String::new(), |l| format!("{} {}", l.act.word(), l.layer))),
            Cell::text(next.and_then(|l| l.phase).map_or("", |n| n.as_str())),
            Cell::Count(open.len() as u64),
        ]);
    }
    table
}

fn left(rest: &[OrderItem]) -> Table {
    let mut table = Table::new(
        "left_to_order",
        "To have on site for what is left",
        &[("product", "product"), ("packs", ">packs"), ("pack", "pack"), ("phases", "for")],
    );
    for item in rest {
        let phases: Vec<&str> = item.phases.iter().map(|p| p.as_str()).collect();
        table.row(vec![
            Cell::text(item.product.name.as_str()),
            Cell::Count(item.packs()),
            Cell::text(super::order::pack(item)),
            Cell::text(phases.join(", ")),
        ]);
    }
    table
}

/// What is left to install, by element and product.
fn install(job: &Job, p: &Progress, show: &Shower<'_>) -> Table {
    let mut table = Table::new(
        "left_to_install",
        "To install",
        &[("element", "element"), ("work", "work"), ("product", "product"), ("phase", "in"), ("left", ">left")],
    );
    let mut order: Vec<(&str, &str, &str, &str)> = Vec::new();
    let mut sums: BTreeMap<(&str, &str, &str, &str), Measure> = BTreeMap::new();
    for (at, line) in job.lines.iter().enumerate() {
        let left = p.left(at, line);
        let Some(product) = line.product.as_ref().filter(|_| !left.is_nothing()) else { continue };
        let key =
            (line.element.as_str(), line.act.word(), product.name.as_str(), line.phase.map_or("", |x| x.as_str()));
        match sums.get(&key).and_then(|m| m.plus(left)) {
            Some(sum) => {
                sums.insert(key, sum);
            }
            None => {
                order.push(key);
                sums.insert(key, left);
            }
        }
    }
    for key in order {
        let Some(left) = sums.get(&key) else { continue };
        table.row(vec![
            Cell::text(key.0),
            Cell::text(key.1),
            Cell::text(key.2),
            Cell::text(key.3),
            show.measure(*left),
        ]);
    }
    table
}
