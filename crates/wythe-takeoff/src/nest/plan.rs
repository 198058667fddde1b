//! What a nesting gives: sheets with their pieces and offcuts, the cut list, yield, bound and gap.

use crate::grid::{self, Ticks};
use uom::si::area::square_meter;
use uom::si::f64::{Area, Length, Ratio};
use uom::si::ratio::ratio;

/// A rectangular sheet as bought: `length` is the long way of the sheet, `width` the other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sheet {
    /// Along the sheet.
    pub length: Length,
    /// Across the sheet.
    pub width: Length,
}

/// The smallest offcut worth keeping, by its two sides in either order.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeastOffcut {
    /// Least short side.
    pub short: Length,
    /// Least long side.
    pub long: Length,
}

/// An offcut kept from earlier work, free to use before any sheet is bought.
#[derive(Clone, Debug, PartialEq)]
pub struct OnHand {
    /// The user's name of it.
    pub name: String,
    /// Its size.
    pub size: Sheet,
}

/// Where a sheet comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SheetSource {
    /// A new sheet from the order.
    Bought,
    /// The offcut on hand of this name.
    OnHand(String),
}

/// One piece of the cut list with its place on the sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct CutPiece {
    /// Number in the cut list, from 1, in the order of cutting.
    pub number: usize,
    /// The run or piece it is for.
    pub mark: String,
    /// Distance of its start along the run; nought for a fixed piece.
    pub at: Length,
    /// Distance of its near corner along the sheet.
    pub x: Length,
    /// Distance of its near corner across the sheet.
    pub y: Length,
    /// Its size along the sheet.
    pub along: Length,
    /// Its size across the sheet.
    pub across: Length,
    /// True when its own length lies across the sheet.
    pub turned: bool,
}

impl CutPiece {
    /// The piece's own length: along the wall it is cut for.
    pub fn length(&self) -> Length {
        if self.turned { self.across } else { self.along }
    }

    /// The piece's own height.
    pub fn height(&self) -> Length {
        if self.turned { self.along } else { self.across }
    }
}

/// A rectangle left over.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Offcut {
    /// Distance of its near corner along the sheet.
    pub x: Length,
    /// Distance of its near corner across the sheet.
    pub y: Length,
    /// Size along the sheet.
    pub along: Length,
    /// Size across the sheet.
    pub across: Length,
    /// Large enough to keep under the rules; else it is waste.
    pub kept: bool,
}

/// One sheet and how it is cut.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetLayout {
    /// From 1, in the order of cutting.
    pub number: usize,
    /// Bought or on hand.
    pub source: SheetSource,
    /// Its size before cutting.
    pub size: Sheet,
    /// What is cut from it.
    pub pieces: Vec<CutPiece>,
    /// What is left of it.
    pub offcuts: Vec<Offcut>,
}

/// Why something is not in the plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum UnplacedReason {
    /// No way round does it fit a sheet.
    #[error("larger than the sheet")]
    LargerThanSheet,
    /// A length is nought, negative or not a number.
    #[error("length or height is not a positive length")]
    NotPositive,
    /// The places where joints are barred leave no allowed piece.
    #[error("no joint is allowed where one is needed")]
    NoPlaceForJoint,
    /// It fits only turned, and the order has too many heights to plan turned strips.
    #[error("fits only across the sheet, and too many heights are ordered together for that")]
    NeedsTurning,
    /// More pieces than one plan takes.
    #[error("more pieces than one plan takes")]
    TooMany,
}

/// A demand, or the rest of one, that the plan leaves out.
#[derive(Clone, Debug, PartialEq)]
pub struct Unplaced {
    /// The run or piece.
    pub mark: String,
    /// Why.
    pub reason: UnplacedReason,
    /// Length of run, or number of pieces times their length, left out.
    pub length: Length,
}

/// What makes any nesting impossible.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum NestError {
    /// The stock has no size.
    #[error("a sheet must have a positive length and width")]
    SheetSize,
    /// A rule is negative or not a number.
    #[error("kerf, least piece, clearance and least offcut must not be negative")]
    Rule,
}

/// A whole nesting.
#[derive(Clone, Debug, PartialEq)]
pub struct CutPlan {
    /// Every sheet in the order of cutting: what is on hand first.
    pub sheets: Vec<SheetLayout>,
    /// New sheets to buy.
    pub bought: usize,
    /// Proven least number of new sheets under the same rules.
    pub bound: usize,
    /// What could not be planned; the plan is incomplete unless empty.
    pub unplaced: Vec<Unplaced>,
}

impl CutPlan {
    /// True when every demand is met.
    pub fn is_complete(&self) -> bool {
        self.unplaced.is_empty()
    }

    /// True when no plan can buy fewer sheets.
    pub fn is_proven_least(&self) -> bool {
        self.bought <= self.bound
    }

    /// How far the plan may be from the best one: (bought - bound) / bound, nought if nothing is bought.
    pub fn gap(&self) -> Ratio {
        let over = self.bought.saturating_sub(self.bound);
        Ratio::new::<ratio>(if over == 0 { 0.0 } else { over as f64 / self.bound.max(1) as f64 })
    }

    /// The cut list: every piece by its number.
    pub fn pieces(&self) -> impl Iterator<Item = (&SheetLayout, &CutPiece)> {
        self.sheets.iter().flat_map(|s| s.pieces.iter().map(move |p| (s, p)))
    }

    /// Area of the pieces.
    pub fn piece_area(&self) -> Area {
        self.pieces().map(|(_, p)| p.along * p.across).fold(Area::new::<square_meter>(0.0), |a, b| a + b)
    }

    /// Area of all sheets cut, on hand and bought.
    pub fn sheet_area(&self) -> Area {
        self.sheets.iter().map(|s| s.size.length * s.size.width).fold(Area::new::<square_meter>(0.0), |a, b| a + b)
    }

    /// Area of the offcuts worth keeping.
    pub fn kept_area(&self) -> Area {
        self.sheets
            .iter()
            .flat_map(|s| &s.offcuts)
            .filter(|o| o.kept)
            .map(|o| o.along * o.across)
            .fold(Area::new::<square_meter>(0.0), |a, b| a + b)
    }

    /// Pieces over sheets, by area; one when nothing is cut.
    pub fn yield_ratio(&self) -> Ratio {
        let sheets = self.sheet_area();
        if sheets > Area::new::<square_meter>(0.0) { self.piece_area() / sheets } else { Ratio::new::<ratio>(1.0) }
    }
}

/// Rules of offcuts in ticks.
#[derive(Clone, Copy, Debug)]
pub(super) struct Keep {
    pub short: Ticks,
    pub long: Ticks,
}

impl Keep {
    pub fn new(least: LeastOffcut) -> Option<Self> {
        let a = grid::not_negative(least.short)?;
        let b = grid::not_negative(least.long)?;
        Some(Self { short: a.min(b), long: a.max(b) })
    }

    pub fn keeps(self, a: Ticks, b: Ticks) -> bool {
        a.min(b) >= self.short.max(1) && a.max(b) >= self.long
    }
}
