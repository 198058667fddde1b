//! Nominal lumber sizes such as `2x8`: names for a size, with no arithmetic.

use std::fmt;

/// A nominal size in inches, as sold; the dressed size is smaller.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Debug)]
pub struct LumberSize {
    /// The smaller side as named, `2` in `2x8`.
    pub thickness: u16,
    /// The larger side as named, `8` in `2x8`.
    pub width: u16,
}

/// Why a text is not a lumber size.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, thiserror::Error)]
#[error("a lumber size is two whole numbers with `x` between, in one piece: `2x8`")]
pub struct LumberLiteralError;

/// Reads `2x8`.
pub fn parse_lumber(text: &str) -> Result<LumberSize, LumberLiteralError> {
    let (thickness, width) = text.split_once('x').ok_or(LumberLiteralError)?;
    Ok(LumberSize { thickness: side(thickness)?, width: side(width)? })
}

fn side(text: &str) -> Result<u16, LumberLiteralError> {
    let digits = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    let value: u16 = if digits { text.parse().map_err(|_| LumberLiteralError)? } else { 0 };
    if value == 0 { Err(LumberLiteralError) } else { Ok(value) }
}

impl fmt::Display for LumberSize {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}x{}", self.thickness, self.width)
    }
}
