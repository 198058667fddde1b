//! The foundations of a file judged: geometry, layer order, sequence, control lines, rules, waivers and tests.

mod tests;
mod waivers;

use std::sync::Arc;

use jiff::civil::Date;
use rustc_hash::{FxHashMap, FxHashSet};
use wythe_check::lines::Trace;
use wythe_check::sequence::StateTable;
use wythe_check::{Ask, Requirements};
use wythe_findings::{Finding, FindingName, Severity};
use wythe_model::Foundation;
use wythe_sema::{DefId, Program, Res};
use wythe_source::{FileId, Span};
use wythe_syntax::ast::{DeclKind, UseTarget};
use wythe_units::DisplayOptions;

use crate::{Evaluator, Rule, RuleOutcome, Shared, TestOutcome, WeatherSource};

pub use waivers::Waiver;

/// What a judgement needs to know beside the program.
pub struct Setting<'a> {
    /// The code packs each file is held to, each after what it builds on.
    pub packs: &'a (dyn Fn(FileId) -> Vec<FileId> + Sync),
    /// Every waiver of the repository.
    pub waivers: &'a [DefId],
    /// The day of the check; without one no waiver runs out.
    pub today: Option<Date>,
    /// What the manifest has the checks ask for, over the packs.
    pub asks: &'a [(Ask, Span)],
    /// Whether what rules are decided by is kept, and how its values are shown.
    pub evidence: Option<&'a DisplayOptions>,
    /// What judges working side by side have in common.
    pub shared: Arc<Shared>,
    /// Gives the weather a site names, when a rule or a test asks for what hangs on it.
    pub weather: WeatherSource<'a>,
}

/// A foundation with everything found about it.
#[derive(Clone, Debug)]
pub struct JudgedFoundation {
    /// Its declaration.
    pub def: DefId,
    /// The building.
    pub foundation: Arc<Foundation>,
    /// What is wrong, waived findings taken out.
    pub findings: Vec<Finding>,
    /// What is wrong and waived, each with its waiver.
    pub waived: Vec<(Finding, Waiver)>,
    /// What each rule said.
    pub rules: Vec<RuleOutcome>,
    /// The control lines, section by section.
    pub traces: Vec<Trace>,
    /// The state of each surface after each phase.
    pub states: StateTable,
}

/// What came of a file.
#[derive(Clone, Debug, Default)]
pub struct Judgement {
    /// Its foundations.
    pub foundations: Vec<JudgedFoundation>,
    /// Its tests.
    pub tests: Vec<TestOutcome>,
    /// Everything wrong: faults of evaluation, of foundations, of waivers, unmet expectations.
    pub findings: Vec<Finding>,
    /// Findings of names and types that a test of the file expects, so that they do not count: name and place.
    pub expected: Vec<(String, Span)>,
}

/// Judges the foundations and tests of a file.
pub fn judge<'a>(program: &'a Program, file: FileId, setting: &'a Setting<'a>) -> Judgement {
    let mut ev = Evaluator::sharing(program, setting.shared.clone(), Some(file));
    ev.weather = Some(setting.weather);
    let mut judge = Judge { ev, setting, known: FxHashMap::default() };
    let mut out = Judgement::default();
    let Some(data) = program.module(file) else { return out };
    for (index, decl) in data.module.decls.iter().enumerate() {
        let def = DefId { file, index: index as u32 };
        match &decl.kind {
            DeclKind::Foundation { .. } => {
                if let Some(judged) = judge.foundation(def) {
                    out.findings.extend(judged.findings.iter().cloned());
                    out.findings.extend(judge.waiver_faults(&judged));
                    out.foundations.push(judged);
                }
            }
            DeclKind::Test { .. } => {
                if let Some(test) = judge.test(def) {
                    out.findings.extend(test.failures.iter().cloned());
                    out.expected.extend(test.expected.iter().cloned());
                    out.tests.push(test);
                }
            }
            DeclKind::Let(_) | DeclKind::Product { .. } | DeclKind::Site(_) | DeclKind::Phase(_) => {
                judge.ev.begin();
                judge.ev.value(def);
            }
            _ => {}
        }
    }
    out.findings.extend(judge.ev.take_findings());
    out.findings = once(out.findings);
    out
}

/// One judge of one file.
struct Judge<'p, 's> {
    ev: Evaluator<'p>,
    setting: &'s Setting<'s>,
    /// Foundations judged on the way, for tests that ask about them.
    known: FxHashMap<DefId, Option<JudgedFoundation>>,
}

impl Judge<'_, '_> {
    /// A foundation with everything found about it.
    fn foundation(&mut self, def: DefId) -> Option<JudgedFoundation> {
        if let Some(known) = self.known.get(&def) {
            return known.clone();
        }
        let judged = self.judge_foundation(def);
        self.known.insert(def, judged.clone());
        judged
    }

