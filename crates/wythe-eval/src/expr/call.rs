//! Calls: functions, build-ups, records, and the functions every file knows.

use std::cmp::Ordering;
use std::sync::Arc;

use wythe_findings::{Finding, codes};
use wythe_sema::{Builtin, DefId, ParamType, PartKind, Res, Signature};
use wythe_source::Span;
use wythe_syntax::ast::{Arg, DeclKind, ExprId, ExprKind, Param};
use wythe_units::{Kind, Quantity, Scalar};

use crate::{Element, Evaluator, Frame, RecordValue, Value, lower, parts, show};

impl<'p> Evaluator<'p> {
    pub(super) fn call(&mut self, frame: &mut Frame<'p>, id: ExprId, callee: ExprId, args: &[Arg]) -> Value {
        let span = frame.module[id].span;
        match frame.checked.res(id) {
            Res::Builtin(builtin) => {
                let Some(arg) = args.first() else { return Value::Broken };
                let list = self.eval(frame, arg.value);
                self.builtin(builtin, &list, span)
            }
            Res::Convert => {
                let Some(arg) = args.first() else { return Value::Broken };
                let value = self.eval(frame, arg.value);
                let kind = match frame.module[callee].kind {
                    ExprKind::Name(name) => Kind::of_type_name(name.as_str()),
                    _ => None,
                };
                match value {
                    Value::Quantity(q) => Value::Quantity(Quantity { kind, ..q }),
                    other => other,
                }
            }
            Res::Part(part) => self.part(frame, callee, part, args, span),
            Res::Method(def) => {
                let ExprKind::Field { of, .. } = frame.module[callee].kind else { return Value::Broken };
                let first = self.eval(frame, of);
                self.call_def(frame, def, Some(first), args, span)
            }
            Res::Def(def) => self.call_def(frame, def, None, args, span),
            _ => Value::Broken,
        }
    }

    /// Arguments count as part of a call: the default of a parameter may call what it is a parameter of.
    fn call_def(&mut self, frame: &mut Frame<'p>, def: DefId, first: Option<Value>, args: &[Arg], span: Span) -> Value {
        self.depth += 1;
        let value = self.called(frame, def, first, args, span);
        self.depth -= 1;
        value
    }

    fn called(&mut self, frame: &mut Frame<'p>, def: DefId, first: Option<Value>, args: &[Arg], span: Span) -> Value {
        let program = self.program;
        let Some(decl) = program.decl(def) else { return Value::Broken };
        let Some(signature) = program.checked(def.file).and_then(|c| c.signatures.get(def.index as usize)) else {
            return Value::Broken;
        };
        match (&decl.kind, signature) {
            (DeclKind::Fn(function), Signature::Function { params, .. }) => {
                let Some(given) = self.arguments(frame, def, params, Some(&function.params), first, args) else {
                    return Value::Broken;
                };
                let Some(body) = function.body else {
                    return parts::function(self, decl.name.name.as_str(), &given, span);
                };
                let Some(mut inner) = Frame::new(program, def.file) else { return Value::Broken };
                inner.params = given;
                inner.whole = frame.whole.clone();
                for binding in &function.lets {
                    let value = self.eval(&mut inner, binding.value);
                    inner.locals.push((binding.name.name, value));
                }
                self.eval(&mut inner, body)
            }
            (DeclKind::Buildup { params: written, .. }, Signature::Buildup { params, .. }) => {
                let Some(given) = self.arguments(frame, def, params, Some(written), first, args) else {
                    return Value::Broken;
                };
                lower::assembly(self, def, given).map_or(Value::Broken, Value::Assembly)
            }
            (DeclKind::Record(_), Signature::Record(fields)) => {
                let params: Vec<ParamType> = fields
                    .iter()
                    .map(|f| ParamType { name: f.name, ty: f.ty.clone(), default: f.default, contract: None })
                    .collect();
                match self.arguments(frame, def, &params, None, first, args) {
                    Some(fields) => self.made(Value::Record(Arc::new(RecordValue { def, fields })), span),
                    None => Value::Broken,
                }
            }
            _ => Value::Broken,
        }
    }

