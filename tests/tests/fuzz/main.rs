//! Damaged, random and hostile texts through every station from lexer to judgement, and through the data readers.
//!
//! Each text comes from a seed, and a failure names it. `FUZZ_FROM` and `FUZZ_COUNT` choose the seeds of a longer run.
//! What once broke something is kept under `tests/fuzz/corpus` and run every time.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod data;
mod examples;
#[path = "../../../crates/wythe-syntax/tests/ebnf/generate.rs"]
mod generate;
mod mutate;
mod pipeline;
#[path = "../../../crates/wythe-syntax/tests/ebnf/read.rs"]
#[allow(dead_code, reason = "the tests of the parser ask the grammar more than these do")]
mod read;

use std::ops::Range;

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng as _;

use mutate::Maker;
use pipeline::Pipeline;

/// The seeds of a run, `usual` of them unless told otherwise.
fn seeds(usual: u64) -> Range<u64> {
    let number = |name: &str| std::env::var(name).ok().and_then(|text| text.parse::<u64>().ok());
    let from = number("FUZZ_FROM").unwrap_or(0);
    from..from + number("FUZZ_COUNT").unwrap_or(usual)
}

/// Runs a body over seeds and gathers what went wrong; a dozen failures are enough to look at.
fn over(usual: u64, mut body: impl FnMut(&mut ChaCha8Rng) -> Result<(), String> + Send) {
    // The threads of the command: their stacks hold the deepest expression the limits allow.
    let failures = wythe_project::run(1, || failures(usual, &mut body));
    assert!(failures.is_empty(), "{}", failures.join("\n\n"));
}

fn failures(usual: u64, body: &mut dyn FnMut(&mut ChaCha8Rng) -> Result<(), String>) -> Vec<String> {
    let mut failures = Vec::new();
    for seed in seeds(usual) {
        // An abort cannot be caught: with `--nocapture`, the last seed named is the one that brought it on.
        println!("seed {seed}");
        if let Err(why) = body(&mut ChaCha8Rng::seed_from_u64(seed)) {
            failures.push(format!("seed {seed}: {why}"));
        }
        if failures.len() >= 12 {
            break;
        }
    }
    failures
}

#[test]
fn damaged_plans_never_break_the_pipeline() {
    let maker = Maker::new();
    let mut pipeline = Pipeline::new();
    over(120, |dice| pipeline.run(&maker.damaged(dice)));
}

#[test]
fn sentences_of_the_grammar_never_break_the_pipeline() {
    let maker = Maker::new();
    let mut pipeline = Pipeline::new();
    over(60, |dice| pipeline.run(&maker.sentences(dice)));
}

#[test]
fn token_soup_never_breaks_the_pipeline() {
    let maker = Maker::new();
    let mut pipeline = Pipeline::new();
    over(80, |dice| pipeline.run(&maker.soup(dice)));
}

#[test]
fn many_edits_give_what_the_last_text_gives() {
    let maker = Maker::new();
    let mut edited = Pipeline::new();
    over(12, |dice| {
        let text = maker.damaged(dice);
        edited.run(&text)?;
        let mut cold = Pipeline::new();
        cold.run(&text)?;
        if edited.shown() == cold.shown() {
            Ok(())
        } else {
            Err(format!("the findings hang on what came before\n{text}"))
        }
    });
}

#[test]
fn data_files_never_break_their_readers() {
    over(400, data::run);
}

#[test]
fn settings_files_never_break_their_readers() {
    over(200, data::settings);
}

#[test]
fn what_once_broke_something_does_so_no_more() {
    let mut pipeline = Pipeline::new();
    for (name, text) in examples::corpus() {
        pipeline.run(&text).unwrap_or_else(|why| panic!("{name}: {why}"));
    }
}
