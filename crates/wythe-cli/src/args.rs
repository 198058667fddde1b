//! The arguments of the command and of each subcommand.

use std::path::PathBuf;

use clap::{Parser, Subcommand, ValueEnum};
use jiff::civil::Date;

/// Checks the plans of closed crawl-space foundations before anything is built.
#[derive(Parser, Debug)]
#[command(
    name = "wythe",
    version,
    arg_required_else_help = true,
    after_help = "Exit codes: 0 clean, 1 findings, 2 wrong usage or input that cannot be read, 101 a fault of Wythe."
)]
pub(crate) struct Args {
    /// When to use color.
    #[arg(long, global = true, value_enum, default_value_t, value_name = "WHEN")]
    pub color: When,
    #[command(subcommand)]
    pub command: Command,
}

#[derive(Subcommand, Debug)]
pub(crate) enum Command {
    Ask(crate::site::answers::Ask),
    Baseline(crate::baseline::BaselineOf),
    Bid(crate::bill::bid::BidOf),
    Change(crate::bill::change::ChangeOf),
    Check(Check),
    Completions(crate::completions::Completions),
    Compare(crate::bill::compare::Compare),
    CutList(crate::bill::cut_list::CutList),
    Doctor(crate::doctor::Doctor),
    Draw(crate::draw::Draw),
    Explain(Explain),
    Export(crate::export::Export),
    Fix(crate::fix::Fix),
    Format(Layout),
    Heat(crate::climate::heat::Heat),
    Library(crate::library::LibraryOf),
    Manual(crate::completions::Manual),
    Moisture(crate::climate::moisture::Moisture),
    New(crate::new::New),
    Order(crate::bill::order::Order),
    Progress(crate::bill::progress::ProgressOf),
    Report(crate::paper::report::ReportOf),
    Results(crate::results::Results),
    Rules(crate::rules::Rules),
    Schedule(crate::bill::schedule::Schedule),
    Serve(crate::serve::Serve),
    Site(crate::paper::site::Site),
    Settings(crate::settings::Settings),
    States(crate::states::States),
    Sheet(crate::site::sheets::SheetOf),
    Takeoff(crate::bill::takeoff::Takeoff),
    Test(crate::test::Test),
    WhatIf(crate::bill::what_if::WhatIf),
    Why(crate::why::Why),
}

/// When to use color.
#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) enum When {
    /// On a terminal, unless NO_COLOR is set.
    #[default]
    Auto,
    /// Always.
    Always,
    /// Never.
    Never,
}

/// The form of the output.
#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) enum Format {
    /// For people.
    #[default]
    Text,
    /// For programs.
    Json,
}

/// What fails a check.
#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) enum FailOn {
    /// Errors.
    #[default]
    Error,
    /// Errors and warnings.
    Warning,
    /// Every finding.
    Information,
    /// No finding.
    Never,
}

/// Check files, folders or repositories.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe check\n  wythe check houses/unit_4.wythe --today 2026-03-14\n  wythe check - --name houses/unit_4.wythe < draft\n  wythe check --format sarif --output findings.sarif --baseline baseline.toml\n  wythe check --changed origin/main --format github\n  wythe check --watch --remarks"
)]
pub(crate) struct Check {
    /// What to check; `-` reads standard input.
    #[arg(default_value = ".", value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// The form of the output; `text`, and in a workflow of GitHub `github`, unless told otherwise.
    #[arg(long, value_enum)]
    pub format: Option<crate::report::ReportFormat>,
    /// The day on which waivers and prices are judged, over the manifest's.
    #[arg(long, value_name = "DATE")]
    pub today: Option<Date>,
    /// Fail on warnings too; short for `--fail-on warning`.
    #[arg(long, conflicts_with = "fail_on")]
    pub warnings_as_errors: bool,
    /// The least severity that fails the check. Input that cannot be read always does.
    #[arg(long, value_enum, default_value_t, value_name = "SEVERITY")]
    pub fail_on: FailOn,
    /// The path that standard input stands for.
    #[arg(long, value_name = "PATH", default_value = "stdin.wythe")]
    pub name: PathBuf,
    /// Pass over the findings this file holds.
    #[arg(long, value_name = "FILE")]
    pub baseline: Option<PathBuf>,
    /// Show only what stands in files that differ from a git revision, or in files that use them.
    #[arg(long, value_name = "REVISION")]
    pub changed: Option<String>,
    /// Draw remarks too, which else are only counted.
    #[arg(long)]
    pub remarks: bool,
    /// Work it out anew, though nothing has changed since the last run.
    #[arg(long)]
    pub no_cache: bool,
    /// Write into this file, as a whole or not at all, and not on standard output.
    #[arg(long, value_name = "FILE", conflicts_with = "watch")]
    pub output: Option<PathBuf>,
    /// Check again whenever a file of the plans is written, until stopped.
    #[arg(long)]
    pub watch: bool,
    /// How many findings to draw; the rest are counted.
    #[arg(long, value_name = "COUNT", default_value_t = 200)]
    pub limit: usize,
    /// How many threads to use; as many as the machine has if nought. The output is the same.
    #[arg(long, value_name = "COUNT", default_value_t = 0)]
    pub threads: usize,
}

/// Say what a code means, what it does on site, and how to mend it.
#[derive(clap::Args, Debug)]
#[command(after_help = "Examples:\n  wythe explain\n  wythe explain W0404\n  wythe explain layer_order")]
pub(crate) struct Explain {
    /// The number or the name of a code; without it, all are listed.
    pub code: Option<String>,
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
}

/// Put files in the one layout of the language.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe format\n  wythe format --check houses\n  wythe format --diff houses/unit_4.wythe\n  wythe format - < draft"
)]
pub(crate) struct Layout {
    /// What to format; `-` reads standard input and writes standard output.
    #[arg(default_value = ".", value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// Write nothing; name the files that would change, and fail if there are any.
    #[arg(long)]
    pub check: bool,
    /// Write nothing; show what would change, and fail if anything would.
    #[arg(long)]
    pub diff: bool,
    /// The form in which the files are named.
    #[arg(long, value_enum, default_value_t, conflicts_with = "diff")]
    pub format: Format,
    /// How many threads to use; as many as the machine has if nought. The output is the same.
    #[arg(long, value_name = "COUNT", default_value_t = 0)]
    pub threads: usize,
}