    fn judge_foundation(&mut self, def: DefId) -> Option<JudgedFoundation> {
        let foundation = self.ev.foundation(def)?;
        let rules = rules_for(self.ev.program, def.file, &(self.setting.packs)(def.file));
        let asked = self.asked(&rules);
        let mut report = wythe_check::check(&foundation, &asked);
        self.ev.asked.push((foundation.clone(), asked));
        let mut findings = std::mem::take(&mut report.findings);
        let rules: Vec<RuleOutcome> =
            rules.iter().map(|rule| self.ev.ask(rule, &foundation, self.setting.evidence)).collect();
        findings.extend(rules.iter().flat_map(|r| r.findings.iter().cloned()));
        let (findings, waived) = self.waive(&foundation, findings);
        let mut findings = merged(findings);
        findings.sort_by(|a, b| a.order_key().cmp(&b.order_key()));
        Some(JudgedFoundation {
            def,
            foundation,
            findings,
            waived,
            rules,
            traces: report.traces,
            states: report.states,
        })
    }
}

impl Judge<'_, '_> {
    /// What the checks ask for under some rules: the usual, over it each rule in turn, and over all the manifest.
    fn asked(&mut self, rules: &[Rule]) -> Requirements {
        let mut asked = Requirements::default();
        for rule in rules {
            self.ev.begin();
            let asks = self.ev.asks(rule, &DisplayOptions::default());
            if !asks.is_empty() {
                let source: Arc<str> = self.ev.source_of(rule).into();
                asks.iter().for_each(|a| asked.set(a.ask, source.clone(), Some(a.place)));
            }
        }
        for (ask, place) in self.setting.asks {
            asked.set(*ask, "the manifest of this repository", Some(*place));
        }
        asked
    }
}

/// The rules in force for a file: those of its packs, those they and the file name in `use` lines, and the file's own,
/// each with the amendments that restate it, in order.
pub fn rules_for(program: &Program, file: FileId, packs: &[FileId]) -> Vec<Rule> {
    let mut rules: Vec<Rule> = Vec::new();
    let mut amendments: Vec<DefId> = Vec::new();
    for &pack in packs.iter().chain([&file]) {
        let Some(data) = program.module(pack) else { continue };
        for (used, target) in data.module.uses.iter().zip(&data.uses) {
            let (UseTarget::File { imports, .. }, Some(target)) = (&used.target, target) else { continue };
            let Some(other) = program.module(*target) else { continue };
            for (index, decl) in other.module.decls.iter().enumerate() {
                let named = imports.is_empty() || imports.iter().any(|i| i.name.name == decl.name.name);
                if named && matches!(decl.kind, DeclKind::Rule(_)) {
                    add(&mut rules, DefId { file: *target, index: index as u32 }, decl.name.name);
                }
            }
        }
        for (index, decl) in data.module.decls.iter().enumerate() {
            let def = DefId { file: pack, index: index as u32 };
            match decl.kind {
                DeclKind::Rule(_) => add(&mut rules, def, decl.name.name),
                DeclKind::Amend { .. } => amendments.push(def),
                _ => {}
            }
        }
    }
    for amendment in amendments {
        let Some(DeclKind::Amend { rule, .. }) = program.decl(amendment).map(|d| &d.kind) else { continue };
        let (Some(last), Some(checked)) = (rule.parts.last(), program.checked(amendment.file)) else { continue };
        if let Res::Def(def) = checked.ident(*last) {
            add(&mut rules, def, last.name);
            if let Some(rule) = rules.iter_mut().find(|r| r.def == def) {
                rule.amendments.push(amendment);
            }
        }
    }
    rules
}

fn add(rules: &mut Vec<Rule>, def: DefId, name: wythe_source::Symbol) {
    if !rules.iter().any(|r| r.def == def) {
        rules.push(Rule { def, name, amendments: Vec::new() });
    }
}

/// What one rule says alike of several parts is one finding at the first of them, with the others listed: a fault of a
/// shared build-up is told once, and not once a wall.
fn merged(findings: Vec<Finding>) -> Vec<Finding> {
    let (rules, others): (Vec<_>, Vec<_>) = findings.into_iter().partition(|f| matches!(f.name, FindingName::Rule(_)));
    let mut out = others;
    let mut first: FxHashMap<(FindingName, Severity, String), usize> = FxHashMap::default();
    for finding in rules {
        let key = (finding.name.clone(), finding.severity, without_places(&finding));
        match first.get(&key) {
            None => {
                first.insert(key, out.len());
                out.push(finding);
            }
            Some(&at) => {
                let place = finding.item.split_once('.').map_or(finding.item.as_str(), |(_, part)| part).to_owned();
                let cause = out[at].cause.get_or_insert_default();
                cause.push_str(if cause.is_empty() { "the same at " } else { ", " });
                cause.push_str(&place);
            }
        }
    }
    out
}

/// What a finding says, with the names of the parts it is about taken out.
fn without_places(finding: &Finding) -> String {
    let part = finding.item.split_once('.').map_or("", |(_, part)| part);
    let names: Vec<&str> = part.split(' ').filter(|name| !name.is_empty()).collect();
    let is_name = |word: &str| names.contains(&word.trim_matches(|c: char| !(c.is_alphanumeric() || c == '_')));
    finding.title.split(' ').filter(|word| !is_name(word)).collect::<Vec<_>>().join(" ")
}

/// Each finding once: a library worked out for two houses is reported for one.
fn once(findings: Vec<Finding>) -> Vec<Finding> {
    let mut seen = FxHashSet::default();
    findings.into_iter().filter(|f| seen.insert((f.name.clone(), f.primary.span, f.title.clone()))).collect()
}
