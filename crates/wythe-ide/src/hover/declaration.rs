//! Declarations: how they read from outside, their documentation, and what comes of them.

use wythe_eval::{Evaluator, Value};
use wythe_model::Foundation;
use wythe_model::geometry::{Basis, Plan};
use wythe_model::{MeasuredFace, Product};
use wythe_project::Project;
use wythe_sema::{DefId, Prelude, Signature};
use wythe_source::Span;
use wythe_syntax::ast::{DeclKind, ExprId, ExprKind};

use super::{buildup, code, value};
use crate::figures::{figure, thickness};
use crate::{buildings, scope};

/// What is told of a declaration at a place that names it.
pub(super) fn told(project: &Project, def: DefId, place: Span) -> Option<String> {
    let program = project.program();
    let decl = program.decl(def)?;
    let mut parts = vec![code(&scope::header(program, def))];
    let docs = program.docs(decl.docs);
    if !docs.is_empty() {
        parts.push(docs);
    }
    match &decl.kind {
        DeclKind::Let(binding) => {
            if let Some(Signature::Value(ty)) = scope::signature(program, def) {
                parts.push(ty.describe(program));
            }
            parts.extend(value::of_declaration(project, def.file, binding.value));
        }
        DeclKind::Product { .. } => parts.extend(product(project, def)),
        DeclKind::Buildup { .. } => parts.extend(assembly(project, def, decl.name.span, place)),
        DeclKind::Foundation { .. } => {
            let judged = buildings::in_file(project, def.file).find(|j| j.def == def)?;
            parts.push(foundation(project, &judged.foundation));
        }
        DeclKind::Phase(_) => parts.extend(phase(project, def)),
        DeclKind::Rule(_) => parts.extend(rule(project, def)),
        DeclKind::Unit(Some(_)) | DeclKind::Fn(_) | DeclKind::Record(_) | DeclKind::Enum { .. } => {}
        _ => {}
    }
    if def.file != place.file {
        parts.push(format!("*{}*", origin(project, def, decl.name.span)));
    }
    Some(parts.join("\n\n"))
}

fn origin(project: &Project, def: DefId, place: Span) -> String {
    if def.file == Prelude::FILE { "a word of the language".into() } else { value::place_name(project, place) }
}

/// A field of a record or a member of an enumeration.
pub(super) fn part(project: &Project, def: DefId, number: u32) -> Option<String> {
    let program = project.program();
    let decl = program.decl(def)?;
    match &decl.kind {
        DeclKind::Record(fields) => {
            let field = fields.get(number as usize)?;
            let Some(Signature::Record(types)) = scope::signature(program, def) else { return None };
            let ty = types.get(number as usize)?;
            let mut head = format!("{}: {}", field.name.name, ty.ty.written(program));
            if let Some(default) = field.default {
                let module = &program.module(def.file)?.module;
                head.push_str(&format!(" = {}", program.text(module[default].span)));
            }
            let docs = program.docs(field.docs);
            let of = format!("of `{}`: {}", decl.name.name, ty.ty.describe(program));
            Some([code(&head), docs, of].into_iter().filter(|p| !p.is_empty()).collect::<Vec<_>>().join("\n\n"))
        }
        DeclKind::Enum { members, ordered } => {
            let member = members.get(number as usize)?;
            let rank =
                if *ordered { format!(", {} of {}, least first", number + 1, members.len()) } else { String::new() };
            let docs = program.docs(decl.docs);
            Some(
                format!("{}\n\none of `{}`{rank}\n\n{docs}", code(member.name.as_str()), decl.name.name)
                    .trim_end()
                    .into(),
            )
        }
        _ => None,
    }
}

fn product(project: &Project, def: DefId) -> Option<String> {
    let mut ev = Evaluator::new(project.program());
    let Value::Product(p) = ev.value(def) else { return None };
    Some(properties(project, &p))
}

/// The properties of a product that a builder asks for.
pub(super) fn properties(project: &Project, p: &Product) -> String {
    let options = &project.manifest().display;
    let mut rows: Vec<(&str, String)> = Vec::new();
    let mut row = |name: &'static str, value: Option<String>| rows.extend(value.map(|v| (name, v)));
    row("thickness", p.thickness.map(|t| thickness(t, options)));
    row("thermal resistance", p.layer_resistance().map(|r| figure(r, options)));
    row("conductivity", p.conductivity.map(|c| figure(c.mid, options)));
    row(
        "permeance",
        p.permeance.map(|i| {
            let mid = figure(i.mid, options);
            if i.low < i.high {
                format!("{mid} ({} .. {})", figure(i.low, options), figure(i.high, options))
            } else {
                mid
            }
        }),
    );
    let controls: Vec<_> = p.controls.iter().map(|c| c.name()).collect();
    row("controls", (!controls.is_empty()).then(|| controls.join(", ")));
    row("facing", p.facing.map(|f| f.name().to_owned()));
    row("size", p.size.map(|(w, l)| format!("{} x {}", figure(w, options), figure(l, options))));
    row("covers", p.covers.map(|c| figure(c, options)));
    row("length", p.length.map(|l| figure(l, options)));
    row("source", p.source.as_ref().map(|s| s.to_string()));
    if rows.is_empty() {
        return String::new();
    }
    let body: Vec<_> = rows.iter().map(|(name, value)| format!("| {name} | {} |", value.replace('|', "/"))).collect();
    format!("| {} | |\n|---|---|\n{}", p.class.name(), body.join("\n"))
}

