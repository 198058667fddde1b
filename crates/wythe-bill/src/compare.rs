//! Two revisions side by side: quantities, order, cost, walls, findings and schedule, each figure with the places in
//! the text it depends on.

use std::collections::BTreeMap;

use jiff::civil::Date;
use uom::si::f64::{Area, HeatTransfer, Length, Ratio, Volume};
use wythe_findings::{Finding, Severity};
use wythe_model::ThermalResistance;
use wythe_model::quantity::{Films, Measure};
use wythe_source::Span;
use wythe_takeoff::compare::{Change, changes};
use wythe_takeoff::price::PricedBill;

use crate::Job;
use crate::causes::causes;
use crate::cost::Money;
use crate::labor::HouseLabor;
use crate::outcome::wall_thermal;
use crate::takeoff::role_word;
use crate::timeline::Schedule;

/// One revision with all that is known of it.
pub struct Revision<'a> {
    /// Its takeoff.
    pub job: &'a Job,
    /// Its bill, where there are prices.
    pub bill: Option<&'a PricedBill>,
    /// Its labor, where there are rates.
    pub labor: &'a [HouseLabor],
    /// Its schedule, where there is one.
    pub schedule: Option<&'a Schedule>,
    /// What the check finds, house by house.
    pub findings: &'a [(usize, Finding)],
    /// Surface films for the walls.
    pub films: Films,
}

/// What a figure is of.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub enum Group {
    /// Net quantities.
    Quantity,
    /// Units bought.
    Order,
    /// Money.
    Cost,
    /// Resistance and transmittance.
    Thermal,
    /// Findings.
    Finding,
    /// Days.
    Schedule,
}

impl Group {
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Group::Quantity => "quantity",
            Group::Order => "order",
            Group::Cost => "cost",
            Group::Thermal => "walls",
            Group::Finding => "finding",
            Group::Schedule => "schedule",
        }
    }
}

/// The key of a figure.
#[derive(Clone, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub struct Subject {
    /// What it is of.
    pub group: Group,
    /// The house; empty for the whole job, or where one house is compared with one of another name.
    pub house: String,
    /// The name.
    pub name: String,
}

/// A figure.
#[derive(Clone, Debug, PartialEq)]
pub enum Amount {
    /// A net quantity.
    Measure(Measure),
    /// Units bought.
    Units(u64, String),
    /// Money.
    Money(Money),
    /// A transmittance.
    Transmittance(HeatTransfer),
    /// A resistance.
    Resistance(ThermalResistance),
    /// Days.
    Days(Ratio),
    /// A day.
    Date(Date),
    /// A finding, by its severity.
    Found(Severity),
}

/// A figure with the places it depends on.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// How much.
    pub amount: Amount,
    /// Places in the text it depends on; none where it depends on everything.
    pub causes: Vec<Span>,
}

/// All differences between two revisions, by group, house and name.
pub fn differences(old: &Revision<'_>, new: &Revision<'_>) -> Vec<Change<Subject, Figure>> {
    // One house against one: they are compared whatever they are called.
    let alone = old.job.houses.len() == 1 && new.job.houses.len() == 1;
    changes(&figures(old, alone), &figures(new, alone), |a, b| same(&a.amount, &b.amount))
}

