//! The command as a shell sees it: exit code, standard output and standard error of every subcommand and flag.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod bad_input;
mod baseline;
mod bid;
mod bill;
mod cache;
mod check;
mod ci;
mod climate;
mod explain;
mod faults;
mod fix;
mod flags;
mod format;
mod library;
mod new;
mod paper;
mod plans;
mod results;
mod rules;
mod serve;
mod site;
mod surroundings;
mod test_blocks;
mod tour;
