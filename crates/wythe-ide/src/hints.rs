//! Figures shown beside the text: R and U of build-ups, areas and counts, converted units, totals.

use wythe_eval::{Evaluator, Value, films};
use wythe_model::geometry::{Basis, Plan};
use wythe_model::quantity::{wall_average, wall_bands};
use wythe_model::{Foundation, MeasuredFace};
use wythe_project::Project;
use wythe_sema::{Literal, Type};
use wythe_source::Span;
use wythe_syntax::ast::{DeclKind, Expr, ExprId, ExprKind, Item, StatementKind};
use wythe_units::{DisplayOptions, Quantity, UnitSystem, format_quantity, unit_named};

use crate::buildings;
use crate::figures::figure;
use crate::hover::{frame_at, total_resistance};

/// What a hint shows; an editor may turn each sort off.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum HintKind {
    /// R and U of a build-up.
    Thermal,
    /// Lengths, areas and counts of walls, piers and foundations.
    Measure,
    /// A figure in the units of the repository.
    Converted,
    /// The value of a `let`.
    Value,
}

/// A text shown after a place.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Hint {
    /// The byte it stands after.
    pub offset: u32,
    /// What it says.
    pub text: String,
    /// What it shows.
    pub kind: HintKind,
}

/// The hints of a range of a file, by place.
pub fn hints(project: &Project, range: Span) -> Vec<Hint> {
    let mut out = Vec::new();
    buildups(project, range, &mut out);
    for judged in buildings::in_file(project, range.file) {
        foundation(project, &judged.foundation, range, &mut out);
    }
    converted(project, range, &mut out);
    values(project, range, &mut out);
    out.retain(|h| range.touches(h.offset));
    out.sort_by(|a, b| (a.offset, &a.text).cmp(&(b.offset, &b.text)));
    out.dedup();
    out
}

/// R and U at each place a build-up is named in a foundation.
fn buildups(project: &Project, range: Span, out: &mut Vec<Hint>) {
    let program = project.program();
    let Some(data) = program.module(range.file) else { return };
    let Some(checked) = &data.checked else { return };
    let mut ev = Evaluator::new(program);
    for (index, expr) in data.module.exprs.iter().enumerate() {
        let id = ExprId(index as u32);
        if !range.touches(expr.span.end) || !matches!(checked.ty(id), Type::Buildup(_)) {
            continue;
        }
        let Some(mut frame) = frame_at(&mut ev, range.file, expr.span.start) else { continue };
        let Value::Assembly(assembly) = ev.eval(&mut frame, id) else { continue };
        let Some(total) = total_resistance(&assembly) else { continue };
        let options = &project.manifest().display;
        let films = films();
        let u = uom::si::f64::HeatTransfer::from(1.0 / (total + films.inside + films.outside));
        let text = format!("{}, {}", figure(total, options), figure(u, options));
        out.push(Hint { offset: expr.span.end, text, kind: HintKind::Thermal });
    }
}

/// Walls, piers and the whole.
fn foundation(project: &Project, f: &Foundation, range: Span, out: &mut Vec<Hint>) {
    let options = &project.manifest().display;
    let plan = Plan::of(f, Basis::Design);
    for (number, (wall, drawn)) in f.walls.iter().zip(&plan.walls).enumerate() {
        if !range.touches(wall.length_origin.end) {
            continue;
        }
        let bands = wall_bands(f, number, Basis::Design);
        let area = bands.iter().map(|b| b.area).reduce(|a, b| a + b);
        let mut text = format!("{} inside", figure(drawn.inside.length(), options));
        text.extend(area.map(|a| format!(", {}", figure(a, options))));
        text.extend(wall_average(&bands, films()).map(|a| format!(", {}", figure(a.u, options))));
        out.push(Hint { offset: wall.length_origin.end, text, kind: HintKind::Measure });
    }
    let Some(data) = project.program().module(f.origin.file) else { return };
    let Some(decl) = data.module.decls.iter().find(|d| d.name.span == f.origin) else { return };
    let DeclKind::Foundation { site, block } = &decl.kind else { return };
    let count = |n: usize, one: &str, many: &str| format!("{n} {}", if n == 1 { one } else { many });
    let total = format!(
        "{} around, {} inside, {}, {}",
        figure(plan.perimeter(f.measured), options),
        figure(plan.area(MeasuredFace::Inside), options),
        count(f.walls.len(), "wall", "walls"),
        count(f.piers.len(), "pier", "piers"),
    );
    out.push(Hint { offset: site.span.end, text: total, kind: HintKind::Measure });
    for item in &block.items {
        if let Item::Statement(statement) = item
            && let StatementKind::Piers { name, .. } = &statement.kind
        {
            let piers = f.piers.iter().filter(|p| p.origin == name.span).count();
            out.push(Hint { offset: name.span.end, text: count(piers, "pier", "piers"), kind: HintKind::Measure });
        }
    }
}

