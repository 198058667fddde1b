//! A layer as it is asked about on site: what fixes it and how many, what goes on next, and what must be seen first.

use wythe_model::geometry::Basis;
use wythe_model::quantity::{Measure, Role, quantities};
use wythe_model::{Act, Foundation, Work};
use wythe_project::Project;
use wythe_source::Span;
use wythe_syntax::ast::{Block, Item, Statement, StatementKind};

use crate::buildings::{self, Placed};
use crate::figures::{figure, measure};

/// What is told of the layer whose verb or name stands at a place; nothing elsewhere.
pub(super) fn told(project: &Project, place: Span) -> Option<String> {
    let decls = &project.program().module(place.file)?.module.decls;
    let decl = decls.iter().find(|d| d.span.holds(place))?;
    let statement = statement_at(decl.kind.block()?, place)?;
    let placed = buildings::works_at(project, statement.span);
    let first = placed.first()?;
    let work = first.face.works.get(first.number)?;
    let mut out = vec![sentence(project, work)];
    out.extend(fixings(project, first, work));
    out.extend(after(project, first));
    let counts: Vec<String> = placed.iter().take(4).filter_map(|p| count(project, p.foundation, work)).collect();
    out.extend(counts);
    Some(out.join("\n"))
}

fn statement_at(block: &Block, place: Span) -> Option<&Statement> {
    block.items.iter().find_map(|item| match item {
        Item::Section { block, .. } => statement_at(block, place),
        Item::Statement(statement) => match &statement.kind {
            StatementKind::Layer(layer) => {
                (layer.verb_span == place || layer.object.span == place).then_some(statement)
            }
            StatementKind::During { block, .. } => statement_at(block, place),
            _ => None,
        },
        Item::Property { .. } => None,
    })
}

fn sentence(project: &Project, work: &Work) -> String {
    let options = &project.manifest().display;
    let mut text = format!("**{} {}**", work.act.word(), work.layer);
    if let Some(phase) = &work.phase {
        text.push_str(&format!(" in {}", phase.name));
    }
    let by = work.by.map(|by| format!("by {}", figure(by, options)));
    let bead = work.bead.map(|b| format!("bead {}", figure(b, options)));
    for more in [by, bead].into_iter().flatten() {
        text.push_str(&format!(", {more}"));
    }
    text
}

/// What fixes a layer, tapes and seals it, in the order of the face.
fn fixings(project: &Project, placed: &Placed<'_>, work: &Work) -> Option<String> {
    if !work.act.places() {
        return None;
    }
    let options = &project.manifest().display;
    let face = placed.face;
    let all = quantities(placed.foundation, Basis::Design);
    let fasteners: Vec<_> = face
        .works
        .iter()
        .filter(|w| w.act == Act::Fasten && w.layer == work.layer)
        .filter_map(|w| w.product.as_ref().map(|p| p.name))
        .collect();
    let mut lines = Vec::new();
    for other in &face.works {
        let product = other.product.as_ref().map_or("?", |p| p.name.as_str());
        let of = other.place.and_then(|p| p.of);
        match other.act {
            Act::Fasten if other.layer == work.layer => {
                let spacing = match (other.every, other.each) {
                    (Some(every), _) => format!("every {}", figure(every, options)),
                    (None, Some((number, unit))) => format!("{number} per {unit}"),
                    (None, None) => String::new(),
                };
                let bite = other.product.as_ref().and_then(|p| p.embedment);
                let bite = bite.map(|b| format!(", {} into the structure", figure(b, options))).unwrap_or_default();
                let pieces: u64 = all
                    .lines
                    .iter()
                    .filter(|l| l.origin == other.origin)
                    .filter_map(|l| if let Measure::Count(n) = l.measure { Some(n) } else { None })
                    .sum();
                let many = if pieces > 0 { format!("; {pieces} in {}", placed.foundation.name) } else { String::new() };
                lines.push(format!("- fixed with {product} {spacing}{bite}{many}"));
            }
            Act::Tape | Act::Seal | Act::Cap if of.is_some_and(|of| of == work.layer || fasteners.contains(&of)) => {
                let edge = other.place.map(|p| edge_words(project, p.origin)).unwrap_or_default();
                lines.push(format!("- {} with {product}: {edge}", past(other.act)));
            }
            _ => {}
        }
    }
    if lines.is_empty() && matches!(work.act, Act::Hang | Act::Set) {
        lines.push("- nothing fixes it on this face".into());
    }
    (!lines.is_empty()).then(|| lines.join("\n"))
}

fn past(act: Act) -> &'static str {
    match act {
        Act::Tape => "taped",
        Act::Cap => "capped",
        _ => "sealed",
    }
}

fn edge_words(project: &Project, place: Span) -> String {
    project.text(place.file).get(place.range()).unwrap_or("").split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What goes on next on the face, and what must be seen before it may.
fn after(project: &Project, placed: &Placed<'_>) -> Option<String> {
    let works = &placed.face.works;
    let work = works.get(placed.number)?;
    let Some(next) = works.get(placed.number + 1) else {
        let hold = work.phase.and_then(|p| buildings::hold(placed.foundation, p.name));
        let seen = hold.map(|h| format!("; to be seen before work goes on: {h}")).unwrap_or_default();
        return Some(format!("- last on this face{seen}"));
    };
    let line = edge_words(project, next.origin);
    let here = work.phase.map(|p| p.name);
    let there = next.phase.map(|p| p.name);
    if here == there {
        return Some(format!("- next: `{line}`"));
    }
    let when = there.map(|p| format!(" in {p}")).unwrap_or_default();
    let between = crate::progress::holds_between(placed.foundation, here, there);
    let seen: Vec<String> =
        between.iter().map(|(phase, hold)| format!("  - seen first, after {phase}: {hold}")).collect();
    Some([vec![format!("- next: `{line}`{when}")], seen].concat().join("\n"))
}

/// How much of it there is in a foundation, element by element.
fn count(project: &Project, f: &Foundation, work: &Work) -> Option<String> {
    let options = &project.manifest().display;
    let all = quantities(f, Basis::Design);
    let main = |role: Role| !matches!(role, Role::Tail | Role::TurnUp);
    let lines: Vec<_> = all.lines.iter().filter(|l| l.origin == work.origin && main(l.role)).collect();
    let mut total: Option<Measure> = None;
    for line in &lines {
        total = match total {
            None => Some(line.measure),
            Some(sum) => sum.plus(line.measure).or(Some(sum)),
        };
    }
    let total = total?;
    let each: Vec<_> = lines.iter().take(8).map(|l| format!("{} {}", l.element, measure(l.measure, options))).collect();
    let more = if lines.len() > 8 { ", …" } else { "" };
    let unit = if matches!(total, Measure::Count(_)) { " pieces" } else { "" };
    Some(format!("- {}: **{}{unit}** ({}{more})", f.name, measure(total, options), each.join(", ")))
}
