//! The subcommands of the bill: one file each, with its arguments. What they share stands in `plans` and `written`.

pub(crate) mod bid;
pub(crate) mod change;
pub(crate) mod compare;
pub(crate) mod cut_list;
pub(crate) mod edits;
pub(crate) mod git;
pub(crate) mod ledgers;
pub(crate) mod order;
pub(crate) mod patterns;
pub(crate) mod plans;
pub(crate) mod progress;
pub(crate) mod schedule;
pub(crate) mod substitute;
pub(crate) mod takeoff;
pub(crate) mod thickness;
pub(crate) mod vary;
pub(crate) mod what_if;
pub(crate) mod worked;
pub(crate) mod written;
