//! A house by numbers: what is bid before it is drawn, with ranges, sums set aside, and what is taken for granted.

use std::sync::Arc;

use jiff::civil::Date;
use rust_decimal::Decimal;
use uom::si::f64::{Area, Length};
use wythe_source::{Span, Symbol};

use crate::{Foundation, Interval};

/// A bid, as it is written.
#[derive(Clone, Debug, PartialEq)]
pub struct BidNumbers {
    /// Its name.
    pub name: Symbol,
    /// Where its name stands.
    pub origin: Span,
    /// Where each figure stands, by its name.
    pub origins: Vec<(Symbol, Span)>,
    /// The drawn house it is built like.
    pub like: Arc<Foundation>,
    /// The outside of all walls together.
    pub perimeter: Interval<Length>,
    /// The crawl floor, inside the walls.
    pub floor: Option<Interval<Area>>,
    /// From the crawl floor to the sill.
    pub height: Option<Interval<Length>>,
    /// Piers.
    pub piers: Interval<u32>,
    /// Access doors.
    pub hatches: Interval<u32>,
    /// Vents to shut.
    pub vents: Interval<u32>,
    /// Rains to dry up after.
    pub rains: Interval<u32>,
    /// Added to goods and labor: 0.15 is 15 %.
    pub markup: Decimal,
    /// Sums set aside.
    pub allowances: Vec<BidAllowance>,
    /// What is not in the bid.
    pub excluded: Vec<Arc<str>>,
    /// What is taken for granted.
    pub assumed: Vec<Arc<str>>,
    /// The last day it holds.
    pub until: Option<Date>,
    /// The house once it is drawn.
    pub drawn: Option<Arc<Foundation>>,
}

/// A sum set aside for what cannot be counted yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BidAllowance {
    /// What it is for.
    pub what: Arc<str>,
    /// How much.
    pub amount: Decimal,
    /// In which currency, by its three letters.
    pub currency: Symbol,
}

impl BidNumbers {
    /// Where a figure stands; the bid's name where it is not written.
    pub fn origin_of(&self, name: &str) -> Span {
        self.origins.iter().find(|(n, _)| n.as_str() == name).map_or(self.origin, |(_, span)| *span)
    }
}
