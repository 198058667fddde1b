//! Figures and expressions: dimension, value, the other system of units, and what the value was worked out of.

use wythe_eval::{Derivation, Evaluator, Frame, Value};
use wythe_project::Project;
use wythe_sema::{Literal, Program, Type};
use wythe_source::{FileId, Span};
use wythe_syntax::ast::{DeclKind, Expr, ExprId, ExprKind, Item, StatementKind};
use wythe_units::{DisplayOptions, Quantity, format_point, format_quantity};

use super::{Hover, code};
use crate::figures::other_system;
use crate::scope;

/// How many lines of provenance are told.
const LINES: usize = 14;

/// A figure in the text: what it measures, and how it reads in other units.
pub(super) fn literal(project: &Project, file: FileId, offset: u32) -> Option<Hover> {
    let program = project.program();
    let data = program.module(file)?;
    let checked = data.checked.as_ref()?;
    let at = |(index, expr): (usize, &Expr)| {
        let literal = checked.literals.get(&ExprId(index as u32)).filter(|_| expr.span.touches(offset))?;
        Some((expr.span, literal))
    };
    let figures = data.module.exprs.iter().enumerate().filter_map(at);
    let (span, literal) = figures.min_by_key(|(span, _)| (span.end - span.start, span.start))?;
    let options = &project.manifest().display;
    let written = span.text(&data.text);
    let (what, mut readings) = match literal {
        Literal::Quantity(quantity, _) => (quantity.dim.describe_kind(quantity.kind), in_both(*quantity, options)),
        Literal::Temperature(kelvin) => {
            let point = Quantity::new(*kelvin, wythe_units::Dim::TEMPERATURE);
            let both = vec![format_point(point, options), format_point(point, &other_system(options))];
            ("a temperature".to_owned(), both)
        }
    };
    readings.retain(|r| r != written);
    let mut text = format!("{}\n\n{what}", code(written));
    if !readings.is_empty() {
        text.push_str(&format!(" = {}", readings.join(" = ")));
    }
    Some(Hover { span, text })
}

fn in_both(quantity: Quantity, options: &DisplayOptions) -> Vec<String> {
    let mut out = vec![format_quantity(quantity, options), format_quantity(quantity, &other_system(options))];
    out.dedup();
    out
}

/// An expression: its type, its value, and where that comes from.
pub(super) fn expression(project: &Project, file: FileId, offset: u32) -> Option<Hover> {
    let program = project.program();
    let data = program.module(file)?;
    let checked = data.checked.as_ref()?;
    let inside = data
        .module
        .exprs
        .iter()
        .enumerate()
        .filter(|(_, e)| e.span.touches(offset) && !matches!(e.kind, ExprKind::Broken | ExprKind::Text(_)));
    let (index, expr) = inside.min_by_key(|(i, e)| (e.span.end - e.span.start, *i))?;
    let id = ExprId(index as u32);
    let ty = checked.ty(id);
    if matches!(ty, Type::Unknown) {
        return None;
    }
    let mut text = format!("{}\n\n{}", code(expr.span.text(&data.text)), ty.describe(program));
    if let Some(derivation) = derived(program, file, offset, id, &project.manifest().display) {
        text.push_str(&format!(" = **{}**", derivation.value));
        text.push_str(&provenance(project, &derivation));
    }
    Some(Hover { span: expr.span, text })
}

/// The value of an expression with what it was worked out of; nothing where it depends on the caller.
pub(super) fn derived(
    program: &Program,
    file: FileId,
    offset: u32,
    id: ExprId,
    options: &DisplayOptions,
) -> Option<Derivation> {
    let mut ev = Evaluator::new(program);
    let mut frame = frame_at(&mut ev, file, offset)?;
    let derivation = ev.why(&mut frame, id, options);
    (derivation.value != "?").then_some(derivation)
}

/// A frame with what is bound around an offset: defaults of parameters, values named in a test. Nothing where the
/// values come from a caller or a loop.
pub(crate) fn frame_at<'p>(ev: &mut Evaluator<'p>, file: FileId, offset: u32) -> Option<Frame<'p>> {
    let program = ev.program;
    let (def, decl) = scope::around(program, file, offset)?;
    let mut frame = Frame::new(program, file)?;
    match &decl.kind {
        DeclKind::Fn(_) | DeclKind::Rule(_) | DeclKind::Amend { .. } => return None,
        DeclKind::Buildup { .. } => {
            let Some(wythe_sema::Signature::Buildup { params, .. }) = scope::signature(program, def) else {
                return None;
            };
            for param in params.iter() {
                let value = param.default.map_or(Value::Broken, |d| ev.eval(&mut frame, d));
                frame.params.push(value);
            }
        }
        DeclKind::Test { block, .. } => {
            for item in &block.items {
                if let Item::Statement(statement) = item
                    && let StatementKind::Let(binding) = &statement.kind
                    && statement.span.end <= offset
                {
                    let value = ev.eval(&mut frame, binding.value);
                    frame.locals.push((binding.name.name, value));
                }
            }
        }
        _ => {}
    }
    Some(frame)
}

/// The value of a declaration, where it can be told in a line.
pub(super) fn of_declaration(project: &Project, file: FileId, id: ExprId) -> Option<String> {
    let program = project.program();
    let options = &project.manifest().display;
    let mut ev = Evaluator::new(program);
    let mut frame = Frame::new(program, file)?;
    let derivation = ev.why(&mut frame, id, options);
    if derivation.value == "?" {
        return None;
    }
    let quantity = ev.eval(&mut frame, id).quantity();
    let mut text = format!("= **{}**", derivation.value);
    if let Some(quantity) = quantity {
        let other = format_quantity(quantity, &other_system(options));
        if other != derivation.value {
            text.push_str(&format!(" = {other}"));
        }
    }
    text.push_str(&provenance(project, &derivation));
    Some(text)
}

/// What a value was worked out of, as a nested list; empty where there is nothing more to tell.
pub(super) fn provenance(project: &Project, derivation: &Derivation) -> String {
    let mut lines = Vec::new();
    if let Some(note) = &derivation.note {
        lines.push(format!("- {note}"));
    }
    for part in &derivation.parts {
        step(project, part, 0, &mut lines);
    }
    if lines.is_empty() {
        return String::new();
    }
    if lines.len() > LINES {
        lines.truncate(LINES);
        lines.push("- …".into());
    }
    format!("\n\n**Where it comes from**\n\n{}", lines.join("\n"))
}

fn step(project: &Project, part: &Derivation, depth: usize, out: &mut Vec<String>) {
    if depth > 3 || out.len() > LINES {
        return;
    }
    let mut line = format!("{}- `{}`", "  ".repeat(depth), part.text);
    if part.value != part.text {
        line.push_str(&format!(" = {}", part.value));
    }
    if let Some(note) = &part.note {
        line.push_str(&format!(" ({note})"));
    }
    if let Some(place) = part.place {
        line.push_str(&format!(" — {}", place_name(project, place)));
    }
    out.push(line);
    for inner in &part.parts {
        step(project, inner, depth + 1, out);
    }
}

/// A place as a file and a line.
pub(super) fn place_name(project: &Project, place: Span) -> String {
    let before = project.text(place.file).get(..place.start as usize).unwrap_or("");
    format!("{}:{}", project.name(place.file), before.matches('\n').count() + 1)
}
