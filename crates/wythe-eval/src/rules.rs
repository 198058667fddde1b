//! Rules written in the language, asked of a foundation.

use std::sync::Arc;

use wythe_check::{Ask, Need, VAPOR_LIMIT};
use wythe_findings::{Finding, FindingName, Severity, codes};
use wythe_model::Foundation;
use wythe_sema::DefId;
use wythe_source::{Span, Symbol};
use wythe_syntax::ast::{Block, DeclKind, ExprId, ExprKind, Ident, Item, Statement, StatementKind};
use wythe_units::DisplayOptions;

use crate::evidence::{Gathering, Named};
use crate::lower;
use crate::show::element_name;
use crate::{Element, Evaluator, Evidence, Frame, Value, show};

/// The most combinations of parts one rule may look at in one foundation.
const MOST_CASES: usize = 100_000;

/// A rule as it is in force: its own words, with what amendments restate.
#[derive(Clone, Debug)]
pub struct Rule {
    /// The rule.
    pub def: DefId,
    /// Its name.
    pub name: Symbol,
    /// Amendments, in the order they hold; the last one that restates something wins.
    pub amendments: Vec<DefId>,
}

/// What came of asking a rule.
#[derive(Clone, Debug)]
pub struct RuleOutcome {
    /// The rule's name.
    pub rule: Symbol,
    /// What it asks.
    pub title: String,
    /// Why it is asked.
    pub because: Option<String>,
    /// Where it is written.
    pub source: String,
    /// How grave a breach is, before the manifest has its say.
    pub severity: Severity,
    /// Where the rule stands.
    pub origin: Span,
    /// Where the amendments stand that restate parts of it, the last that holds last.
    pub amended: Vec<Span>,
    /// What it has the compiler's own checks ask for, such as a wider lap; kept where evidence is.
    pub asks: Vec<Asking>,
    /// Each case looked at, in order.
    pub cases: Vec<RuleCase>,
    /// The parts a `where` left out, one entry a condition; kept where evidence is.
    pub left_out: Vec<LeftOut>,
    /// What is wrong.
    pub findings: Vec<Finding>,
}

/// One case a rule looked at.
#[derive(Clone, Debug)]
pub struct RuleCase {
    /// The part or parts looked at: `south`, `p1 skirt`.
    pub item: String,
    /// Where it stands.
    pub place: Span,
    /// Whether the rule holds there; `None` where it is not known.
    pub holds: Option<bool>,
    /// Whether it is not known because it holds for part of what a figure may be, and not for the rest.
    pub unsure: bool,
    /// What the rule says where it does not hold.
    pub said: Option<String>,
    /// What it was decided by, where evidence is kept.
    pub evidence: Vec<Evidence>,
}

/// What a rule has the compiler's own checks ask for.
#[derive(Clone, Debug, PartialEq)]
pub struct Asking {
    /// What is asked for.
    pub ask: Ask,
    /// Its name: `vapor_lap`.
    pub name: Symbol,
    /// The figure, as it is shown.
    pub shown: String,
    /// Where it is said, in the rule or an amendment.
    pub place: Span,
}

/// Parts that a rule does not ask about.
#[derive(Clone, Debug, PartialEq)]
pub struct LeftOut {
    /// The condition they do not meet: `o.kind == access`.
    pub condition: String,
    /// Their names, each once.
    pub items: Vec<String>,
}

/// What a rule says, put together from the rule and its amendments.
struct Text<'p> {
    title: Option<Source<'p>>,
    severity: Severity,
    because: Option<Source<'p>>,
    source: Option<Source<'p>>,
    steps: Vec<&'p Statement>,
    require: Option<Source<'p>>,
    otherwise: Option<Source<'p>>,
}

/// An expression and the file it stands in.
#[derive(Clone, Copy)]
struct Source<'p> {
    file: wythe_source::FileId,
    expr: ExprId,
    module: &'p wythe_syntax::ast::Module,
}

