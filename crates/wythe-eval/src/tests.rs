//! `test` blocks: what is expected of a house, and whether it came out.

use wythe_findings::{Finding, codes};
use wythe_sema::{DefId, Literal};
use wythe_source::Span;
use wythe_syntax::ast::{BinaryOp, DeclKind, Expect, ExprId, ExprKind, Item, Path, StatementKind};
use wythe_units::{CompoundUnit, DisplayOptions, format_distinct};

use crate::{Evaluator, Frame, Value, show};

/// What came of a test.
#[derive(Clone, Debug)]
pub struct TestOutcome {
    /// Its title.
    pub title: String,
    /// Where it stands.
    pub span: Span,
    /// How many expectations were met.
    pub met: usize,
    /// One finding for each that was not.
    pub failures: Vec<Finding>,
    /// Faults the test expects of its own lines, which therefore do not count: name and place.
    pub expected: Vec<(String, Span)>,
}

/// The findings a test may ask about.
pub trait Findings {
    /// The findings of a foundation, by its name; all of them if none is named.
    fn of_foundation(&self, name: Option<&str>) -> Vec<&Finding>;
    /// The findings whose place lies in a span.
    fn within(&self, span: Span) -> Vec<&Finding>;
}

impl<'p> Evaluator<'p> {
    /// Runs a test.
    pub fn run_test(&mut self, def: DefId, known: &dyn Findings) -> Option<TestOutcome> {
        self.begin();
        let program = self.program;
        let decl = program.decl(def)?;
        let DeclKind::Test { title, block } = &decl.kind else { return None };
        let mut frame = Frame::new(program, def.file)?;
        let title = match self.eval(&mut frame, *title) {
            Value::Text(text) => text.to_string(),
            _ => String::new(),
        };
        let mut outcome = TestOutcome { title, span: decl.span, met: 0, failures: Vec::new(), expected: Vec::new() };
        let kept = self.take_findings();
        for item in &block.items {
            let Item::Statement(statement) = item else { continue };
            match &statement.kind {
                StatementKind::Let(binding) => {
                    let value = self.eval(&mut frame, binding.value);
                    frame.locals.push((binding.name.name, value));
                }
                StatementKind::Expect(Expect::Value { value, within }) => {
                    match self.expect_value(&mut frame, *value, *within) {
                        None => outcome.met += 1,
                        Some(failure) => outcome.failures.push(failure),
                    }
                }
                StatementKind::Expect(Expect::Finding { present, name, within }) => {
                    let expected = Expected { present: *present, name: name.as_ref(), within: within.as_ref() };
                    expect_finding(&mut outcome, &expected, statement.span, block.span, known);
                }
                _ => {}
            }
        }
        outcome.failures.extend(std::mem::replace(&mut self.findings, kept));
        Some(outcome)
    }

    fn expect_value(&mut self, frame: &mut Frame<'p>, id: ExprId, within: Option<ExprId>) -> Option<Finding> {
        let module = frame.module;
        let span = module[id].span;
        if let ExprKind::Binary { op, left, right, .. } = &module[id].kind
            && matches!(
                op,
                BinaryOp::Equal
                    | BinaryOp::Less
                    | BinaryOp::LessEqual
                    | BinaryOp::Greater
                    | BinaryOp::GreaterEqual
                    | BinaryOp::NotEqual
            )
        {
            let (a, b) = (self.eval(frame, *left), self.eval(frame, *right));
            if a.is_broken() || b.is_broken() {
                // What broke it has been told.
                return None;
            }
            let tolerance = within.map(|w| self.eval(frame, w));
            let met = match (&tolerance, op) {
                (Some(t), BinaryOp::Equal) => near(&a, &b, t),
                _ => self.eval(frame, id) == Value::Bool(true),
            };
            if met {
                return None;
            }
            let mut options = DisplayOptions::default();
            // What is due is said by the test; what came out is said in the same unit.
            if let Some(unit) = self.unit_written(frame, *right).or_else(|| self.unit_written(frame, *left)) {
                options.prefer(None, unit);
            }
            let (found, due) = match (a.quantity(), b.quantity()) {
                (Some(x), Some(y)) => format_distinct(x, y, &options),
                _ => (show(&a, self.program, &options), show(&b, self.program, &options)),
            };
            return Some(
                Finding::new(codes::TEST_FAILED, span, format!("{found} came out, not {} {due}", op.text()))
                    .related(module[*left].span, format!("this is {found}"))
                    .related(module[*right].span, format!("this is {due}")),
            );
        }
        match self.eval(frame, id) {
            Value::Bool(true) => None,
            other => Some(Finding::new(
                codes::TEST_FAILED,
                span,
                format!("this is {}", show(&other, self.program, &DisplayOptions::default())),
            )),
        }
    }
}

impl<'p> Evaluator<'p> {
    /// The unit that a figure is written in.
    fn unit_written(&self, frame: &Frame<'p>, id: ExprId) -> Option<CompoundUnit> {
        match self.program.checked(frame.module.file)?.literals.get(&id)? {
            Literal::Quantity(_, unit) => unit.as_deref().cloned(),
            Literal::Temperature(_) => None,
        }
    }
}

fn near(a: &Value, b: &Value, tolerance: &Value) -> bool {
    let (Some(a), Some(b), Some(t)) = (a.quantity(), b.quantity(), tolerance.quantity()) else { return false };
    // Kinds stand aside: a test compares figures.
    let (a, b, t) = (
        wythe_units::Quantity { kind: None, ..a },
        wythe_units::Quantity { kind: None, ..b },
        wythe_units::Quantity { kind: None, ..t },
    );
    a.checked_sub(b).is_ok_and(|d| d.abs().compare(t.abs()).is_ok_and(std::cmp::Ordering::is_le))
}

struct Expected<'a> {
    present: bool,
    name: Option<&'a Path>,
    within: Option<&'a Path>,
}

fn expect_finding(outcome: &mut TestOutcome, expected: &Expected<'_>, at: Span, block: Span, known: &dyn Findings) {
    let name = expected.name.and_then(|p| p.parts.last()).map(|i| i.name.as_str());
    let fits = |f: &&Finding| name.is_none_or(|n| f.name.as_str() == n);
    let found: Vec<&Finding> = match expected.within {
        Some(path) => {
            let foundation = path.parts.first().map(|i| i.name.as_str());
            let item = path.parts.iter().map(|i| i.name.as_str()).collect::<Vec<_>>().join(".");
            let all = known.of_foundation(foundation).into_iter().filter(fits);
            all.filter(|f| path.parts.len() == 1 || f.item == item || f.item.starts_with(&format!("{item} "))).collect()
        }
        None => {
            let inside: Vec<_> = known.within(block).into_iter().filter(fits).collect();
            if inside.is_empty() { known.of_foundation(None).into_iter().filter(fits).collect() } else { inside }
        }
    };
    let words = name.map_or_else(|| "any finding".to_owned(), |n| format!("the finding `{n}`"));
    match (expected.present, found.first()) {
        (true, Some(_)) => {
            outcome.met += 1;
            if let Some(name) = name {
                outcome.expected.push((name.to_owned(), block));
            }
        }
        (false, None) => outcome.met += 1,
        (true, None) => {
            outcome.failures.push(Finding::new(
                codes::TEST_FAILED,
                at,
                format!("{words} was expected and did not come"),
            ));
        }
        (false, Some(f)) => outcome.failures.push(
            Finding::new(codes::TEST_FAILED, at, format!("{words} came: {}", f.title))
                .related(f.primary.span, "it stands here"),
        ),
    }
}
