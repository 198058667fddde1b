//! Rates of the front end in bytes a second, on generated houses: lex, layout with parse, and format.
//!
//! `cargo bench -p wythe-syntax` prints the median and the rate of each station, on one large text and on
//! a thousand files of a house each.

mod source;

use divan::counter::BytesCount;
use divan::{Bencher, black_box};
use wythe_source::FileId;

fn main() {
    let text = source::lines(LINES);
    let parsed = wythe_syntax::parse(FileId(0), &text);
    assert!(parsed.findings.is_empty(), "the generated houses read without a finding: {:?}", parsed.findings.first());
    println!(
        "{} lines, {} bytes, {} tokens, {} expressions",
        text.lines().count(),
        text.len(),
        parsed.tokens.len(),
        parsed.module.exprs.len()
    );
    divan::main();
}

const LINES: usize = 250_000;

#[divan::bench(sample_count = 20, sample_size = 1)]
fn bytes_alone(bencher: Bencher<'_, '_>) {
    let text = source::lines(LINES);
    bencher.counter(BytesCount::of_str(text.as_str())).bench_local(|| black_box(&text).bytes().fold(0u8, |a, b| a ^ b));
}

#[divan::bench(sample_count = 20, sample_size = 1)]
fn lex(bencher: Bencher<'_, '_>) {
    let text = source::lines(LINES);
    bencher
        .counter(BytesCount::of_str(text.as_str()))
        .bench_local(|| wythe_syntax::tokens(FileId(0), black_box(&text)));
}

#[divan::bench(sample_count = 20, sample_size = 1)]
fn lex_and_layout(bencher: Bencher<'_, '_>) {
    let text = source::lines(LINES);
    bencher
        .counter(BytesCount::of_str(text.as_str()))
        .bench_local(|| wythe_syntax::lay_out(FileId(0), black_box(&text)));
}

#[divan::bench(sample_count = 20, sample_size = 1)]
fn parse(bencher: Bencher<'_, '_>) {
    let text = source::lines(LINES);
    bencher.counter(BytesCount::of_str(text.as_str())).bench_local(|| wythe_syntax::parse(FileId(0), black_box(&text)));
}

#[divan::bench(sample_count = 20, sample_size = 1)]
fn parse_a_thousand_files(bencher: Bencher<'_, '_>) {
    let houses: Vec<String> = (0..1000).map(source::house).collect();
    let bytes: usize = houses.iter().map(String::len).sum();
    bencher.counter(BytesCount::new(bytes)).bench_local(|| {
        houses.iter().map(|h| wythe_syntax::parse(FileId(0), black_box(h)).module.exprs.len()).sum::<usize>()
    });
}

#[divan::bench(sample_count = 10, sample_size = 1)]
fn format(bencher: Bencher<'_, '_>) {
    let text = source::lines(LINES);
    bencher.counter(BytesCount::of_str(text.as_str())).bench_local(|| wythe_syntax::format(black_box(&text)));
}

/// The tree is there already, as in an editor: printing and checking alone.
#[divan::bench(sample_count = 10, sample_size = 1)]
fn format_parsed(bencher: Bencher<'_, '_>) {
    let text = source::lines(LINES);
    let parsed = wythe_syntax::parse(FileId(0), &text);
    bencher
        .counter(BytesCount::of_str(text.as_str()))
        .bench_local(|| wythe_syntax::format_parsed(black_box(&text), black_box(&parsed)));
}
