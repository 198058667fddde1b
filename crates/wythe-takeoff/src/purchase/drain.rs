//! A foundation drain by its trench section: stone, pipe and filter fabric.

use crate::finite;
use std::f64::consts::PI;
use uom::si::area::square_meter;
use uom::si::f64::{Area, Length, Volume};
use uom::si::length::meter;

/// A trench of drain stone with a pipe in it, wrapped in fabric.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trench {
    /// Along the footing.
    pub length: Length,
    /// Of the stone, level bottom and upright sides.
    pub width: Length,
    /// Of the stone.
    pub depth: Length,
    /// Outside of the pipe.
    pub pipe: Length,
    /// Lap of the fabric over the stone and along its length.
    pub fabric_lap: Length,
    /// The fabric wraps the whole section; else it lies over the top only.
    pub fabric_all_round: bool,
}

/// What a trench takes, net.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TrenchMaterials {
    /// Stone, the pipe's room taken off.
    pub stone: Volume,
    /// Pipe.
    pub pipe: Length,
    /// Fabric: round the section with its lap, or over the top only.
    pub fabric: Area,
}

/// A trench that cannot be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum TrenchError {
    /// A size is nought, negative or not a number.
    #[error("a trench must have positive sizes and a lap of nought or more")]
    Size,
    /// The pipe does not fit the stone.
    #[error("the pipe is larger than the stone round it")]
    PipeTooLarge,
}

/// Stone = (width x depth - pi pipe^2 / 4) x length; fabric = girth of the section and one lap, or
/// its width and two laps when only the top is covered, along the length.
pub fn trench(t: &Trench) -> Result<TrenchMaterials, TrenchError> {
    let v = |l: Length| l.get::<meter>();
    let positive = [t.length, t.width, t.depth].iter().all(|l| finite::positive(v(*l)));
    let rest = [t.pipe, t.fabric_lap].iter().all(|l| finite::not_negative(v(*l)));
    if !positive || !rest {
        return Err(TrenchError::Size);
    }
    if t.pipe > t.width || t.pipe > t.depth {
        return Err(TrenchError::PipeTooLarge);
    }
    let pipe = Area::new::<square_meter>(PI * v(t.pipe).powi(2) / 4.0);
    let girth =
        if t.fabric_all_round { (t.width + t.depth) * 2.0 + t.fabric_lap } else { t.width + t.fabric_lap * 2.0 };
    Ok(TrenchMaterials { stone: (t.width * t.depth - pipe) * t.length, pipe: t.length, fabric: girth * t.length })
}
