//! What it comes to, on the first page: whether it may be closed at all, key figures, findings, control lines.

use uom::si::ratio::percent;
use wythe_assess::moisture::{ServiceFigures, StateRole};
use wythe_bill::labor::{crew_days, labor_total};
use wythe_bill::outcome::wall_thermal;
use wythe_findings::Severity;
use wythe_model::geometry::{Basis, Plan};
use wythe_model::{MeasuredFace, SpaceKind};

use crate::House;
use crate::figures::{conductance, flow, water};
use crate::grid::pretty;
use crate::model::{Block, Column, Fact, Grid, Section};
use crate::words::flowing;

/// What a key figure is about.
#[derive(Clone, Copy, PartialEq, Eq, Debug, PartialOrd, Ord)]
pub enum Key {
    /// What the check finds.
    Findings,
    /// The size of the house.
    Size,
    /// Its heat.
    Heat,
    /// Its moisture.
    Moisture,
    /// What it takes.
    Bill,
}

/// The key figures of a house: the same ones in the same order for every house, so that they can be laid side by side.
pub fn key_figures(house: &House<'_>) -> Vec<(Key, Fact)> {
    let mut out = Vec::new();
    counts(house, &mut out);
    size(house, &mut out);
    heat(house, &mut out);
    moisture(house, &mut out);
    bill(house, &mut out);
    out
}

fn counts(house: &House<'_>, out: &mut Vec<(Key, Fact)>) {
    let count = |severity| house.findings.iter().filter(|f| f.severity == severity).count().to_string();
    out.push((Key::Findings, Fact::new("Errors", count(Severity::Error))));
    out.push((Key::Findings, Fact::new("Warnings", count(Severity::Warning))));
    out.push((Key::Findings, Fact::new("Waived", house.waived.len().to_string())));
}

fn size(house: &House<'_>, out: &mut Vec<(Key, Fact)>) {
    let (f, show) = (house.foundation, &house.show);
    let plan = Plan::of(f, Basis::Design);
    let face = format!("on the {} of the masonry", f.measured.word());
    let perimeter = show.length(plan.perimeter(f.measured)).shown();
    out.push((Key::Size, Fact::new("Perimeter", perimeter).note(face)));
    let inside = show.area(plan.area(MeasuredFace::Inside)).shown();
    out.push((Key::Size, Fact::new("Crawl floor", pretty(&inside)).note("inside the masonry")));
    let parts = format!("{} walls, {} openings, {} piers", f.walls.len(), f.openings.len(), f.piers.len());
    out.push((Key::Size, Fact::new("Parts", parts)));
}

fn heat(house: &House<'_>, out: &mut Vec<(Key, Fact)>) {
    if let Some(thermal) = wall_thermal(house.foundation, house.job.terms.basis, house.films) {
        let board = house.show.resistance(thermal.board).shown();
        out.push((Key::Heat, Fact::new("Walls, best band", pretty(&board)).note("layers in series, films left out")));
        let whole = house.show.transmittance(thermal.u).shown();
        out.push((Key::Heat, Fact::new("Walls as a whole", pretty(&whole)).note("bare band counted, fasteners not")));
    }
    if let Some(heat) = house.heat {
        let loss = conductance(heat.total(), house.show.display.system);
        out.push((Key::Heat, Fact::new("Heat loss", loss).note("all parts, ground included")));
    }
}

fn moisture(house: &House<'_>, out: &mut Vec<(Key, Fact)>) {
    let Some(report) = house.moisture else { return };
    let figures = |role| report.states.iter().find(|s| s.role == role).map(|s| ServiceFigures::of(&s.year));
    let Some(service) = figures(StateRole::Service) else { return };
    let compared = figures(StateRole::Compared);
    let beside = |say: &dyn Fn(&ServiceFigures) -> String| {
        compared.as_ref().map_or(String::new(), |c| format!("vented instead: {}", say(c)))
    };
    let wood = |s: &ServiceFigures| format!("{:.1} %", s.wood_moisture.get::<percent>());
    let humid = |s: &ServiceFigures| format!("{:.0} %", s.peak_humidity.ratio().get::<percent>());
    let mold = |s: &ServiceFigures| format!("{:.1}", s.mold.value());
    let facts = [
        Fact::new("Framing, dampest", wood(&service)).note(beside(&wood)),
        Fact::new("Most humid day", humid(&service)).note(beside(&humid)),
        Fact::new("Mold index, highest", mold(&service)).note(beside(&mold)),
    ];
    out.extend(facts.map(|fact| (Key::Moisture, fact)));
}

