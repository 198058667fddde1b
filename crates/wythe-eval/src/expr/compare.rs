//! Comparisons. Of figures within bounds they are true, false or unsure.

use std::cmp::Ordering;

use wythe_findings::codes;
use wythe_source::Span;
use wythe_syntax::ast::BinaryOp;

use crate::{Evaluator, Value};

impl Evaluator<'_> {
    pub(super) fn compare(&mut self, op: BinaryOp, a: &Value, b: &Value, at: Span) -> Value {
        match op {
            BinaryOp::Equal => Value::Bool(equal(a, b)),
            BinaryOp::NotEqual => Value::Bool(!equal(a, b)),
            _ => self.ordered(op, a, b, at),
        }
    }

    fn ordered(&mut self, op: BinaryOp, a: &Value, b: &Value, at: Span) -> Value {
        let order = match (a, b) {
            (Value::Temperature(x), Value::Temperature(y)) => Some(x.compare(*y)),
            (Value::Date(x), Value::Date(y)) => Some(x.cmp(y)),
            (Value::Member(_, x), Value::Member(_, y)) => Some(x.cmp(y)),
            (Value::Elevation(l, x), Value::Elevation(m, y)) if l == m => Some(x.compare(*y)),
            (Value::Elevation(l, _), Value::Elevation(m, _)) => {
                self.report(
                    codes::LEVEL_UNKNOWN,
                    at,
                    format!("which of {} and {} is higher differs from wall to wall", l.word(), m.word()),
                );
                return Value::Broken;
            }
            _ => None,
        };
        if let Some(order) = order {
            return Value::Bool(holds(op, order));
        }
        let (Some(x), Some(y)) = (a.bounds(), b.bounds()) else { return Value::Broken };
        let answers = [(0, 2), (2, 0), (1, 1)].map(|(i, j)| x[i].compare(y[j]).map(|order| holds(op, order)));
        match answers {
            [Ok(p), Ok(q), Ok(_)] if p == q => Value::Bool(p),
            [Ok(_), Ok(_), Ok(_)] => Value::Unsure,
            _ => Value::Broken,
        }
    }
}

fn equal(a: &Value, b: &Value) -> bool {
    match (a.bounds(), b.bounds()) {
        (Some(x), Some(y)) => x[1].compare(y[1]).is_ok_and(Ordering::is_eq),
        _ => a == b,
    }
}

const fn holds(op: BinaryOp, order: Ordering) -> bool {
    match op {
        BinaryOp::Less => order.is_lt(),
        BinaryOp::LessEqual => order.is_le(),
        BinaryOp::Greater => order.is_gt(),
        BinaryOp::GreaterEqual => order.is_ge(),
        _ => false,
    }
}