impl<'p> Evaluator<'p> {
    /// Asks a rule of a foundation. With `evidence`, what it was decided by is kept, shown that way.
    pub fn ask(&mut self, rule: &Rule, foundation: &Arc<Foundation>, evidence: Option<&DisplayOptions>) -> RuleOutcome {
        self.begin();
        let origin = self.program.span_of(rule.def);
        let mut outcome = RuleOutcome {
            rule: rule.name,
            title: rule.name.as_str().replace('_', " "),
            because: None,
            source: String::new(),
            severity: Severity::Error,
            origin,
            amended: rule.amendments.iter().map(|amendment| self.program.span_of(*amendment)).collect(),
            asks: Vec::new(),
            cases: Vec::new(),
            left_out: Vec::new(),
            findings: Vec::new(),
        };
        let Some(text) = self.text_of(rule) else { return outcome };
        if let Some(title) = self.plain(text.title) {
            outcome.title = title;
        }
        outcome.source = self.plain(text.source).unwrap_or_default();
        outcome.severity = text.severity;
        if let Some(display) = evidence {
            outcome.asks = self.asks(rule, display);
        }
        outcome.because = self.plain(text.because);
        let Some(mut frame) = Frame::new(self.program, rule.def.file) else { return outcome };
        frame.whole = Some(foundation.clone());
        let kept = self.take_findings();
        let named = evidence.map_or_else(Vec::new, |_| named(rule, &text));
        let mut asked = Asked { rule, text: &text, evidence, named: &named, outcome: &mut outcome, bound: Vec::new() };
        self.go(&mut frame, &mut asked, 0);
        let faults = std::mem::replace(&mut self.findings, kept);
        // What stands in the way of heat and moisture says so itself, and for every rule that asks.
        let of_climate = |f: &Finding| matches!(&f.name, FindingName::Code(code) if code.page().area == "climate");
        let (climate, faults): (Vec<Finding>, Vec<Finding>) = faults.into_iter().partition(of_climate);
        outcome.findings.extend(climate);
        // A rule that stumbles does so at the same place for each part; the first says enough.
        if let Some(fault) = faults.into_iter().next() {
            let stumbled = outcome.cases.iter().find(|c| c.holds.is_none() && !c.unsure).or(outcome.cases.last());
            let item = stumbled.map_or_else(|| foundation.name.to_string(), |c| c.item.clone());
            outcome.findings.push(
                Finding::new(
                    codes::RULE_FAILED_TO_RUN,
                    fault.primary.span,
                    format!("the rule `{}` cannot be worked out for {item}: {}", rule.name, fault.title),
                )
                .related(origin, "the rule stands here")
                .related(foundation.origin, "the foundation looked at")
                .item(format!("{}.{item}", foundation.name)),
            );
        }
        outcome
    }

    /// What a rule and its amendments have the compiler's own checks ask for; the last that says something wins.
    pub(crate) fn asks(&mut self, rule: &Rule, display: &DisplayOptions) -> Vec<Asking> {
        let program = self.program;
        let mut out: Vec<Asking> = Vec::new();
        for def in std::iter::once(&rule.def).chain(&rule.amendments) {
            let Some(DeclKind::Rule(block) | DeclKind::Amend { block, .. }) = program.decl(*def).map(|d| &d.kind)
            else {
                continue;
            };
            let Some(section) = lower::section(block, "asks") else { continue };
            let Some(mut frame) = Frame::new(program, def.file) else { continue };
            for item in &section.items {
                let Item::Property { name, value } = item else { continue };
                let figure = self.eval(&mut frame, *value);
                let place = frame.module[*value].span;
                let ask = match name.name.as_str() {
                    VAPOR_LIMIT => lower::typed(&figure).map(Ask::VaporLimit),
                    other => Need::of_name(other).and_then(|need| Some(Ask::Length(need, lower::typed(&figure)?))),
                };
                let Some(ask) = ask else { continue };
                if !ask.is_possible() {
                    let title = format!("`{}` cannot be asked for in this figure", name.name);
                    self.report(codes::IMPOSSIBLE_VALUE, place, title);
                    continue;
                }
                out.retain(|known| known.name != name.name);
                out.push(Asking { ask, name: name.name, shown: show(&figure, program, display), place });
            }
        }
        out
    }

    /// Where a rule is written, in words: its source, or its name.
    pub(crate) fn source_of(&mut self, rule: &Rule) -> String {
        let source = self.text_of(rule).and_then(|text| text.source);
        self.plain(source).unwrap_or_else(|| format!("rule {}", rule.name))
    }

