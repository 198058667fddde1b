//! The command as a shell sees it: exit code, standard output and standard error of every subcommand and flag.

mod bad_input;
mod check;
mod explain;
mod flags;
mod format;
mod plans;