/// Figures written in the other system of units, converted.
fn converted(project: &Project, range: Span, out: &mut Vec<Hint>) {
    let options = &project.manifest().display;
    let Some(data) = project.program().module(range.file) else { return };
    let Some(checked) = &data.checked else { return };
    for (index, expr) in data.module.exprs.iter().enumerate() {
        let Some(Literal::Quantity(quantity, _)) = checked.literals.get(&ExprId(index as u32)) else { continue };
        if !range.touches(expr.span.end) || !foreign(expr, &data.text, options) {
            continue;
        }
        out.push(Hint { offset: expr.span.end, text: reading(*quantity, options), kind: HintKind::Converted });
    }
}

fn reading(quantity: Quantity, options: &DisplayOptions) -> String {
    format_quantity(quantity, options)
}

/// Whether a figure's unit belongs to the system the repository does not show.
fn foreign(expr: &Expr, text: &str, options: &DisplayOptions) -> bool {
    match &expr.kind {
        ExprKind::Number { unit: Some(unit), .. } => {
            let systems = unit.above.iter().chain(&unit.below).filter_map(|u| unit_named(u.name)?.system);
            systems.into_iter().any(|system| system != options.system)
        }
        ExprKind::Length => options.system == UnitSystem::Si,
        ExprKind::RValue => expr.span.text(text).starts_with("RSI") == (options.system == UnitSystem::Us),
        _ => false,
    }
}

/// Values of `let`s that are worked out.
fn values(project: &Project, range: Span, out: &mut Vec<Hint>) {
    let program = project.program();
    let Some(data) = program.module(range.file) else { return };
    let options = &project.manifest().display;
    let mut ev = Evaluator::new(program);
    let mut value_of = |binding: &wythe_syntax::ast::Let, out: &mut Vec<Hint>| {
        let expr = &data.module[binding.value];
        let plain = matches!(
            expr.kind,
            ExprKind::Number { .. } | ExprKind::Length | ExprKind::RValue | ExprKind::Lumber | ExprKind::Text(_)
        );
        if plain || !range.touches(expr.span.end) {
            return;
        }
        let Some(mut frame) = frame_at(&mut ev, range.file, expr.span.start) else { return };
        let value = ev.eval(&mut frame, binding.value);
        if matches!(value, Value::Quantity(_) | Value::Interval(_) | Value::Temperature(_) | Value::Elevation(..)) {
            let text = format!("= {}", wythe_eval::show(&value, program, options));
            out.push(Hint { offset: expr.span.end, text, kind: HintKind::Value });
        }
    };
    for decl in &data.module.decls {
        if let DeclKind::Let(binding) = &decl.kind {
            value_of(binding, out);
        }
        if let DeclKind::Test { .. } = &decl.kind {
            for item in decl.kind.block().map_or(&[][..], |b| &b.items) {
                if let Item::Statement(statement) = item
                    && let StatementKind::Let(binding) = &statement.kind
                {
                    value_of(binding, out);
                }
            }
        }
    }
}
