//! Working out expressions.

mod arithmetic;
mod call;
mod compare;

use std::sync::Arc;

use wythe_findings::codes;
use wythe_sema::{Literal, Res};
use wythe_source::Span;
use wythe_syntax::ast::{BinaryOp, ExprId, ExprKind, TextPart};
use wythe_units::{Dim, DisplayOptions, Quantity, format_in, format_point_in, parse_lumber};

use crate::size::MAX_TEXT;
use crate::{Element, Evaluator, Frame, Value, show};

impl<'p> Evaluator<'p> {
    /// Works out an expression in a frame.
    pub fn eval(&mut self, frame: &mut Frame<'p>, id: ExprId) -> Value {
        let module = frame.module;
        let expr = &module[id];
        if !self.step(expr.span) {
            return Value::Broken;
        }
        match &expr.kind {
            ExprKind::Number { .. } | ExprKind::Length | ExprKind::RValue => match frame.checked.literals.get(&id) {
                Some(Literal::Quantity(quantity, _)) => Value::Quantity(*quantity),
                Some(Literal::Temperature(kelvin)) => Value::Temperature(*kelvin),
                None => Value::Broken,
            },
            ExprKind::Date => match expr.span.text(frame.text).parse() {
                Ok(date) => Value::Date(date),
                Err(_) => {
                    self.report(codes::BAD_FIGURE, expr.span, "there is no such day");
                    Value::Broken
                }
            },
            ExprKind::Lumber => parse_lumber(expr.span.text(frame.text)).map_or(Value::Broken, Value::Lumber),
            ExprKind::Text(parts) => {
                let text = self.text(frame, parts);
                self.made(text, expr.span)
            }
            ExprKind::Name(_) => self.name(frame, id, expr.span),
            ExprKind::Site => match &frame.whole {
                Some(whole) => Value::Site(whole.site.clone()),
                None => Value::Broken,
            },
            ExprKind::Bool(b) => Value::Bool(*b),
            ExprKind::None => Value::None,
            ExprKind::Negate(inner) => {
                let value = self.eval(frame, *inner);
                self.negate(value)
            }
            ExprKind::Not(inner) => match self.eval(frame, *inner) {
                Value::Bool(b) => Value::Bool(!b),
                other => other,
            },
            ExprKind::Binary { op, op_span, left, right } => self.binary(frame, *op, *op_span, *left, *right),
            ExprKind::Shown { value, .. } => self.eval(frame, *value),
            ExprKind::Field { of, .. } => self.field(frame, id, *of),
            ExprKind::Call { callee, args } => self.call(frame, id, *callee, args),
            ExprKind::Subscript { of, at } => {
                let list = self.eval(frame, *of);
                let at_value = self.eval(frame, *at);
                self.subscript(&list, &at_value, module[*at].span)
            }
            ExprKind::Tuple(parts) => match parts[..] {
                [inner] => self.eval(frame, inner),
                [x, y] => {
                    let (x, y) = (self.eval(frame, x), self.eval(frame, y));
                    match (x.quantity(), y.quantity()) {
                        (Some(x), Some(y)) => Value::Place(Arc::new([x, y])),
                        _ => Value::Broken,
                    }
                }
                _ => Value::Broken,
            },
            ExprKind::List(items) => {
                let values: Vec<_> = items.iter().map(|i| self.eval(frame, *i)).collect();
                self.made(Value::list(values), expr.span)
            }
            ExprKind::Comprehension { value, name, list, condition } => {
                let Value::List(items) = self.eval(frame, *list) else { return Value::Broken };
                let mut out = Vec::new();
                for item in items.iter() {
                    frame.locals.push((name.name, item.clone()));
                    let taken = condition.is_none_or(|c| matches!(self.eval(frame, c), Value::Bool(true)));
                    if taken {
                        out.push(self.eval(frame, *value));
                    }
                    frame.locals.pop();
                    if !self.step(expr.span) {
                        return Value::Broken;
                    }
                }
                self.made(Value::list(out), expr.span)
            }
            ExprKind::If { condition, then, otherwise } => match self.eval(frame, *condition) {
                Value::Bool(true) => self.eval(frame, *then),
                Value::Bool(false) => self.eval(frame, *otherwise),
                _ => Value::Broken,
            },
            ExprKind::Broken => Value::Broken,
        }
    }

    fn name(&mut self, frame: &mut Frame<'p>, id: ExprId, span: Span) -> Value {
        match frame.checked.res(id) {
            Res::Def(def) => self.value(def),
            Res::Param(at) => frame.params.get(at as usize).cloned().unwrap_or(Value::Broken),
            Res::Local(name) => frame.local(name).cloned().unwrap_or(Value::Broken),
            Res::Member(def, at) => Value::Member(def, at),
            Res::Whole(field) => match frame.whole.clone() {
                Some(whole) => self.member(&Element::Foundation(whole), field, span),
                None => Value::Broken,
            },
            Res::Class(class) => Value::Class(class),
            Res::Level(level) => Value::Elevation(level, 0.into()),
            Res::Name(name) => Value::Name(name),
            Res::Currency(name) => Value::Currency(name),
            _ => Value::Broken,
        }
    }