    fn text_of(&self, rule: &Rule) -> Option<Text<'p>> {
        let mut text = Text {
            title: None,
            severity: Severity::Error,
            because: None,
            source: None,
            steps: Vec::new(),
            require: None,
            otherwise: None,
        };
        for (number, def) in std::iter::once(&rule.def).chain(&rule.amendments).enumerate() {
            let decl = self.program.decl(*def)?;
            let module: &'p wythe_syntax::ast::Module = &self.program.module(def.file)?.module;
            let block: &'p Block = match &decl.kind {
                DeclKind::Rule(block) | DeclKind::Amend { block, .. } => block,
                _ => continue,
            };
            let at = |expr: ExprId| Some(Source { file: def.file, expr, module });
            for item in &block.items {
                match item {
                    Item::Property { name, value } => match name.name.as_str() {
                        "title" => text.title = at(*value),
                        "because" => text.because = at(*value),
                        "source" => text.source = at(*value),
                        "severity" => text.severity = severity(module, *name, *value).unwrap_or(text.severity),
                        _ => {}
                    },
                    Item::Statement(statement) => match &statement.kind {
                        StatementKind::Require(value) => text.require = at(*value),
                        StatementKind::Otherwise(value) => text.otherwise = at(*value),
                        StatementKind::ForEach { .. } | StatementKind::Let(_) if number == 0 => {
                            text.steps.push(statement)
                        }
                        _ => {}
                    },
                    Item::Section { .. } => {}
                }
            }
        }
        Some(text)
    }

    fn plain(&mut self, source: Option<Source<'p>>) -> Option<String> {
        let source = source?;
        let mut frame = Frame::new(self.program, source.file)?;
        match self.eval(&mut frame, source.expr) {
            Value::Text(text) => Some(text.to_string()),
            _ => None,
        }
    }

    /// Goes through the steps of a rule from a place on, binding names, and asks at the end.
    fn go(&mut self, frame: &mut Frame<'p>, asked: &mut Asked<'_, 'p>, from: usize) {
        let Some(step) = asked.text.steps.get(from) else { return self.decide(frame, asked) };
        match &step.kind {
            StatementKind::Let(binding) => {
                let value = self.eval(frame, binding.value);
                frame.locals.push((binding.name.name, value));
                self.go(frame, asked, from + 1);
                frame.locals.pop();
            }
            StatementKind::ForEach { name, list, condition } => {
                let Value::List(items) = self.eval(frame, *list) else { return };
                for item in items.iter() {
                    if asked.outcome.cases.len() >= MOST_CASES {
                        self.report(codes::TOO_DEEP, step.span, "the rule looks at more cases than the limit allows");
                        return;
                    }
                    frame.locals.push((name.name, item.clone()));
                    asked.bound.push(item.clone());
                    let taken =
                        condition.is_none_or(|c| !matches!(self.eval(frame, c), Value::Bool(false) | Value::Broken));
                    match condition {
                        _ if taken => self.go(frame, asked, from + 1),
                        Some(condition) => asked.leave_out(frame, *condition),
                        None => {}
                    }
                    asked.bound.pop();
                    frame.locals.pop();
                }
            }
            _ => self.go(frame, asked, from + 1),
        }
    }

    fn decide(&mut self, frame: &mut Frame<'p>, asked: &mut Asked<'_, 'p>) {
        let (Some(require), Some(mut inner)) =
            (asked.text.require, asked.text.require.and_then(|r| Frame::new(self.program, r.file)))
        else {
            return;
        };
        inner.locals.clone_from(&frame.locals);
        inner.whole.clone_from(&frame.whole);
        let answer = self.eval(&mut inner, require.expr);
        let foundation = frame.whole.clone();
        let item = asked.item();
        let evidence = match asked.evidence {
            Some(display) => {
                let before = self.findings.len();
                let evidence = self.evidence(&mut inner, require.expr, &Gathering { named: asked.named, display });
                // What stumbles here has stumbled above, and been told.
                self.findings.truncate(before);
                evidence
            }
            None => Vec::new(),
        };
        let holds = match answer {
            Value::Bool(b) => Some(b),
            _ => None,
        };
        let (span, note) = asked.place(foundation.as_deref());
        let unsure = answer == Value::Unsure;
        asked.outcome.cases.push(RuleCase { item: item.clone(), place: span, holds, unsure, said: None, evidence });
        if matches!(answer, Value::Bool(true) | Value::Broken) {
            return;
        }
        let said = match asked.text.otherwise {
            Some(otherwise) => {
                let mut frame = match Frame::new(self.program, otherwise.file) {
                    Some(frame) => frame,
                    None => return,
                };
                frame.locals.clone_from(&inner.locals);
                frame.whole.clone_from(&inner.whole);
                match self.eval(&mut frame, otherwise.expr) {
                    Value::Text(text) => text.to_string(),
                    _ => asked.outcome.title.clone(),
                }
            }
            None => asked.outcome.title.clone(),
        };
        if let Some(case) = asked.outcome.cases.last_mut() {
            case.said = Some(said.clone());
        }
        let severity = if unsure { asked.text.severity.min(Severity::Warning) } else { asked.text.severity };
        let title = if unsure { format!("it is not sure that this holds: {said}") } else { said };
        let mut finding = Finding::of_rule(asked.rule.name, severity, span, title)
            .label(note)
            .related(require.module[require.expr].span, "the rule asks this")
            .item(match &foundation {
                Some(f) if item.is_empty() => f.name.to_string(),
                Some(f) => format!("{}.{item}", f.name),
                None => item,
            });
        if let Some(f) = foundation.as_deref().filter(|f| f.origin.file != span.file) {
            finding = finding.related(f.origin, format!("so in {}", f.name));
        }
        finding.consequence.clone_from(&asked.outcome.because);
        if !asked.outcome.source.is_empty() {
            finding.source = Some(asked.outcome.source.clone());
        }
        if unsure {
            finding.cause = Some("a figure is known within bounds only, and the rule holds at one end of them".into());
        }
        asked.outcome.findings.push(finding);
    }
}

