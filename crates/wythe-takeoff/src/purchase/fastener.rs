//! Fasteners in every piece really cut, with distance from its edges and greatest spacing.
//! A pattern for holding a piece in place; no strength is computed.

use crate::finite;
use uom::si::f64::Length;
use uom::si::length::meter;

/// Pattern of fasteners in a piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FastenerRules {
    /// Greatest spacing along and across.
    pub spacing: Length,
    /// Least distance from any edge of the piece.
    pub edge: Length,
    /// Least number in any piece, however small.
    pub least: u32,
}

/// A pattern that cannot be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum FastenerError {
    /// Spacing nought, negative or not a number, or edge distance negative.
    #[error("spacing must be positive and edge distance must not be negative")]
    Rules,
    /// The piece has no size.
    #[error("a piece must have a positive size")]
    Piece,
    /// The edge distance leaves no place in the piece.
    #[error("the piece is too narrow for the edge distance")]
    TooNarrow,
    /// Beyond counting.
    #[error("more fasteners than can be counted")]
    TooMany,
}

/// Most fasteners in one line.
const MOST: f64 = 1e6;

/// Places in a line of `length`: as few as keep the spacing, at least one.
fn places(length: f64, rules: &FastenerRules) -> Result<u64, FastenerError> {
    let (spacing, edge) = (rules.spacing.get::<meter>(), rules.edge.get::<meter>());
    if !finite::positive(spacing) || !finite::not_negative(edge) {
        return Err(FastenerError::Rules);
    }
    if !finite::positive(length) {
        return Err(FastenerError::Piece);
    }
    let between = length - 2.0 * edge;
    if between < -1e-9 {
        return Err(FastenerError::TooNarrow);
    }
    let gaps = (between / spacing - 1e-9).ceil().max(0.0);
    if gaps > MOST {
        return Err(FastenerError::TooMany);
    }
    Ok(gaps as u64 + 1)
}

/// Fasteners in one rectangular piece: a grid within the edge distance, no wider than the spacing,
/// and at least the least number.
pub fn fasteners_for_piece(length: Length, height: Length, rules: &FastenerRules) -> Result<u64, FastenerError> {
    let grid = places(length.get::<meter>(), rules)? * places(height.get::<meter>(), rules)?;
    Ok(grid.max(u64::from(rules.least)))
}

/// Fasteners along a line, such as the top of a liner.
pub fn fasteners_for_length(length: Length, rules: &FastenerRules) -> Result<u64, FastenerError> {
    Ok(places(length.get::<meter>(), rules)?.max(u64::from(rules.least)))
}
