//! Reading the number part of a literal: `12`, `1_000`, `0.5`, `3/8`, `4-1/2`.

use crate::Scalar;

/// Longest number text that is read; longer ones are a slip of the hand or an attack.
const MAX_DIGITS: usize = 300;

/// Why a text is not a number.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, thiserror::Error)]
pub enum NumberError {
    /// No digit where one is due.
    #[error("a digit is due here")]
    NoDigits,
    /// `1e5`: numbers are written out.
    #[error("numbers are written out in full, without an exponent")]
    Exponent,
    /// A character that does not belong to a number.
    #[error("`{0}` does not belong in a number")]
    Unexpected(char),
    /// `_` that does not stand between two digits.
    #[error("`_` stands only between two digits")]
    Underscore,
    /// `3/0`.
    #[error("the fraction has a zero below its line")]
    ZeroDenominator,
    /// `4-5/4`: the part after the hyphen must be less than one.
    #[error("the fraction after the hyphen must be less than one")]
    ImproperFraction,
    /// Too many digits to be a number.
    #[error("the number is too large")]
    TooLarge,
}

impl Scalar {
    /// Reads an unsigned number as the language writes it: `12`, `1_000`, `0.5`, `3/8` or
    /// `4-1/2`. Exact when it fits. Exponents, signs and spaces are refused.
    pub fn parse(text: &str) -> Result<Scalar, NumberError> {
        if let Some(whole) = plain_whole(text) {
            return Ok(Scalar::int(whole));
        }
        if text.len() > MAX_DIGITS {
            return Err(NumberError::TooLarge);
        }
        match (text.split_once('-'), text.split_once('/')) {
            (Some((whole, fraction)), Some(_)) => {
                let fraction = parse_fraction(fraction, true)?;
                let whole = Scalar::int(parse_whole(whole)?);
                whole.checked_add(fraction).map_err(|_| NumberError::TooLarge)
            }
            (Some(_), None) => Err(NumberError::Unexpected('-')),
            (None, Some(_)) => parse_fraction(text, false),
            (None, None) => parse_decimal(text),
        }
    }
}

/// The most common number: a few digits and nothing else.
fn plain_whole(text: &str) -> Option<i64> {
    let short = !text.is_empty() && text.len() <= 18;
    let digit = |value: i64, b: u8| b.is_ascii_digit().then(|| value * 10 + i64::from(b - b'0'));
    if short { text.bytes().try_fold(0, digit) } else { None }
}

fn parse_fraction(text: &str, proper: bool) -> Result<Scalar, NumberError> {
    let (above, below) = text.split_once('/').ok_or(NumberError::NoDigits)?;
    let (n, d) = (parse_whole(above)?, parse_whole(below)?);
    if d == 0 {
        return Err(NumberError::ZeroDenominator);
    }
    if proper && n >= d {
        return Err(NumberError::ImproperFraction);
    }
    Scalar::ratio(n, d).map_err(|_| NumberError::TooLarge)
}

fn parse_whole(text: &str) -> Result<i64, NumberError> {
    if let Some(whole) = plain_whole(text) {
        return Ok(whole);
    }
    check_digits(text)?;
    let mut value: i64 = 0;
    for digit in digits(text) {
        value = value.checked_mul(10).and_then(|v| v.checked_add(digit)).ok_or(NumberError::TooLarge)?;
    }
    Ok(value)
}

fn parse_decimal(text: &str) -> Result<Scalar, NumberError> {
    let (whole, decimals) = match text.split_once('.') {
        Some((whole, decimals)) => (whole, Some(decimals)),
        None => (text, None),
    };
    check_digits(whole)?;
    if let Some(decimals) = decimals {
        check_digits(decimals)?;
    }
    let decimals = decimals.unwrap_or("");
    let mut numerator: Option<i128> = Some(0);
    for digit in digits(whole).chain(digits(decimals)) {
        numerator = numerator.and_then(|n| n.checked_mul(10)).and_then(|n| n.checked_add(i128::from(digit)));
    }
    let places = u32::try_from(digits(decimals).count()).ok();
    let denominator = places.and_then(|places| 10_i128.checked_pow(places));
    if let (Some(n), Some(d)) = (numerator, denominator) {
        return Scalar::from_i128(n, d).map_err(|_| NumberError::TooLarge);
    }
    let plain = text.replace('_', "");
    let value = plain.parse::<f64>().map_err(|_| NumberError::TooLarge)?;
    Scalar::approx(value).map_err(|_| NumberError::TooLarge)
}

fn digits(text: &str) -> impl Iterator<Item = i64> {
    text.bytes().filter(u8::is_ascii_digit).map(|b| i64::from(b - b'0'))
}

/// Digits, with `_` only between two of them.
fn check_digits(text: &str) -> Result<(), NumberError> {
    let mut last_was_digit = false;
    let mut seen = false;
    for c in text.chars() {
        match c {
            '0'..='9' => (last_was_digit, seen) = (true, true),
            '_' if last_was_digit => last_was_digit = false,
            '_' => return Err(NumberError::Underscore),
            'e' | 'E' if seen => return Err(NumberError::Exponent),
            other => return Err(NumberError::Unexpected(other)),
        }
    }
    match (seen, last_was_digit) {
        (false, _) => Err(NumberError::NoDigits),
        (true, false) => Err(NumberError::Underscore),
        (true, true) => Ok(()),
    }
}
