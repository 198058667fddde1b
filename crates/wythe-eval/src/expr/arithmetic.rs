//! Sums, differences, products and quotients, of figures with and without bounds, and of points.

use std::cmp::Ordering;

use jiff::Span as TimeSpan;
use wythe_findings::codes;
use wythe_source::Span;
use wythe_syntax::ast::BinaryOp;
use wythe_units::{ArithmeticError, Dim, Quantity, QuantityError, Scalar};

use crate::{Evaluator, Value};

/// Seconds in a day.
const DAY: i64 = 86_400;

impl Evaluator<'_> {
    pub(super) fn arithmetic(&mut self, op: BinaryOp, a: &Value, b: &Value, at: Span) -> Value {
        if let Some(point) = self.points(op, a, b, at) {
            return point;
        }
        let (Some(x), Some(y)) = (a.bounds(), b.bounds()) else { return Value::Broken };
        let exact = matches!((a, b), (Value::Quantity(_), Value::Quantity(_)));
        let result = if exact { apply(op, x[1], y[1]).map(|q| [q; 3]) } else { corners(op, x, y) };
        match result {
            Ok(bounds) if exact => Value::Quantity(bounds[1]),
            Ok(bounds) => Value::within(bounds),
            Err(error) => self.failed(error, at),
        }
    }

    fn failed(&mut self, error: QuantityError, at: Span) -> Value {
        let code = match error {
            QuantityError::Arithmetic(ArithmeticError::DivisionByZero) => codes::DIVISION_BY_ZERO,
            // Unlike dimensions and kinds have been reported with their types.
            QuantityError::Dimension { .. } | QuantityError::Kind { .. } => return Value::Broken,
            _ => codes::FIGURE_TOO_LARGE,
        };
        self.report(code, at, error.to_string());
        Value::Broken
    }

    /// Sums and differences in which a point takes part.
    fn points(&mut self, op: BinaryOp, a: &Value, b: &Value, at: Span) -> Option<Value> {
        let minus = op == BinaryOp::Subtract;
        let shift = |scalar: Scalar, by: Quantity| {
            if minus { scalar.checked_sub(by.value) } else { scalar.checked_add(by.value) }
        };
        let result = match (a, b) {
            (Value::Temperature(x), Value::Temperature(y)) if minus => {
                x.checked_sub(*y).map(|d| Value::Quantity(Quantity::new(d, Dim::TEMPERATURE)))
            }
            (Value::Temperature(x), other) => shift(*x, other.quantity()?).map(Value::Temperature),
            (other, Value::Temperature(y)) if !minus => shift(*y, other.quantity()?).map(Value::Temperature),
            (Value::Elevation(l, x), Value::Elevation(m, y)) if minus => {
                if l != m {
                    self.report(
                        codes::LEVEL_UNKNOWN,
                        at,
                        format!("the height from {} to {} differs from wall to wall", m.word(), l.word()),
                    );
                    return Some(Value::Broken);
                }
                x.checked_sub(*y).map(|d| Value::Quantity(Quantity::new(d, Dim::LENGTH)))
            }
            (Value::Elevation(l, x), other) => shift(*x, other.quantity()?).map(|s| Value::Elevation(*l, s)),
            (other, Value::Elevation(m, y)) if !minus => shift(*y, other.quantity()?).map(|s| Value::Elevation(*m, s)),
            (Value::Date(x), Value::Date(y)) if minus => {
                let days = i64::from((*x - *y).get_days());
                Ok(Value::Quantity(Quantity::new(Scalar::from(days.saturating_mul(DAY)), Dim::TIME)))
            }
            (Value::Date(x), other) => {
                let days = other.quantity()?.value.to_f64() / DAY as f64;
                let span = TimeSpan::new().try_days(days.round() as i64).ok();
                let moved = span.and_then(|s| if minus { x.checked_sub(s).ok() } else { x.checked_add(s).ok() });
                moved.map(Value::Date).ok_or(ArithmeticError::NotFinite)
            }
            _ => return None,
        };
        Some(result.unwrap_or_else(|error| self.failed(QuantityError::Arithmetic(error), at)))
    }

    /// `a +- b`
    pub(super) fn spread(&mut self, a: &Value, b: &Value, at: Span) -> Value {
        let (Some(mid), Some(by)) = (a.quantity(), b.quantity()) else { return Value::Broken };
        let ends = mid.checked_sub(by.abs()).and_then(|low| Ok([low, mid, mid.checked_add(by.abs())?]));
        match ends {
            Ok(bounds) => Value::within(bounds),
            Err(error) => self.failed(error, at),
        }
    }

    pub(super) fn negate(&mut self, value: Value) -> Value {
        let minus = |q: Quantity| Quantity { value: -q.value, ..q };
        match value {
            Value::Quantity(q) => Value::Quantity(minus(q)),
            other => match other.bounds() {
                Some([low, mid, high]) => Value::within([minus(high), minus(mid), minus(low)]),
                None => Value::Broken,
            },
        }
    }
}

fn apply(op: BinaryOp, a: Quantity, b: Quantity) -> Result<Quantity, QuantityError> {
    match op {
        BinaryOp::Add => a.checked_add(b),
        BinaryOp::Subtract => a.checked_sub(b),
        BinaryOp::Multiply => a.checked_mul(b),
        _ => a.checked_div(b),
    }
}

/// Interval arithmetic: the least and the most over the corners, which is exact for each of the four operations.
fn corners(op: BinaryOp, x: [Quantity; 3], y: [Quantity; 3]) -> Result<[Quantity; 3], QuantityError> {
    let mid = apply(op, x[1], y[1])?;
    if op == BinaryOp::Divide && y[0].value.signum() != y[2].value.signum() {
        return Err(QuantityError::Arithmetic(ArithmeticError::DivisionByZero));
    }
    let mut ends = [mid, mid];
    for a in [x[0], x[2]] {
        for b in [y[0], y[2]] {
            let corner = apply(op, a, b)?;
            if corner.compare(ends[0]).is_ok_and(Ordering::is_lt) {
                ends[0] = corner;
            }
            if corner.compare(ends[1]).is_ok_and(Ordering::is_gt) {
                ends[1] = corner;
            }
        }
    }
    Ok([ends[0], mid, ends[1]])
}
