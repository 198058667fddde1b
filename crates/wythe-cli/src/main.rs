//! The `wythe` command. Reads its arguments and hands over to one file a subcommand; holds no knowledge of its own.

mod args;
mod baseline;
mod bill;
mod cache;
mod changed;
mod check;
mod climate;
mod completions;
mod doctor;
mod draw;
mod exit;
mod explain;
mod export;
mod fix;
mod format;
mod library;
mod new;
mod output;
mod paper;
mod piped;
mod replace;
mod report;
mod repository;
mod results;
mod rules;
mod serve;
mod settings;
mod site;
mod states;
mod test;
mod watch;
mod why;

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::process::ExitCode;

use clap::Parser as _;

use args::{Args, Command};
use exit::Exit;

/// A check makes and drops many small things on several threads.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    let args = Args::parse();
    // A breakdown is told in our own words below; who looks for its cause asks for the system's.
    if std::env::var_os("WYTHE_BACKTRACE").is_none() {
        std::panic::set_hook(Box::new(|_| {}));
    }
    let done = catch_unwind(AssertUnwindSafe(|| match &args.command {
        Command::Baseline(baseline) => baseline::run(baseline),
        Command::Fix(fix) => fix::run(fix),
        Command::New(new) => new::run(new),
        Command::Test(test) => test::run(test, args.color),
        Command::Bid(bid) => bill::bid::run(bid, args.color),
        Command::Change(change) => bill::change::run(change, args.color),
        Command::Check(check) => check::run(check, args.color),
        Command::Completions(completions) => completions::completions(completions),
        Command::Compare(compare) => bill::compare::run(compare, args.color),
        Command::CutList(list) => bill::cut_list::run(list, args.color),
        Command::Doctor(doctor) => doctor::run(doctor),
        Command::Heat(heat) => climate::heat::run(heat, args.color),
        Command::Manual(manual) => completions::manual(manual),
        Command::Moisture(moisture) => climate::moisture::run(moisture, args.color),
        Command::Library(library) => library::run(library, args.color),
        Command::Order(order) => bill::order::run(order, args.color),
        Command::Progress(progress) => bill::progress::run(progress, args.color),
        Command::Report(report) => paper::report::run(report),
        Command::Site(site) => paper::site::run(site),
        Command::Results(asked) => results::run(asked, args.color),
        Command::Rules(rules) => rules::run(rules, args.color),
        Command::States(states) => states::run(states, args.color),
        Command::Schedule(schedule) => bill::schedule::run(schedule, args.color),
        Command::Takeoff(takeoff) => bill::takeoff::run(takeoff, args.color),
        Command::Why(why) => why::run(why, args.color),
        Command::WhatIf(what_if) => bill::what_if::run(what_if, args.color),
        Command::Draw(draw) => draw::run(draw),
        Command::Ask(ask) => site::answers::run(ask),
        Command::Export(export) => export::run(export),
        Command::Sheet(sheet) => site::sheets::run(sheet),
        Command::Explain(explain) => explain::run(explain),
        Command::Format(layout) => format::run(layout),
        Command::Settings(settings) => settings::run(settings),
        Command::Serve(serve) => serve::run(serve),
    }));
    match done {
        Ok(Ok(exit)) => exit.into(),
        // Who closes the pipe has seen enough.
        Ok(Err(error)) if error.kind() == std::io::ErrorKind::BrokenPipe => ExitCode::SUCCESS,
        Ok(Err(error)) => {
            output::complain(&error);
            Exit::Unusable.into()
        }
        Err(_) => {
            output::complain(&"broke down; this is a fault of Wythe. WYTHE_BACKTRACE=1 shows where.");
            Exit::Broken.into()
        }
    }
}
