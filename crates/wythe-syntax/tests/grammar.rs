//! The published grammar and the parser take the same texts.

mod ebnf;
mod shape;

use ebnf::{Generator, Grammar, accepts};
use wythe_source::FileId;
use wythe_syntax::keywords::{Keyword, WORDS, WordClass};
use wythe_syntax::{Token, format, parse, tokens};

fn parses(text: &str) -> bool {
    parse(FileId(0), text).findings.is_empty()
}

#[test]
fn every_reserved_word_stands_in_the_grammar_and_every_word_of_it_in_the_table() {
    let literals = Grammar::published().literals();
    for keyword in Keyword::ALL {
        assert!(literals.iter().any(|l| l == keyword.text()), "`{}` is in no rule", keyword.text());
    }
    for word in literals.iter().filter(|l| l.starts_with(|c: char| c.is_ascii_alphabetic())) {
        let known = WORDS.iter().find(|w| w.text == word);
        assert!(
            known.is_some_and(|w| w.class.is_reserved() || w.class == WordClass::Contextual),
            "`{word}` is not in the table of words"
        );
    }
}

#[test]
fn sentences_of_the_grammar_are_parsed() {
    let grammar = Grammar::published();
    let mut tokens_seen = 0;
    for seed in 0..600 {
        let text = Generator::new(&grammar, seed).file();
        let parsed = parse(FileId(0), &text);
        assert!(parsed.findings.is_empty(), "seed {seed}: {text}\n{:#?}", parsed.findings.first());
        assert!(accepts(&grammar, &text), "seed {seed}: {text}");
        let printed = format(&text);
        assert_eq!(format(&printed), printed, "seed {seed}: {text}");
        assert_eq!(shape::shape(&text).len(), shape::shape(&printed).len(), "seed {seed}: {text}\n{printed}");
        tokens_seen += parsed.tokens.len();
    }
    assert!(tokens_seen > 20_000, "the generator makes next to nothing: {tokens_seen}");
}

#[test]
fn good_and_bad_files_get_the_same_answer_from_both() {
    let grammar = Grammar::published();
    for (name, text) in shape::good_files() {
        assert!(accepts(&grammar, &text), "{name}");
        assert!(parses(&text), "{name}");
    }
}

/// One declaration of an example with one or two tokens taken out, doubled, swapped or replaced.
fn mutated(text: &str, all: &[Token], random: &mut impl FnMut(usize) -> usize) -> String {
    let first = random(all.len());
    let count = 1 + random(60.min(all.len() - first));
    let mut pieces: Vec<&str> = Vec::new();
    let head = ["pub ", "", "", "phase p { ", "let a = ", "foundation f on s { "][random(6)];
    pieces.push(head);
    let mut end = all[first].start as usize;
    for token in &all[first..first + count] {
        pieces.push(&text[end..token.start as usize]);
        pieces.push(token.text(text));
        end = token.end as usize;
    }
    let change = random(pieces.len());
    match random(6) {
        0 => {
            pieces.remove(change);
        }
        1 => pieces.insert(change, pieces[change]),
        2 => {
            let other = random(pieces.len());
            pieces.swap(change, other);
        }
        3 => {
            let other = all[random(all.len())].text(text);
            pieces.insert(change, " ");
            pieces.insert(change, other);
            pieces.insert(change, " ");
        }
        4 => pieces[change] = " ",
        _ => {}
    }
    if head.ends_with("{ ") {
        pieces.push(" }");
    }
    pieces.concat()
}

#[test]
fn mutated_examples_get_the_same_answer_from_both() {
    let grammar = Grammar::published();
    let mut state = 0x5eed_u64;
    let mut random = |bound: usize| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as usize % bound.max(1)
    };
    let mut answers = [0, 0];
    for (_, text) in shape::good_files() {
        let all = tokens(FileId(0), &text).tokens;
        for _ in 0..2500 {
            let text = mutated(&text, &all, &mut random);
            let (parser, grammar) = (parses(&text), accepts(&grammar, &text));
            assert_eq!(
                parser,
                grammar,
                "the parser says {parser}, the grammar {grammar}:\n{text}\n{:#?}",
                parse(FileId(0), &text).findings
            );
            answers[usize::from(parser)] += 1;
        }
    }
    assert!(answers[0] > 1000 && answers[1] > 300, "the mutations are one-sided: {answers:?}");
}
