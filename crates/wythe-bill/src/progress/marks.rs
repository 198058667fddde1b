//! What the entries of a log mark as done.

use jiff::civil::Date;
use uom::si::f64::Ratio;
use uom::si::ratio::ratio;
use wythe_findings::{Finding, codes};
use wythe_model::Foundation;
use wythe_model::ledger::{LogEntry, WorkLog};
use wythe_source::Symbol;

/// A mark: so much of a phase on an element, or the whole phase.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// The day.
    pub date: Date,
    /// The entry, by number.
    pub entry: usize,
    /// The phase.
    pub phase: Symbol,
    /// The element; the whole house where there is none.
    pub element: Option<Symbol>,
    /// The layers or products; all where none is named.
    pub layers: Vec<Symbol>,
    /// How much.
    pub share: f64,
}

/// The marks of a log, and what names nothing or is out of order.
pub(super) fn read(f: &Foundation, log: &WorkLog, today: Date) -> (Vec<Mark>, Vec<Finding>) {
    let (mut marks, mut findings) = (Vec::new(), Vec::new());
    let mut latest: Option<Date> = None;
    for (number, entry) in log.entries.iter().enumerate() {
        if latest.is_some_and(|day| entry.date < day) {
            findings.push(
                Finding::new(
                    codes::LOG_OUT_OF_ORDER,
                    entry.origin,
                    format!("the entry of {} stands after a later one", entry.date),
                )
                .label("read in the order written"),
            );
        }
        if entry.date > today {
            findings.push(
                Finding::new(codes::LOG_OUT_OF_ORDER, entry.origin, format!("{} has not come yet", entry.date))
                    .label(format!("judged on {today}")),
            );
        }
        latest = Some(latest.map_or(entry.date, |day| day.max(entry.date)));
        unknown(f, entry, &mut findings);
        for &phase in &entry.done {
            marks.push(Mark { date: entry.date, entry: number, phase, element: None, layers: Vec::new(), share: 1.0 });
        }
        let Some(phase) = entry.visit else { continue };
        let share = bounded(entry.share);
        let parts = entry.walls.iter().chain(&entry.piers).chain(&entry.openings).map(|e| (*e, share));
        let ground = entry.ground.map(|g| (Symbol::new("ground"), bounded(g)));
        for (element, share) in parts.chain(ground) {
            let layers = entry.layers.clone();
            marks.push(Mark { date: entry.date, entry: number, phase, element: Some(element), layers, share });
        }
    }
    findings.extend(overfull(log, &marks));
    (marks, findings)
}

fn bounded(share: Ratio) -> f64 {
    let share = share.get::<ratio>();
    if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 }
}

fn unknown(f: &Foundation, entry: &LogEntry, findings: &mut Vec<Finding>) {
    let mut say = |what: &str, name: Symbol, known: &mut dyn Iterator<Item = Symbol>| {
        let mut known = known;
        if (&mut known).all(|k| k != name) {
            findings.push(
                Finding::new(codes::LOGGED_UNKNOWN_PART, entry.origin, format!("`{}` has no {what} `{name}`", f.name))
                    .related(f.origin, "the foundation of this log"),
            );
        }
    };
    for &phase in entry.done.iter().chain(&entry.visit) {
        say("phase", phase, &mut f.phases.iter().filter_map(|p| p.name));
    }
    for &wall in &entry.walls {
        say("wall", wall, &mut f.walls.iter().map(|w| w.name));
    }
    for &pier in &entry.piers {
        say("pier", pier, &mut f.piers.iter().map(|p| p.name));
    }
    for &opening in &entry.openings {
        say("opening", opening, &mut f.openings.iter().map(|o| o.name));
    }
    let works =
        || f.assemblies.iter().flat_map(|a| &a.faces).chain(f.joints.iter().map(|j| &j.face)).flat_map(|x| &x.works);
    for &layer in &entry.layers {
        let mut layers = works().flat_map(|w| [Some(w.layer), w.product.as_ref().map(|p| p.name)]).flatten();
        say("layer", layer, &mut layers);
    }
}

/// Shares of one element and phase that come to more than the whole, where no layers part them.
fn overfull(log: &WorkLog, marks: &[Mark]) -> Vec<Finding> {
    let mut out = Vec::new();
    for (i, mark) in marks.iter().enumerate() {
        let Some(element) = mark.element else { continue };
        let same = |m: &&Mark| m.element == mark.element && m.phase == mark.phase && m.layers == mark.layers;
        let before: f64 = marks[..i].iter().filter(same).map(|m| m.share).sum();
        if before <= 1.0 + 1e-9 && before + mark.share > 1.0 + 1e-9 {
            let Some(entry) = log.entries.get(mark.entry) else { continue };
            let sum = (before + mark.share) * 100.0;
            let title = format!("{} of `{element}` comes to {sum:.0} %", mark.phase);
            out.push(Finding::new(codes::LOG_OVERFULL, entry.origin, title).label("more than the whole"));
        }
    }
    out
}

/// How much of a work is marked, at most the whole.
pub(super) fn share(marks: &[Mark], element: Symbol, phase: Symbol, layer: Symbol, product: Option<Symbol>) -> f64 {
    let counts = |m: &&Mark| {
        let here = m.element.is_none_or(|e| e == element);
        let named = m.layers.is_empty() || m.layers.contains(&layer) || product.is_some_and(|p| m.layers.contains(&p));
        m.phase == phase && here && named
    };
    // Folded from nought: an empty sum of floats is minus nought.
    marks.iter().filter(counts).fold(0.0_f64, |sum, m| sum + m.share).min(1.0)
}
