//! The subcommands of the bill: one file each, with its arguments. What they share stands in `plans` and `written`.

pub(crate) mod cut_list;
pub(crate) mod ledgers;
pub(crate) mod order;
pub(crate) mod plans;
pub(crate) mod schedule;
pub(crate) mod takeoff;
pub(crate) mod written;
