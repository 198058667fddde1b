//! Lines above declarations: what was found, what it measures, tests to run, drawings to open.

use wythe_findings::Severity;
use wythe_model::MeasuredFace;
use wythe_model::geometry::{Basis, Plan};
use wythe_project::Project;
use wythe_sema::{DefId, Target};
use wythe_source::{FileId, Span};
use wythe_syntax::ast::DeclKind;

use crate::figures::figure;
use crate::{buildings, occurrence};

/// What a lens does when it is chosen.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum LensCommand {
    /// It only tells.
    None,
    /// Shows the findings of the file.
    ShowFindings,
    /// Runs the test at a place.
    RunTest(Span),
    /// Opens the drawing of what is declared at a place.
    OpenDrawing(Span),
    /// Lists the places that name what is declared at a place.
    ShowReferences(Span, Vec<Span>),
}

/// A line above a declaration.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Lens {
    /// The name it stands above.
    pub span: Span,
    /// What it says.
    pub title: String,
    /// What it does.
    pub command: LensCommand,
}

/// The lenses of a file, by place.
pub fn lenses(project: &Project, file: FileId) -> Vec<Lens> {
    let Some(data) = project.program().module(file) else { return Vec::new() };
    let mut out = Vec::new();
    for (index, decl) in data.module.decls.iter().enumerate() {
        let span = decl.name.span;
        let lens = |title: String, command| Lens { span, title, command };
        match &decl.kind {
            DeclKind::Foundation { .. } => {
                out.extend(checked(project, file, span).map(|(title, found)| {
                    lens(title, if found { LensCommand::ShowFindings } else { LensCommand::None })
                }));
                out.extend(measured(project, span).map(|title| lens(title, LensCommand::None)));
                out.push(lens("open the drawing".into(), LensCommand::OpenDrawing(span)));
            }
            DeclKind::Buildup { .. } => {
                out.push(lens("open the section".into(), LensCommand::OpenDrawing(span)));
                out.push(named(project, DefId { file, index: index as u32 }, span));
            }
            DeclKind::Test { .. } => {
                let outcome = project.judgement(file).and_then(|j| j.tests.iter().find(|t| t.span == decl.span));
                let title = match outcome {
                    Some(t) if t.failures.is_empty() => format!("run the test ({} met)", t.met),
                    Some(t) => format!("run the test ({} met, {} not)", t.met, t.failures.len()),
                    None => "run the test".into(),
                };
                out.push(lens(title, LensCommand::RunTest(span)));
            }
            _ => {}
        }
    }
    out
}

fn checked(project: &Project, file: FileId, name: Span) -> Option<(String, bool)> {
    let judged = buildings::in_file(project, file).find(|j| j.foundation.origin == name)?;
    let of = |severity: Severity| judged.findings.iter().filter(|f| f.severity == severity).count();
    let (errors, warnings) = (of(Severity::Error), of(Severity::Warning));
    let plural = |n: usize, word: &str| format!("{n} {word}{}", if n == 1 { "" } else { "s" });
    let waived = match judged.waived.len() {
        0 => String::new(),
        n => format!(", {n} waived"),
    };
    if errors + warnings == 0 {
        return Some((format!("checks passed, {}{waived}", plural(judged.rules.len(), "rule")), false));
    }
    let mut parts = Vec::new();
    if errors > 0 {
        parts.push(plural(errors, "error"));
    }
    if warnings > 0 {
        parts.push(plural(warnings, "warning"));
    }
    Some((format!("{}{waived}", parts.join(", ")), true))
}

fn measured(project: &Project, name: Span) -> Option<String> {
    let f = buildings::around(project, name)?;
    let options = &project.manifest().display;
    let plan = Plan::of(f, Basis::Design);
    let around = figure(plan.perimeter(f.measured), options);
    Some(format!("{around} around, {} inside", figure(plan.area(MeasuredFace::Inside), options)))
}

fn named(project: &Project, def: DefId, span: Span) -> Lens {
    let mut places = occurrence::everywhere(project, Target::Def(def));
    // The declaration and the `use` lines are no uses.
    places.retain(|p| {
        let uses = project.program().module(p.file).map(|d| d.module.uses.iter().any(|u| u.span.holds(*p)));
        *p != span && uses == Some(false)
    });
    let title = match places.len() {
        0 => "not used".into(),
        1 => "used once".into(),
        n => format!("used {n} times"),
    };
    let command = if places.is_empty() { LensCommand::None } else { LensCommand::ShowReferences(span, places) };
    Lens { span, title, command }
}