fn figures(r: &Revision<'_>, alone: bool) -> BTreeMap<Subject, Figure> {
    let mut out: BTreeMap<Subject, Figure> = BTreeMap::new();
    let house = |number: usize| match r.job.houses.get(number) {
        Some(f) if !alone => f.name.to_string(),
        _ => String::new(),
    };
    let mut put = |group, house: String, name: String, amount, causes| {
        out.insert(Subject { group, house, name }, Figure { amount, causes });
    };
    for ((number, name), (measure, places)) in quantities(r.job) {
        put(Group::Quantity, house(number), name, Amount::Measure(measure), places);
    }
    for item in &r.job.order {
        let unit = if item.pack > 1 { format!("{} {}", item.pack, item.unit) } else { item.unit.to_string() };
        let places = places_of(r.job, item.product.name);
        put(Group::Order, String::new(), item.product.name.to_string(), Amount::Units(item.packs(), unit), places);
    }
    if let Some(bill) = r.bill {
        for line in &bill.lines {
            let item = r.job.order.iter().find(|i| i.product.name.as_str() == line.product);
            let places = item.map_or(Vec::new(), |i| places_of(r.job, i.product.name));
            put(Group::Cost, String::new(), line.product.clone(), Amount::Money(line.cost), places);
        }
        put(Group::Cost, String::new(), "goods with tax".into(), Amount::Money(bill.total), Vec::new());
    }
    for labor in r.labor {
        if let Some(cost) = labor.cost {
            put(Group::Cost, house(labor.house), "labor".into(), Amount::Money(cost), Vec::new());
        }
        for visit in &labor.visits {
            let name = format!("crew-days of {}", visit.phase);
            put(Group::Schedule, house(labor.house), name, Amount::Days(visit.crew_days), Vec::new());
        }
    }
    for (number, f) in r.job.houses.iter().enumerate() {
        if let Some(t) = wall_thermal(f, r.job.terms.basis, r.films) {
            let calls: Vec<Span> = f.assemblies.iter().map(|a| a.call).collect();
            put(Group::Thermal, house(number), "U of all walls".into(), Amount::Transmittance(t.u), calls.clone());
            put(Group::Thermal, house(number), "R of wall and board".into(), Amount::Resistance(t.board), calls);
        }
    }
    for (number, finding) in r.findings {
        let name = format!("{}: {} {}", finding.name.as_str(), finding.title, finding.item);
        let places = [finding.primary.span].into_iter().chain(finding.related.iter().map(|l| l.span)).collect();
        put(Group::Finding, house(*number), name.trim_end().to_owned(), Amount::Found(finding.severity), places);
    }
    if let Some(schedule) = r.schedule {
        put(Group::Schedule, String::new(), "last day".into(), Amount::Date(schedule.end), Vec::new());
    }
    out
}

type Quantities = BTreeMap<(usize, String), (Measure, Vec<Span>)>;

/// Net quantities by house, element, work and product.
fn quantities(job: &Job) -> Quantities {
    let mut out = Quantities::new();
    for line in &job.lines {
        let product = line.product.as_ref().map_or(line.layer.as_str(), |p| p.name.as_str());
        let name = format!("{}: {} {product}, {}", line.element, line.act.word(), role_word(line.role));
        let entry = out.entry((line.house, name)).or_insert_with(|| (nothing(line.net), Vec::new()));
        entry.0 = entry.0.plus(line.net).unwrap_or(entry.0);
        for place in causes(job, line) {
            if !entry.1.contains(&place) {
                entry.1.push(place);
            }
        }
    }
    out
}

/// The places the quantities of a product depend on.
fn places_of(job: &Job, product: wythe_source::Symbol) -> Vec<Span> {
    let mut out = Vec::new();
    for line in job.lines.iter().filter(|l| l.product.as_ref().is_some_and(|p| p.name == product)) {
        for place in causes(job, line) {
            if !out.contains(&place) {
                out.push(place);
            }
        }
    }
    out
}

fn nothing(measure: Measure) -> Measure {
    match measure {
        Measure::Area(_) => Measure::Area(Area::default()),
        Measure::Length(_) => Measure::Length(Length::default()),
        Measure::Volume(_) => Measure::Volume(Volume::default()),
        Measure::Count(_) => Measure::Count(0),
    }
}

/// Whether two figures count as equal: a millionth either way is rounding.
fn same(a: &Amount, b: &Amount) -> bool {
    let near = |x: f64, y: f64| (x - y).abs() <= 1e-6 * x.abs().max(y.abs()).max(1e-6);
    match (a, b) {
        (Amount::Measure(Measure::Area(x)), Amount::Measure(Measure::Area(y))) => near(x.value, y.value),
        (Amount::Measure(Measure::Length(x)), Amount::Measure(Measure::Length(y))) => near(x.value, y.value),
        (Amount::Measure(Measure::Volume(x)), Amount::Measure(Measure::Volume(y))) => near(x.value, y.value),
        (Amount::Transmittance(x), Amount::Transmittance(y)) => near(x.value, y.value),
        (Amount::Resistance(x), Amount::Resistance(y)) => near(x.value, y.value),
        (Amount::Days(x), Amount::Days(y)) => near(x.value, y.value),
        (a, b) => a == b,
    }
}
