//! How large values may become: a few lines that double a list or a text each would fill any memory.

use wythe_findings::codes;
use wythe_source::Span;

use crate::{Evaluator, Value};

/// How many values may stand in one value, those in the values in it counted too. Eight bytes of text count as one.
pub const MAX_SIZE: usize = 100_000;

/// How many values the declarations of a file may hold together.
pub const MAX_HELD: usize = 4_000_000;

/// The longest text, in bytes.
pub(crate) const MAX_TEXT: usize = MAX_SIZE * 8;

impl Evaluator<'_> {
    /// A list, record or text just made, if it is within the limits. Past one it is broken, which is reported once.
    pub(crate) fn made(&mut self, value: Value, at: Span) -> Value {
        self.built += match &value {
            Value::List(items) => items.len(),
            Value::Record(record) => record.fields.len(),
            Value::Text(text) => text.len() / 8,
            _ => 0,
        };
        let mut left = MAX_SIZE;
        if spend(&value, &mut left) && self.built <= MAX_HELD {
            return value;
        }
        if !self.spent {
            self.spent = true;
            self.report(codes::TOO_DEEP, at, "this grows past what one value or one file may hold");
        }
        Value::Broken
    }
}

/// Takes the size of a value from what is left; false where that is not enough.
fn spend(value: &Value, left: &mut usize) -> bool {
    let many = |items: &[Value], left: &mut usize| items.iter().all(|item| spend(item, left));
    let own = match value {
        Value::Text(text) => 1 + text.len() / 8,
        _ => 1,
    };
    match left.checked_sub(own) {
        None => return false,
        Some(rest) => *left = rest,
    }
    match value {
        Value::List(items) => many(items, left),
        Value::Record(record) => many(&record.fields, left),
        Value::Size(pair) | Value::Range(pair) => many(&pair[..], left),
        _ => true,
    }
}

#[cfg(test)]
mod tests {
    use super::{MAX_SIZE, spend};
    use crate::Value;

    #[test]
    fn what_is_shared_counts_each_time_it_stands() {
        let mut value = Value::list(vec![Value::None; 9]);
        let mut left = MAX_SIZE;
        assert!(spend(&value, &mut left));
        assert_eq!(left, MAX_SIZE - 10);
        for _ in 0..5 {
            value = Value::list(vec![value; 10]);
        }
        assert!(!spend(&value, &mut MAX_SIZE.clone()));
    }
}