fn severity(module: &wythe_syntax::ast::Module, _name: Ident, value: ExprId) -> Option<Severity> {
    let ExprKind::Name(word) = module[value].kind else { return None };
    match word.as_str() {
        "error" => Some(Severity::Error),
        "warning" => Some(Severity::Warning),
        "information" => Some(Severity::Information),
        _ => None,
    }
}

/// The names a rule gives to values on its way.
fn named(rule: &Rule, text: &Text<'_>) -> Vec<Named> {
    let lets = text.steps.iter().filter_map(|step| match &step.kind {
        StatementKind::Let(binding) => {
            Some(Named { name: binding.name.name, file: rule.def.file, value: binding.value })
        }
        _ => None,
    });
    lets.collect()
}

/// A rule under way.
struct Asked<'a, 'p> {
    rule: &'a Rule,
    text: &'a Text<'p>,
    evidence: Option<&'a DisplayOptions>,
    named: &'a [Named],
    outcome: &'a mut RuleOutcome,
    bound: Vec<Value>,
}

impl Asked<'_, '_> {
    /// The parts bound, as people on site say them.
    fn item(&self) -> String {
        let names = self.bound.iter().filter_map(|v| match v {
            Value::Element(element) => Some(owner_name(element)),
            _ => None,
        });
        let mut out: Vec<String> = Vec::new();
        for name in names {
            if out.last() != Some(&name) {
                out.push(name);
            }
        }
        out.join(" ")
    }

    /// Notes that a condition leaves out the part bound last.
    fn leave_out(&mut self, frame: &Frame<'_>, condition: ExprId) {
        if self.evidence.is_none() {
            return;
        }
        let span = frame.module[condition].span;
        let condition = span.text(frame.text).split_whitespace().collect::<Vec<_>>().join(" ");
        let item = self.item();
        match self.outcome.left_out.iter_mut().find(|l| l.condition == condition) {
            Some(left) if left.items.contains(&item) => {}
            Some(left) => left.items.push(item),
            None => self.outcome.left_out.push(LeftOut { condition, items: vec![item] }),
        }
    }

    /// The place the innermost part bound came from.
    fn place(&self, foundation: Option<&Foundation>) -> (Span, String) {
        for value in self.bound.iter().rev() {
            if let Value::Element(element) = value
                && let Some(span) = lower::origin(element)
            {
                return (span, element_name(element));
            }
        }
        foundation.map_or((Span::default(), String::new()), |f| (f.origin, f.name.to_string()))
    }
}

/// The name of the part something belongs to: a layer's wall, a tail's pier.
fn owner_name(element: &Element) -> String {
    match element {
        Element::Surface(of, _) | Element::Layer(of, ..) | Element::Lap(of, ..) | Element::Tail(of, ..) => {
            owner_name(of)
        }
        other => element_name(other),
    }
}
