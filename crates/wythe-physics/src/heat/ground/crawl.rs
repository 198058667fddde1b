//! Which ISO 13370 form a crawl space takes, with the reason in words and the form set aside.
//!
//! A vented crawl is outside the thermal envelope: the floor above it is a suspended floor. A
//! closed, conditioned crawl is inside the envelope: its ground and walls are those of a heated
//! basement, or of a slab where its floor is level with the grade. Closed but not conditioned,
//! it is an unheated basement.

use uom::si::f64::Length;

use crate::admit;
use crate::error::Result;

/// How the crawl space is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CrawlState {
    /// Open to the outside through vents.
    Vented,
    /// Closed, insulated at its walls and conditioned.
    ClosedConditioned,
    /// Closed, insulated at the floor above, not conditioned.
    ClosedUnconditioned,
}

/// The forms of ISO 13370.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum GroundForm {
    /// Slab on ground, clause 7.1.
    SlabOnGround,
    /// Suspended floor, clause 7.2.
    SuspendedFloor,
    /// Heated basement, clause 7.3.
    HeatedBasement,
    /// Unheated or partly heated basement, clauses 7.4 and 7.5.
    UnheatedBasement,
}

/// A choice of form with its reason.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GroundFormChoice {
    /// The form to compute with.
    pub form: GroundForm,
    /// The form to show beside it for comparison.
    pub beside: GroundForm,
    /// Why, in words fit to print.
    pub reason: &'static str,
}

/// Depth of crawl floor below grade under which it counts as level with it, m: with less than
/// this the wall formula of the basement form adds under one part in twenty (judgement).
const LEVEL: f64 = 0.15;

/// Chooses the form from the state and the mean depth of the crawl floor below grade.
///
/// # Errors
/// A depth outside −3 to 20 m.
pub fn ground_form(state: CrawlState, depth: Length) -> Result<GroundFormChoice> {
    let z = admit::within("depth of crawl floor below grade", depth.value, -3.0, 20.0, "m")?;
    Ok(match state {
        CrawlState::Vented => GroundFormChoice {
            form: GroundForm::SuspendedFloor,
            beside: GroundForm::UnheatedBasement,
            reason: "the space is open to outside air, so the thermal envelope is the floor above \
                     it: ISO 13370 suspended floor",
        },
        CrawlState::ClosedUnconditioned => GroundFormChoice {
            form: GroundForm::UnheatedBasement,
            beside: GroundForm::SuspendedFloor,
            reason: "the space is closed but not conditioned, so heat passes the floor above it \
                     and then the space: ISO 13370 unheated basement",
        },
        CrawlState::ClosedConditioned if z > LEVEL => GroundFormChoice {
            form: GroundForm::HeatedBasement,
            beside: GroundForm::SuspendedFloor,
            reason: "the space is closed and conditioned, so it lies inside the thermal envelope, \
                     and its floor is below grade: ISO 13370 heated basement",
        },
        CrawlState::ClosedConditioned => GroundFormChoice {
            form: GroundForm::SlabOnGround,
            beside: GroundForm::SuspendedFloor,
            reason: "the space is closed and conditioned, so it lies inside the thermal envelope, \
                     and its floor is level with the grade: ISO 13370 slab on ground",
        },
    })
}
