//! The evaluator: values of declarations, worked out once, with limits on depth and work.

use std::sync::Arc;

use rustc_hash::FxHashMap;
use wythe_assess::moisture::{ServiceFigures, ServiceMemo};
use wythe_assess::weather::WeatherResult;
use wythe_check::Requirements;
use wythe_findings::{Code, Finding, codes};
use wythe_model::{ClimateFile, Foundation};
use wythe_sema::{DefId, Program};
use wythe_source::{FileId, Span};
use wythe_syntax::ast::DeclKind;

use crate::{Element, Frame, Shared, Value, lower};

/// How deep functions may call one another.
pub const MAX_DEPTH: u32 = 200;
/// How many expressions one declaration, rule or test may work out.
pub const MAX_STEPS: u64 = 2_000_000;

/// Works out values.
pub struct Evaluator<'p> {
    /// The program.
    pub program: &'p Program,
    /// What went wrong.
    pub findings: Vec<Finding>,
    values: FxHashMap<DefId, Value>,
    under_way: Vec<DefId>,
    /// What other evaluators of the program have worked out.
    pub(crate) shared: Arc<Shared>,
    /// The file whose own values nobody else asks for, so that they are not kept for others.
    home: Option<FileId>,
    pub(crate) depth: u32,
    steps: u64,
    /// Whether a limit has been reported for the declaration at hand.
    pub(crate) spent: bool,
    /// How many values have been made: those that declarations hold, and those of the work at hand.
    pub(crate) built: usize,
    /// How many values the declarations worked out so far hold.
    held: usize,
    /// Gives the weather a site names; without it no value that hangs on weather is known.
    pub weather: Option<WeatherSource<'p>>,
    /// What the checks ask of each foundation judged so far, where it is not the usual.
    pub(crate) asked: Vec<(Arc<Foundation>, Requirements)>,
    /// How damp each foundation gets, worked out when first asked for; none where it cannot be known.
    pub(crate) damp: Vec<(Arc<Foundation>, Option<ServiceFigures>)>,
}

/// Gives the weather a site names, and keeps what has been worked out in it.
#[derive(Clone, Copy)]
pub struct WeatherSource<'a> {
    /// Reads the weather.
    pub read: &'a (dyn Fn(&ClimateFile) -> WeatherResult + Sync),
    /// What has been worked out before.
    pub memo: &'a ServiceMemo,
}

impl<'p> Evaluator<'p> {
    /// An evaluator of a checked program.
    pub fn new(program: &'p Program) -> Self {
        Evaluator::sharing(program, Arc::default(), None)
    }

    /// An evaluator that takes from others of the same program what they have worked out, and gives them its own, but
    /// for the values of its home file.
    pub fn sharing(program: &'p Program, shared: Arc<Shared>, home: Option<FileId>) -> Self {
        Evaluator {
            program,
            findings: Vec::new(),
            values: FxHashMap::default(),
            under_way: Vec::new(),
            shared,
            home,
            depth: 0,
            steps: 0,
            spent: false,
            built: 0,
            held: 0,
            weather: None,
            asked: Vec::new(),
            damp: Vec::new(),
        }
    }

    /// Takes the findings made so far.
    pub fn take_findings(&mut self) -> Vec<Finding> {
        std::mem::take(&mut self.findings)
    }

    /// Begins a piece of work with its own limit of steps.
    pub fn begin(&mut self) {
        self.steps = 0;
        self.spent = false;
        self.built = self.held;
    }

    /// Counts a step; false once the limit is reached, which is reported once.
    pub(crate) fn step(&mut self, at: Span) -> bool {
        self.steps += 1;
        if self.steps <= MAX_STEPS && self.depth <= MAX_DEPTH {
            return true;
        }
        if !self.spent {
            self.spent = true;
            self.report(codes::TOO_DEEP, at, "this never comes to an end, or not within the limit");
        }
        false
    }

    /// Reports a fault met on the way.
    pub(crate) fn report(&mut self, code: Code, at: Span, title: impl Into<String>) {
        self.findings.push(Finding::new(code, at, title));
    }

    /// The value of a declaration.
    pub fn value(&mut self, def: DefId) -> Value {
        if let Some(known) = self.values.get(&def) {
            return known.clone();
        }
        if self.under_way.contains(&def) {
            return Value::Broken;
        }
        let value = match self.shared.value(def) {
            Some((value, findings)) => {
                self.findings.extend(findings.iter().cloned());
                value
            }
            None => {
                let before = self.findings.len();
                let built = self.built;
                self.under_way.push(def);
                let value = self.work_out(def);
                self.under_way.pop();
                if self.under_way.is_empty() {
                    // A foundation begins its own work, which lets go of what is not held.
                    self.held += self.built.saturating_sub(built);
                }
                if self.home != Some(def.file) {
                    self.shared.put_value(def, value.clone(), &self.findings[before..]);
                }
                value
            }
        };
        self.values.insert(def, value.clone());
        value
    }

    fn work_out(&mut self, def: DefId) -> Value {
        let program = self.program;
        let (Some(decl), Some(mut frame)) = (program.decl(def), Frame::new(program, def.file)) else {
            return Value::Broken;
        };
        match &decl.kind {
            DeclKind::Let(binding) => self.eval(&mut frame, binding.value),
            DeclKind::Product { class, block } => lower::product(self, &mut frame, decl.name, *class, block),
            DeclKind::Phase(block) => lower::phase(self, &mut frame, decl.name, block),
            DeclKind::Site(block) => lower::site(self, &mut frame, decl.name, block),
            DeclKind::Joint { first, second, block } => {
                lower::joint(self, &mut frame, decl.name, *first, *second, block)
            }
            DeclKind::Foundation { site, block } => {
                match lower::foundation(self, &mut frame, decl.name, *site, block) {
                    Some(foundation) => Value::Element(Element::Foundation(Arc::new(foundation))),
                    None => Value::Broken,
                }
            }
            DeclKind::Buildup { .. } => match lower::assembly(self, def, Vec::new()) {
                Some(assembly) => Value::Assembly(assembly),
                None => Value::Broken,
            },
            _ => Value::Broken,
        }
    }

    /// The building of a foundation's declaration.
    pub fn foundation(&mut self, def: DefId) -> Option<Arc<Foundation>> {
        match self.value(def) {
            Value::Element(Element::Foundation(foundation)) => Some(foundation),
            _ => None,
        }
    }
}
