//! The ledgers beside a building: price lists, what a crew gets done, and the log of the work. Plain values; money
//! and shares are exact decimals.

use std::sync::Arc;

use jiff::civil::Date;
use rust_decimal::Decimal;
use uom::si::f64::{Length, Ratio, Time};
use wythe_source::{Span, Symbol};

use crate::Class;
use crate::quantity::Measure;

/// A price list, as it is declared; its figures stand in a file.
#[derive(Clone, Debug, PartialEq)]
pub struct PriceSheet {
    /// Its name.
    pub name: Symbol,
    /// Where its name stands.
    pub origin: Span,
    /// The file, relative to the declaring one.
    pub file: Arc<str>,
    /// Where the file is named.
    pub file_origin: Span,
    /// The currency of its figures, by its three letters.
    pub currency: Symbol,
    /// The day it was made.
    pub dated: Option<Date>,
    /// The last day it holds.
    pub until: Option<Date>,
    /// Where that is said.
    pub until_origin: Option<Span>,
    /// Sales tax: 0.065 is 6.5 %.
    pub tax: Decimal,
}

/// What a crew gets done and what its time costs.
#[derive(Clone, Debug, PartialEq)]
pub struct CrewRates {
    /// Its name.
    pub name: Symbol,
    /// Where its name stands.
    pub origin: Span,
    /// How many people.
    pub people: u32,
    /// The length of a working day.
    pub day: Time,
    /// Setting up, each visit.
    pub set_up: Time,
    /// Clearing away, each visit.
    pub tear_down: Time,
    /// There and back, each day.
    pub travel: Time,
    /// The least time charged for a visit.
    pub minimum: Time,
    /// Mopping up and drying after a rain.
    pub drying: Time,
    /// What an hour of one person costs, and in which currency.
    pub hourly: Option<(Decimal, Symbol)>,
    /// Below this headroom work is slower by the factor.
    pub low_headroom: Option<(Length, Ratio)>,
    /// Working days from the end of the work until an inspection.
    pub inspection_days: u32,
    /// Production.
    pub rates: Vec<ProductionRate>,
    /// Allowances for waste.
    pub waste: Vec<WasteShare>,
    /// The smallest offcut kept.
    pub offcut_least: Option<(Length, Length)>,
}

/// What the whole crew does of one work in an hour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ProductionRate {
    /// The verb.
    pub verb: Symbol,
    /// The class it holds for; all if none is named.
    pub class: Option<Class>,
    /// Done in an hour.
    pub per_hour: Measure,
    /// Where it stands.
    pub origin: Span,
}

/// An allowance for waste.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WasteShare {
    /// The class it holds for.
    pub class: Class,
    /// Of the net quantity: 0.08 is 8 %.
    pub share: Ratio,
    /// Where it stands.
    pub origin: Span,
}

/// A log of the work on one foundation.
#[derive(Clone, Debug, PartialEq)]
pub struct WorkLog {
    /// Its name.
    pub name: Symbol,
    /// Where its name stands.
    pub origin: Span,
    /// Where the name of its foundation stands in the foundation's declaration.
    pub foundation: Span,
    /// The foundation's name.
    pub foundation_name: Symbol,
    /// The entries, in the order written.
    pub entries: Vec<LogEntry>,
}

/// How an inspection went.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum HoldResult {
    /// Not seen yet.
    Waiting,
    /// Seen and found good.
    Passed,
    /// Seen and found wanting.
    Failed,
}

/// One day in a log.
#[derive(Clone, Debug, PartialEq)]
pub struct LogEntry {
    /// The day.
    pub date: Date,
    /// The whole statement.
    pub origin: Span,
    /// Phases finished.
    pub done: Vec<Symbol>,
    /// The phase worked at.
    pub visit: Option<Symbol>,
    /// Walls worked at.
    pub walls: Vec<Symbol>,
    /// Piers worked at.
    pub piers: Vec<Symbol>,
    /// Openings worked at.
    pub openings: Vec<Symbol>,
    /// The share of the crawl floor worked at, since the entry before: 0.33 is a third.
    pub ground: Option<Ratio>,
    /// The layers put in place; all of the phase if none is named.
    pub layers: Vec<Symbol>,
    /// How much of each wall named was done; the whole unless said.
    pub share: Ratio,
    /// Who did it.
    pub by: Option<Arc<str>>,
    /// How many people.
    pub crew: Option<u32>,
    /// The hours worked, of all people together.
    pub hours: Option<Time>,
    /// Photographs, by number.
    pub photos: Vec<Arc<str>>,
    /// The inspection.
    pub hold: Option<HoldResult>,
    /// Whether it rained.
    pub rain: bool,
}