    fn field(&mut self, frame: &mut Frame<'p>, id: ExprId, of: ExprId) -> Value {
        let span = frame.module[id].span;
        match frame.checked.res(id) {
            Res::Member(def, at) => Value::Member(def, at),
            Res::Component(first) => match self.eval(frame, of) {
                Value::Size(pair) | Value::Range(pair) => pair[usize::from(!first)].clone(),
                Value::Place(pair) => Value::Quantity(pair[usize::from(!first)]),
                _ => Value::Broken,
            },
            Res::Field(_, field) => match self.eval(frame, of) {
                Value::Record(record) => record.fields.get(field as usize).cloned().unwrap_or(Value::Broken),
                Value::Element(element) => self.member(&element, field, span),
                Value::Site(site) => crate::parts::site_member(self, &site, field),
                Value::Product(product) => {
                    let ExprKind::Field { name, .. } = &frame.module[id].kind else { return Value::Broken };
                    crate::parts::product_member(self, &product, name.name.as_str())
                }
                _ => Value::Broken,
            },
            _ => Value::Broken,
        }
    }

    fn subscript(&mut self, list: &Value, at: &Value, span: Span) -> Value {
        let Value::List(items) = list else { return Value::Broken };
        let number = at.quantity().and_then(|q| q.value.as_whole()).and_then(|n| usize::try_from(n).ok());
        match number.and_then(|n| items.get(n)) {
            Some(value) => value.clone(),
            None => {
                self.report(codes::NO_SUCH_PART, span, format!("the list has {} entries, counted from 0", items.len()));
                Value::Broken
            }
        }
    }

    /// A text with its values filled in, each in the unit it asks for.
    pub fn text(&mut self, frame: &mut Frame<'p>, parts: &[TextPart]) -> Value {
        let mut out = String::new();
        for part in parts {
            match part {
                TextPart::Plain(text) => out.push_str(text),
                TextPart::Value(id) => {
                    let value = self.eval(frame, *id);
                    if value.is_broken() {
                        out.push('?');
                        continue;
                    }
                    out.push_str(&self.shown(frame, *id, &value));
                    // Longer than any text may be: what is missing is never seen.
                    if out.len() > MAX_TEXT {
                        break;
                    }
                }
            }
        }
        Value::text(out)
    }

    /// A value as text, in the unit its `as` asks for.
    fn shown(&self, frame: &Frame<'p>, id: ExprId, value: &Value) -> String {
        let options = DisplayOptions::default();
        if let Some(unit) = frame.checked.units.get(&id) {
            let text = match value {
                Value::Temperature(kelvin) => format_point_in(Quantity::new(*kelvin, Dim::TEMPERATURE), unit).ok(),
                other => other.quantity().and_then(|q| format_in(q, unit).ok()),
            };
            if let Some(text) = text {
                return text;
            }
        }
        show(value, self.program, &options)
    }

    fn binary(&mut self, frame: &mut Frame<'p>, op: BinaryOp, at: Span, left: ExprId, right: ExprId) -> Value {
        match op {
            BinaryOp::And | BinaryOp::Or => {
                let stop = op == BinaryOp::Or;
                match self.eval(frame, left) {
                    Value::Bool(b) if b == stop => Value::Bool(stop),
                    Value::Unsure => match self.eval(frame, right) {
                        Value::Bool(b) if b == stop => Value::Bool(stop),
                        Value::Broken => Value::Broken,
                        _ => Value::Unsure,
                    },
                    Value::Bool(_) => self.eval(frame, right),
                    _ => Value::Broken,
                }
            }
            BinaryOp::Default => match self.eval(frame, left) {
                Value::None => self.eval(frame, right),
                value => value,
            },
            _ => {
                let a = self.eval(frame, left);
                let b = self.eval(frame, right);
                if a.is_broken() || b.is_broken() {
                    return Value::Broken;
                }
                match op {
                    BinaryOp::Range => Value::Range(Arc::new([a, b])),
                    BinaryOp::By => Value::Size(Arc::new([a, b])),
                    BinaryOp::PlusMinus => self.spread(&a, &b, at),
                    BinaryOp::Add | BinaryOp::Subtract | BinaryOp::Multiply | BinaryOp::Divide => {
                        self.arithmetic(op, &a, &b, at)
                    }
                    _ => self.compare(op, &a, &b, at),
                }
            }
        }
    }
}
