//! Evaluates declarations into values and the building model, with provenance.
//!
//! Imports everything below it: the checked tree of `wythe-sema`, the building of `wythe-model`, the checks of
//! `wythe-check`. It reads no file. Start at [`Evaluator`]; [`lower`] turns blocks into the building.

mod account;
mod evaluator;
mod evidence;
mod expr;
mod frame;
mod judge;
pub mod lower;
mod parts;
mod rules;
mod shared;
mod show;
mod size;
mod tests;
mod value;
mod why;

pub use account::{CaseAccount, RuleAccount, Verdict};
pub use evaluator::{Evaluator, MAX_DEPTH, MAX_STEPS, WeatherSource};
pub use evidence::{Evidence, Seen};
pub use frame::Frame;
pub use judge::{JudgedFoundation, Judgement, Setting, Waiver, judge, rules_for};
pub use parts::films;
pub use rules::{Asking, LeftOut, Rule, RuleCase, RuleOutcome};
pub use shared::Shared;
pub use show::show;
pub use size::{MAX_HELD, MAX_SIZE};
pub use tests::{Findings, TestOutcome};
pub use value::{Element, RecordValue, Value};
pub use why::Derivation;
