//! Waivers: what they cover, until when, and whether they cover anything at all.

use std::sync::Arc;

use jiff::civil::Date;
use wythe_findings::{Finding, Severity, codes};
use wythe_model::Foundation;
use wythe_sema::DefId;
use wythe_source::{Span, Symbol};
use wythe_syntax::ast::{DeclKind, Item};

use super::{Judge, JudgedFoundation};
use crate::{Frame, Value};

/// A waiver, read.
#[derive(Clone, Debug, PartialEq)]
pub struct Waiver {
    /// Its declaration.
    pub def: DefId,
    /// The finding it waives.
    pub name: Symbol,
    /// Where that is named.
    pub span: Span,
    /// The parts it holds for; all if none is named.
    pub elements: Vec<Symbol>,
    /// Why.
    pub because: Arc<str>,
    /// Who granted it.
    pub who: Arc<str>,
    /// The last day it holds.
    pub until: Option<Date>,
    /// Where that is said.
    pub until_span: Span,
}

impl Waiver {
    /// Whether it covers a finding.
    fn covers(&self, finding: &Finding) -> bool {
        if finding.name.as_str() != self.name.as_str() {
            return false;
        }
        let part = finding.item.split_once('.').map_or("", |(_, part)| part);
        self.elements.is_empty() || part.split(' ').any(|word| self.elements.iter().any(|e| e.as_str() == word))
    }

    /// Whether its last day is past.
    fn has_run_out(&self, today: Option<Date>) -> bool {
        matches!((self.until, today), (Some(until), Some(today)) if today > until)
    }
}

impl Judge<'_, '_> {
    /// The waivers of a foundation.
    fn waivers_of(&mut self, foundation: &Foundation) -> Vec<Waiver> {
        let all = self.setting.waivers;
        all.iter().filter_map(|def| self.read(*def, foundation.name)).collect()
    }

    fn read(&mut self, def: DefId, foundation: Symbol) -> Option<Waiver> {
        let program = self.ev.program;
        let DeclKind::Waiver { rule, within, elements, block } = &program.decl(def)?.kind else { return None };
        if within.name != foundation {
            return None;
        }
        let last = rule.parts.last()?;
        let mut frame = Frame::new(program, def.file)?;
        let mut waiver = Waiver {
            def,
            name: last.name,
            span: last.span,
            elements: elements.iter().map(|e| e.name).collect(),
            because: "".into(),
            who: "".into(),
            until: None,
            until_span: last.span,
        };
        for item in &block.items {
            let Item::Property { name, value } = item else { continue };
            match (name.name.as_str(), self.ev.eval(&mut frame, *value)) {
                ("because", Value::Text(text)) => waiver.because = text,
                ("who", Value::Text(text)) => waiver.who = text,
                ("until", Value::Date(date)) => {
                    waiver.until = Some(date);
                    waiver.until_span = frame.module[*value].span;
                }
                _ => {}
            }
        }
        Some(waiver)
    }

    /// Whether the compiler, or a rule of the program, can find something of this name.
    fn is_a_finding(&self, name: Symbol) -> bool {
        wythe_findings::find_page(name.as_str()).is_some() || self.rules().any(|rule| rule == name.as_str())
    }

    /// The names of all rules of the program.
    fn rules(&self) -> impl Iterator<Item = &'static str> {
        let program = self.ev.program;
        let decls = program.files().into_iter().filter_map(|file| program.module(file)).flat_map(|m| &m.module.decls);
        decls.filter(|decl| matches!(decl.kind, DeclKind::Rule(_))).map(|decl| decl.name.name.as_str())
    }

    /// Parts findings into those that count and those that are waived.
    pub(super) fn waive(
        &mut self,
        foundation: &Foundation,
        findings: Vec<Finding>,
    ) -> (Vec<Finding>, Vec<(Finding, Waiver)>) {
        let waivers = self.waivers_of(foundation);
        let mut kept = Vec::new();
        let mut waived = Vec::new();
        for finding in findings {
            let good = waivers.iter().find(|w| !w.has_run_out(self.setting.today) && w.covers(&finding));
            match good {
                Some(waiver) => waived.push((finding, waiver.clone())),
                None => kept.push(finding),
            }
        }
        (kept, waived)
    }

    /// Waivers that have run out, and waivers that cover nothing.
    pub(super) fn waiver_faults(&mut self, judged: &JudgedFoundation) -> Vec<Finding> {
        let waivers = self.waivers_of(&judged.foundation);
        let today = self.setting.today;
        let mut out = Vec::new();
        for waiver in waivers {
            if waiver.has_run_out(today) {
                let days = match (today, waiver.until) {
                    (Some(today), Some(until)) => (today - until).get_days(),
                    _ => 0,
                };
                let plural = if days == 1 { "day" } else { "days" };
                out.push(
                    Finding::new(
                        codes::WAIVER_EXPIRED,
                        waiver.until_span,
                        format!("the waiver of `{}` has run out, {days} {plural} past", waiver.name),
                    )
                    .label("its last day")
                    .related(waiver.span, "what it covered counts again")
                    .mend("do the work, or renew it with a reason")
                    .item(format!("{}.{}", judged.foundation.name, waiver.name)),
                );
            } else if !self.is_a_finding(waiver.name) {
                let known = wythe_findings::all_pages().map(|page| page.name);
                let mut finding = Finding::new(
                    codes::UNKNOWN_CODE,
                    waiver.span,
                    format!("no finding is called `{}`, so the waiver covers nothing", waiver.name),
                )
                .label("neither a finding of the compiler nor a rule in the files checked")
                .item(format!("{}.{}", judged.foundation.name, waiver.name));
                finding.severity = Severity::Error;
                out.push(match wythe_sema::closest(waiver.name.as_str(), known.chain(self.rules())) {
                    Some(near) => finding.mend(format!("did you mean `{near}`?")),
                    None => finding.mend("correct the name, or take the waiver out"),
                });
            } else if !judged.waived.iter().any(|(_, w)| w.def == waiver.def) {
                out.push(
                    Finding::new(
                        codes::WAIVER_UNUSED,
                        waiver.span,
                        format!("the waiver of `{}` covers nothing in {}", waiver.name, judged.foundation.name),
                    )
                    .related(judged.foundation.origin, "no such finding stands here")
                    .mend("take it out, or correct what it names")
                    .item(format!("{}.{}", judged.foundation.name, waiver.name)),
                );
            }
        }
        out
    }
}
