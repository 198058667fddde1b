//! Numbers as text: decimals to a given number of places, and mixed fractions.

use std::cmp::Ordering;

use num_integer::Integer;

use crate::Scalar;

/// Past this a decimal is shown with a power of ten: no one counts fifteen digits.
const LARGE: f64 = 1e15;

/// Most decimal places shown.
pub(crate) const MAX_PLACES: u8 = 15;

/// A number as text, and whether the text differs from the number.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Decimal {
    pub text: String,
    pub rounded: bool,
}

/// A number with at most `places` decimal places, trailing zeros dropped beyond `least` places.
pub(crate) fn decimal(value: Scalar, places: u8, least: u8) -> Decimal {
    let places = places.min(MAX_PLACES);
    let scaled = Scalar::int(10_i64.pow(u32::from(places)));
    let whole = value.checked_mul(scaled).ok().map(Scalar::round).and_then(Scalar::as_whole);
    let Some(whole) = whole.filter(|_| value.to_f64().abs() < LARGE) else {
        return large(value, places, least);
    };
    let shown = Scalar::int(whole).checked_div(scaled).unwrap_or(value);
    let rounded = shown.compare(value) != Ordering::Equal;
    let sign = if whole < 0 { "-" } else { "" };
    let digits = format!("{:0>width$}", whole.unsigned_abs(), width = usize::from(places) + 1);
    let (before, after) = digits.split_at(digits.len() - usize::from(places));
    Decimal { text: format!("{sign}{}", joined(before, after, least)), rounded }
}

/// Values whose digits do not fit in 64 bits.
fn large(value: Scalar, places: u8, least: u8) -> Decimal {
    let float = value.to_f64();
    let text = if float.abs() < LARGE {
        let full = format!("{float:.*}", usize::from(places));
        match full.split_once('.') {
            Some((before, after)) => joined(before, after, least),
            None => full,
        }
    } else {
        format!("{float:e}")
    };
    let shown = text.parse::<f64>().map(Scalar::Approx).unwrap_or(value);
    Decimal { rounded: shown.compare(value) != Ordering::Equal, text }
}

fn joined(before: &str, after: &str, least: u8) -> String {
    let mut after = after;
    while after.len() > usize::from(least) && after.ends_with('0') {
        after = &after[..after.len() - 1];
    }
    if after.is_empty() { before.to_owned() } else { format!("{before}.{after}") }
}

/// Places that show a number with `places` decimals, or with three significant digits if it is
/// smaller than that would show.
pub(crate) fn places_for(value: Scalar, places: u8) -> u8 {
    let size = value.to_f64().abs();
    if size <= 0.0 {
        return 0;
    }
    // The place of the first digit: 0 for 1 to 9.99, −2 for 0.05.
    let first = size.log10().floor();
    let needed = (2.0 - first).clamp(0.0, f64::from(MAX_PLACES)) as u8;
    if needed > places && size < 1.0 { needed } else { places }
}

/// `parts / denominator` as whole and proper fraction: `4-1/2`, `1/2`, `4`. Parts are positive.
pub(crate) fn mixed_fraction(parts: i64, denominator: i64) -> String {
    let denominator = denominator.max(1);
    let (whole, rest) = parts.div_rem(&denominator);
    if rest == 0 {
        return whole.to_string();
    }
    let divisor = rest.gcd(&denominator);
    let fraction = format!("{}/{}", rest / divisor, denominator / divisor);
    if whole == 0 { fraction } else { format!("{whole}-{fraction}") }
}
