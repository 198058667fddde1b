//! Lengths as the trade writes them: `3' 4-1/2"`, read and printed.

use num_rational::Ratio;

use crate::decimal::mixed_fraction;
use crate::{Dim, NumberError, Quantity, Scalar};

/// Meters in an inch, exactly.
const INCH: (i64, i64) = (127, 5000);
const METERS_PER_INCH: Scalar = Scalar::Exact(Ratio::new_raw(INCH.0, INCH.1));

/// Finest fraction of an inch the formatter writes for a decimal.
const FINEST: i64 = 64;

/// Why a text is not a length with marks.
#[derive(Clone, PartialEq, Eq, Hash, Debug, thiserror::Error)]
pub enum LengthLiteralError {
    /// `3' 4`: the inches lack their mark. Holds the text with the mark put in.
    #[error("the inches lack their mark: write `{0}`")]
    MissingInchMark(String),
    /// No mark at all.
    #[error("a length ends in `'` for feet or `\"` for inches")]
    NoMark,
    /// `3.5' 4"`: with inches after them, feet are whole.
    #[error("feet before inches are whole")]
    FeetNotWhole,
    /// `3' 14"`: a foot mark leaves less than twelve inches. Holds the length written right.
    #[error("inches after feet are less than twelve: write `{0}`")]
    InchesPastFoot(String),
    /// Text after the inch mark.
    #[error("nothing may follow the inch mark")]
    AfterMark,
    /// A number that is not one.
    #[error(transparent)]
    Number(#[from] NumberError),
}

/// The parts of a length with marks, as numbers of feet and inches.
struct Parts {
    feet: Option<Scalar>,
    inches: Option<Scalar>,
}

/// Reads `3'`, `4"`, `4-1/2"`, `3' 4-1/2"` (spaces between the parts are free).
pub fn parse_length_marks(text: &str) -> Result<Quantity, LengthLiteralError> {
    let value = split(text)?.meters()?;
    Ok(Quantity::new(value, Dim::LENGTH))
}

/// The one way the formatter writes a length with marks. Feet and inches stay as the author
/// divided them (`24"` does not become `2'`), and the value never changes: a decimal becomes a
/// fraction only when a fraction to 1/64 is exact. A text that is no length comes back as it is.
pub fn canonical_length_us(text: &str) -> String {
    split(text).ok().and_then(|parts| parts.canonical()).unwrap_or_else(|| text.to_owned())
}

/// Feet and inches to the nearest `1/denominator` of an inch, and whether that rounded the value.
/// The value is in meters. None when it is too large to count so.
pub fn format_feet_inches(meters: Scalar, denominator: u32) -> Option<(String, bool)> {
    let denominator = i64::from(denominator.max(1));
    let per_inch = Scalar::ratio(denominator.checked_mul(INCH.1)?, INCH.0).ok()?;
    let exact = meters.checked_mul(per_inch).ok()?;
    let parts = exact.round().as_whole()?;
    let rounded = exact.compare(Scalar::int(parts)) != std::cmp::Ordering::Equal;
    let sign = if parts < 0 { "-" } else { "" };
    let parts = parts.checked_abs()?;
    let per_foot = denominator.checked_mul(12)?;
    let (feet, rest) = (parts / per_foot, parts % per_foot);
    let inches = mixed_fraction(rest, denominator);
    let text = match (feet, rest) {
        (0, _) => format!("{sign}{inches}\""),
        (_, 0) => format!("{sign}{feet}'"),
        _ => format!("{sign}{feet}' {inches}\""),
    };
    Some((text, rounded))
}

fn split(text: &str) -> Result<Parts, LengthLiteralError> {
    let text = text.trim();
    let (feet, rest) = match text.split_once('\'') {
        Some((feet, rest)) => (Some(feet), rest.trim_start()),
        None => (None, text),
    };
    let feet = feet.map(Scalar::parse).transpose()?;
    if rest.is_empty() {
        return match feet {
            Some(_) => Ok(Parts { feet, inches: None }),
            None => Err(LengthLiteralError::NoMark),
        };
    }
    let inches = match rest.split_once('"') {
        Some((inches, "")) => Scalar::parse(inches)?,
        Some(_) => return Err(LengthLiteralError::AfterMark),
        None if feet.is_none() => return Err(LengthLiteralError::NoMark),
        None => {
            Scalar::parse(rest)?;
            return Err(LengthLiteralError::MissingInchMark(format!("{text}\"")));
        }
    };
    if let Some(feet) = feet {
        if feet.as_whole().is_none() {
            return Err(LengthLiteralError::FeetNotWhole);
        }
        if inches.compare(Scalar::int(12)).is_ge() {
            let meters = Parts { feet: Some(feet), inches: Some(inches) }.meters()?;
            let mend = format_feet_inches(meters, FINEST as u32).map(|(text, _)| text);
            return Err(LengthLiteralError::InchesPastFoot(mend.unwrap_or_default()));
        }
    }
    Ok(Parts { feet, inches: Some(inches) })
}

impl Parts {
    fn meters(&self) -> Result<Scalar, NumberError> {
        let twelve = Scalar::int(12);
        let inches = self.inches.unwrap_or(Scalar::ZERO);
        let feet = self.feet.unwrap_or(Scalar::ZERO);
        feet.checked_mul(twelve)
            .and_then(|feet| feet.checked_add(inches))
            .and_then(|total| total.checked_mul(METERS_PER_INCH))
            .map_err(|_| NumberError::TooLarge)
    }

    fn canonical(&self) -> Option<String> {
        let inches = |value: Scalar| -> Option<String> { Some(format!("{}\"", plain(value)?)) };
        match (self.feet, self.inches) {
            (Some(feet), None) => Some(format!("{}'", plain(feet)?)),
            (None, Some(value)) => inches(value),
            (Some(feet), Some(value)) if value.is_zero() => Some(format!("{}'", plain(feet)?)),
            (Some(feet), Some(value)) if feet.is_zero() => inches(value),
            (Some(feet), Some(value)) => Some(format!("{}' {}", plain(feet)?, inches(value)?)),
            (None, None) => None,
        }
    }
}

/// A number as whole and fraction, if that is exact and the fraction is one a tape shows or one
/// the author can only have written as a fraction.
fn plain(value: Scalar) -> Option<String> {
    let (n, d) = value.as_ratio()?;
    let on_tape = d <= FINEST && d.count_ones() == 1;
    on_tape.then(|| mixed_fraction(n, d))
}
