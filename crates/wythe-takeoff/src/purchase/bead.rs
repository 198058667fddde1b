//! Sealant: the section of a bead by its shape, and cartridges for its length.

use super::units::{Purchase, PurchaseError, whole_units};
use crate::finite;
use std::f64::consts::PI;
use uom::si::area::square_meter;
use uom::si::f64::{Area, Length, Ratio, Volume};
use uom::si::length::meter;
use uom::si::volume::cubic_meter;

/// Shape of a bead of sealant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BeadShape {
    /// A free round bead of this diameter.
    Round {
        /// Diameter.
        diameter: Length,
    },
    /// A flat-faced triangle in a corner, by its leg.
    Fillet {
        /// Leg along each face.
        leg: Length,
    },
    /// A joint filled against a backer rod: hourglass, wide at the faces and of the given depth at
    /// its middle. A round backer rises into the joint; the section is the rectangle of width by
    /// throat plus the two corners beside the backer's crown.
    JointWithBacker {
        /// Width of the joint.
        width: Length,
        /// Depth of sealant over the crown of the backer.
        throat: Length,
        /// Diameter of the backer rod, not less than the width of the joint.
        backer: Length,
    },
}

/// A tube or sausage of sealant by its volume.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cartridge {
    /// Volume of sealant in it.
    pub volume: Volume,
}

/// A bead that cannot be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum BeadError {
    /// A size is nought, negative or not a number.
    #[error("a bead must have a positive size")]
    Size,
    /// The backer is looser than the joint.
    #[error("the backer rod is narrower than the joint")]
    LooseBacker,
    /// The need or the cartridge is out of range.
    #[error(transparent)]
    Purchase(#[from] PurchaseError),
}

/// Section of a bead.
///
/// Round: pi d^2 / 4. Fillet: leg^2 / 2. Joint: width x throat + (width x s - segment), where s is
/// the rise of the backer's crown over its edges at the joint faces, plain geometry of a circle.
pub fn bead_section(shape: BeadShape) -> Result<Area, BeadError> {
    let size = |l: Length| {
        let v = l.get::<meter>();
        if finite::positive(v) { Ok(v) } else { Err(BeadError::Size) }
    };
    let section = match shape {
        BeadShape::Round { diameter } => PI * size(diameter)?.powi(2) / 4.0,
        BeadShape::Fillet { leg } => size(leg)?.powi(2) / 2.0,
        BeadShape::JointWithBacker { width, throat, backer } => {
            let (w, t, r) = (size(width)?, size(throat)?, size(backer)? / 2.0);
            if 2.0 * r < w {
                return Err(BeadError::LooseBacker);
            }
            let half = w / 2.0;
            let rise = r - (r * r - half * half).sqrt();
            let angle = (half / r).asin();
            let segment = r * r * (angle - angle.sin() * angle.cos());
            w * t + (w * rise - segment)
        }
    };
    Ok(Area::new::<square_meter>(section))
}

/// Cartridges for a length of bead, with a waste allowance (what stays in tubes and on tools).
pub fn cartridges(shape: BeadShape, length: Length, cartridge: Cartridge, waste: Ratio) -> Result<Purchase, BeadError> {
    let each = cartridge.volume.get::<cubic_meter>();
    if !finite::positive(each) {
        return Err(PurchaseError::EmptyUnit.into());
    }
    let needed: Volume = bead_section(shape)? * length;
    Ok(whole_units(needed / cartridge.volume, waste)?)
}