/// The layers of a build-up: with the arguments of the call it is named in, else as a foundation uses it, else with
/// its defaults.
fn assembly(project: &Project, def: DefId, name: Span, place: Span) -> Option<String> {
    let program = project.program();
    let mut ev = Evaluator::new(program);
    let called = call_at(project, place).and_then(|id| {
        let mut frame = value::frame_at(&mut ev, place.file, place.start)?;
        match ev.eval(&mut frame, id) {
            Value::Assembly(assembly) => Some(buildup::table(project, &assembly)),
            _ => None,
        }
    });
    if called.is_some() {
        return called;
    }
    let used = buildings::made_of(project, name);
    if let Some((f, assembly)) = used.first() {
        let others = if used.len() > 1 { format!(", and {} more", used.len() - 1) } else { String::new() };
        return Some(format!("As in {}{others}:\n\n{}", f.name, buildup::table(project, assembly)));
    }
    match ev.value(def) {
        Value::Assembly(assembly) => Some(buildup::table(project, &assembly)),
        _ => None,
    }
}

/// The call whose callee stands at a place.
fn call_at(project: &Project, place: Span) -> Option<ExprId> {
    let module = &project.program().module(place.file)?.module;
    let mut calls = module.exprs.iter().enumerate();
    calls
        .find(|(_, e)| matches!(&e.kind, ExprKind::Call { callee, .. } if module[*callee].span == place))
        .map(|(index, _)| ExprId(index as u32))
}

fn foundation(project: &Project, f: &Foundation) -> String {
    let options = &project.manifest().display;
    let plan = Plan::of(f, Basis::Design);
    let mut lines = vec![format!(
        "{} around, {} of crawl floor measured on the {} of the masonry; {} inside it",
        figure(plan.perimeter(f.measured), options),
        figure(plan.area(f.measured), options),
        f.measured.word(),
        figure(plan.area(MeasuredFace::Inside), options),
    )];
    lines.push(format!(
        "{} walls, {} openings, {} piers, {} beams, {} phases, on {}",
        f.walls.len(),
        f.openings.len(),
        f.piers.len(),
        f.beams.len(),
        f.phases.len(),
        f.site.name,
    ));
    if let Some(judged) = buildings::all(project).find(|j| j.foundation.origin == f.origin) {
        lines.push(match judged.findings.len() {
            0 => format!("{} rules hold; nothing found", judged.rules.len()),
            1 => "1 finding".into(),
            n => format!("{n} findings"),
        });
    }
    lines.iter().map(|l| format!("- {l}")).collect::<Vec<_>>().join("\n")
}

fn phase(project: &Project, def: DefId) -> Option<String> {
    let mut ev = Evaluator::new(project.program());
    let Value::Phase(phase) = ev.value(def) else { return None };
    let mut lines = Vec::new();
    for (word, list) in [
        ("needs", &phase.needs),
        ("brings", &phase.brings),
        ("leaves", &phase.leaves),
        ("wets", &phase.wets),
        ("dries", &phase.dries),
        ("closes", &phase.closes),
        ("starts", &phase.starts),
    ] {
        if !list.is_empty() {
            let names: Vec<_> = list.iter().map(|s| s.as_str()).collect();
            lines.push(format!("- {word} {}", names.join(", ")));
        }
    }
    if let Some(hold) = &phase.hold {
        lines.push(format!("- to be seen before work goes on: {hold}"));
    }
    Some(lines.join("\n"))
}

fn rule(project: &Project, def: DefId) -> Option<String> {
    let origin = project.program().decl(def)?.name.span;
    let outcome = buildings::all(project).flat_map(|j| &j.rules).find(|r| r.origin == origin)?;
    let mut lines = vec![outcome.title.clone()];
    if !outcome.source.is_empty() {
        lines.push(format!("Source: {}", outcome.source));
    }
    let (mut held, mut asked) = (0, 0);
    for rule in buildings::all(project).flat_map(|j| &j.rules).filter(|r| r.origin == origin) {
        asked += rule.cases.len();
        held += rule.cases.iter().filter(|c| c.holds == Some(true)).count();
    }
    lines.push(format!("Holds in {held} of {asked} places"));
    Some(lines.join("\n\n"))
}