fn bill(house: &House<'_>, out: &mut Vec<(Key, Fact)>) {
    let sheets: usize = house.job.boards.iter().map(|b| b.plan.bought).sum();
    if sheets > 0 {
        out.push((Key::Bill, Fact::new("Board", format!("{sheets} sheets"))));
    }
    if let Some((_, bill)) = house.bill {
        let note = if bill.is_complete() { "with tax" } else { "a part: prices are missing" };
        out.push((Key::Bill, Fact::new("Goods", bill.total.to_string()).note(note)));
    }
    if let Some(cost) = labor_total(house.labor) {
        let days = format!("{:.1} crew-days", crew_days(house.labor).value);
        out.push((Key::Bill, Fact::new("Labor", cost.to_string()).note(days)));
    }
    if let Some((schedule, _)) = house.schedule {
        out.push((Key::Bill, Fact::new("First day", schedule.start.to_string())));
        out.push((Key::Bill, Fact::new("Last day", schedule.end.to_string()).note("inspections included")));
    }
}

pub(super) fn section(house: &House<'_>) -> Section {
    let mut out = Section::new("summary", "At a glance");
    out.text(verdict(house));
    gate(house, &mut out);
    let facts = key_figures(house).into_iter().map(|(_, fact)| fact).collect();
    out.blocks.push(Block::Facts { facts });
    out.grid(lines(house));
    out
}

fn verdict(house: &House<'_>) -> String {
    let count = |severity| house.findings.iter().filter(|f| f.severity == severity).count();
    let (errors, warnings, remarks) = (count(Severity::Error), count(Severity::Warning), count(Severity::Information));
    let many = |n: usize, one: &str, more: &str| format!("{n} {}", if n == 1 { one } else { more });
    let mut text = match (errors, warnings) {
        (0, 0) => "The check finds nothing wrong with these plans.".to_owned(),
        (0, w) => format!("The check finds no error and {}.", many(w, "warning", "warnings")),
        (e, w) => format!(
            "The check finds {} and {}: what is worked out below is worked out of faulty plans.",
            many(e, "error", "errors"),
            many(w, "warning", "warnings")
        ),
    };
    if remarks > 0 {
        text += &format!(" There {} to read.", if remarks == 1 { "is 1 remark" } else { "are remarks" });
    }
    if !house.waived.is_empty() {
        text += &format!(" {} waived.", many(house.waived.len(), "finding is", "findings are"));
    }
    text
}

/// May it be closed at all, and how is it kept dry.
fn gate(house: &House<'_>, out: &mut Section) {
    let f = house.foundation;
    if f.space == SpaceKind::Vented {
        out.text("This space is vented to the outside and is not meant to be closed.");
        return;
    }
    let against = wythe_check::sequence::gate(f);
    let mut grave: Vec<String> = Vec::new();
    for finding in against.iter().filter(|f| f.severity > Severity::Information) {
        let title = flowing(&finding.title);
        if !grave.contains(&title) {
            grave.push(title);
        }
    }
    let errors = house.findings.iter().any(|f| f.severity == Severity::Error);
    if grave.is_empty() && errors {
        out.text(
            "May it be closed? Not as it is planned: no flood hazard, no appliance that draws its air from the space and \
             no standing water is recorded, but the errors found must be mended first.",
        );
    } else if grave.is_empty() {
        out.text(
            "May it be closed? Nothing in the plans stands against it: no flood hazard, no appliance that draws its air \
             from the space, no standing water is recorded. Look for old hazardous materials before work begins.",
        );
    } else {
        out.blocks.push(Block::Caution { text: format!("Do not close it as it is planned: {}.", grave.join("; ")) });
    }
    let (c, system) = (&f.conditioning, house.show.display.system);
    let mut ways = Vec::new();
    if let Some(supply) = c.supply_air {
        ways.push(format!("supply air of {}", flow(supply, system)));
    }
    if let Some(exhaust) = c.exhaust {
        ways.push(format!("exhaust of {}", flow(exhaust, system)));
    }
    if let Some(rate) = c.dehumidifier {
        ways.push(format!("a dehumidifier of {} at its rating condition", water(rate, system)));
    }
    if !ways.is_empty() {
        out.text(format!("It is kept dry by {}.", crate::words::listed(&ways)));
    }
}

fn lines(house: &House<'_>) -> Grid {
    let heads = [
        ("line", false),
        ("sections proven", true),
        ("broken", true),
        ("not asked or unsaid", true),
        ("stands", false),
    ];
    let columns = heads.iter().map(|(head, right)| Column { head: (*head).to_owned(), right: *right }).collect();
    let rows = house.standing.lines.iter().map(|(name, [proven, broken, other])| {
        let stands = match (proven, broken) {
            (_, 1..) => "BROKEN",
            (1.., 0) => "unbroken",
            _ => "not asked",
        };
        vec![name.replace('_', " "), proven.to_string(), broken.to_string(), other.to_string(), stands.to_owned()]
    });
    Grid { title: "Control lines from the top of the wall to the ground".into(), columns, rows: rows.collect() }
}