    /// Arguments in the order of the parameters, defaults filled in, contracts checked.
    fn arguments(
        &mut self,
        frame: &mut Frame<'p>,
        def: DefId,
        params: &[ParamType],
        written: Option<&[Param]>,
        first: Option<Value>,
        args: &[Arg],
    ) -> Option<Vec<Value>> {
        let mut given: Vec<Option<(Value, Span)>> = vec![None; params.len()];
        let mut next = 0;
        if let (Some(first), Some(slot)) = (first, given.first_mut()) {
            *slot = Some((first, Span::default()));
            next = 1;
        }
        for arg in args {
            let at = match arg.name {
                Some(name) => params.iter().position(|p| p.name == name.name),
                None => {
                    next += 1;
                    Some(next - 1)
                }
            };
            let value = self.eval(frame, arg.value);
            if let Some(slot) = at.and_then(|a| given.get_mut(a)) {
                *slot = Some((value, frame.module[arg.value].span));
            }
        }
        let mut inner = Frame::new(self.program, def.file)?;
        inner.whole = frame.whole.clone();
        for (param, slot) in params.iter().zip(&given) {
            let value = match (slot, param.default) {
                (Some((value, _)), _) => value.clone(),
                (None, Some(default)) => self.eval(&mut inner, default),
                (None, None) => Value::None,
            };
            inner.params.push(value);
        }
        let mut sound = true;
        for (number, param) in params.iter().enumerate() {
            let Some(contract) = param.contract else { continue };
            if inner.params[number].is_broken() {
                continue;
            }
            if matches!(self.eval(&mut inner, contract), Value::Bool(false)) {
                sound = false;
                let value = show(&inner.params[number], self.program, &Default::default());
                let due = inner.module[contract].span;
                let name = self.program.name_of(def);
                let at = given[number].as_ref().map_or(due, |(_, span)| *span);
                let declared = written.and_then(|w| w.get(number)).map_or(due, |p| p.name.span);
                self.findings.push(
                    Finding::new(
                        codes::CONTRACT_BROKEN,
                        at,
                        format!("`{}` of `{name}` must keep {}", param.name, self.program.text(due)),
                    )
                    .label(format!("this is {value}"))
                    .related(declared.to(due), "the contract stands here")
                    .mend(format!("give a value for which {} holds", self.program.text(due))),
                );
            }
        }
        sound.then_some(inner.params)
    }

    fn builtin(&mut self, builtin: Builtin, list: &Value, span: Span) -> Value {
        let Value::List(items) = list else { return Value::Broken };
        if items.iter().any(Value::is_broken) {
            return Value::Broken;
        }
        match builtin {
            Builtin::Count => Value::Quantity(Quantity::number(Scalar::from(items.len() as i64))),
            Builtin::All | Builtin::Any => {
                let stop = builtin == Builtin::Any;
                if items.contains(&Value::Bool(stop)) {
                    Value::Bool(stop)
                } else if items.contains(&Value::Unsure) {
                    Value::Unsure
                } else {
                    Value::Bool(!stop)
                }
            }
            Builtin::Sum => {
                let mut items = items.iter();
                let Some(first) = items.next() else { return Value::Quantity(Quantity::number(Scalar::from(0))) };
                items.fold(first.clone(), |sum, item| {
                    self.arithmetic(wythe_syntax::ast::BinaryOp::Add, &sum, item, span)
                })
            }
            Builtin::Min | Builtin::Max => {
                let want = if builtin == Builtin::Min { Ordering::Less } else { Ordering::Greater };
                let mut best: Option<&Value> = None;
                for item in items.iter() {
                    let better = match best {
                        None => true,
                        Some(b) => order(item, b) == Some(want),
                    };
                    if better {
                        best = Some(item);
                    }
                }
                best.cloned().unwrap_or_else(|| {
                    self.report(codes::NO_SUCH_PART, span, "an empty list has no least and no most");
                    Value::Broken
                })
            }
        }
    }

    /// `f.wall(south)`
    fn part(&mut self, frame: &mut Frame<'p>, callee: ExprId, part: PartKind, args: &[Arg], span: Span) -> Value {
        let ExprKind::Field { of, .. } = frame.module[callee].kind else { return Value::Broken };
        let Value::Element(Element::Foundation(foundation)) = self.eval(frame, of) else { return Value::Broken };
        let Some(Value::Name(name)) = args.first().map(|a| self.eval(frame, a.value)) else { return Value::Broken };
        let found = match part {
            PartKind::Wall => {
                foundation.walls.iter().position(|w| w.name == name).map(|i| Element::Wall(foundation.clone(), i))
            }
            PartKind::Pier => {
                foundation.piers.iter().position(|p| p.name == name).map(|i| Element::Pier(foundation.clone(), i))
            }
            PartKind::Opening => {
                foundation.openings.iter().position(|o| o.name == name).map(|i| Element::Opening(foundation.clone(), i))
            }
        };
        match found {
            Some(element) => Value::Element(element),
            None => {
                self.report(codes::NO_SUCH_PART, span, format!("{} has no part `{name}`", foundation.name));
                Value::Broken
            }
        }
    }
}

fn order(a: &Value, b: &Value) -> Option<Ordering> {
    match (a, b) {
        (Value::Temperature(x), Value::Temperature(y)) => Some(x.compare(*y)),
        (Value::Elevation(l, x), Value::Elevation(m, y)) if l == m => Some(x.compare(*y)),
        (Value::Date(x), Value::Date(y)) => Some(x.cmp(y)),
        _ => a.quantity()?.compare(b.quantity()?).ok(),
    }
}
