//! Makes texts: damaged plans, sentences of the grammar with names that mean something, and plain token soup.

use rand::Rng as _;
use rand::seq::IndexedRandom as _;
use rand_chacha::ChaCha8Rng;
use wythe_source::FileId;

use crate::examples;
use crate::generate::Generator;
use crate::read::Grammar;

/// Pieces that sit at the edges of the lexer and of what a figure can hold.
const ODD: [&str; 40] = [
    "\"",
    "'",
    "{",
    "}",
    "(",
    ")",
    "[",
    "]",
    "\n\n",
    ";",
    "//",
    "..",
    "+-",
    "??",
    "-",
    "/ 0",
    "* 1_000_000_000_000",
    "999999999999999999999999999999",
    "0.0000000000000000000000001",
    "1e400",
    "3' 4-1/2\"",
    "R-10",
    "R-0",
    "U-0",
    "°F",
    "½",
    "😀",
    "\u{feff}",
    "\u{202e}",
    "\r",
    "\0",
    "per",
    "x",
    "none",
    "2026-02-31",
    "as",
    "zone_9z",
    "datum",
    "-0'",
    "\"{\"{\"",
];

/// Makes texts from the examples and the grammar.
pub struct Maker {
    plans: Vec<String>,
    /// Every token of the examples, as text.
    tokens: Vec<String>,
    names: Vec<String>,
    grammar: Grammar,
}

impl Maker {
    pub fn new() -> Self {
        let plans = examples::all();
        let mut tokens: Vec<String> = Vec::new();
        for text in &plans {
            tokens.extend(pieces(text).iter().map(|p| (*p).to_owned()));
        }
        tokens.sort();
        tokens.dedup();
        let is_name = |t: &&String| t.starts_with(|c: char| c.is_ascii_lowercase()) && t.len() > 2;
        let names = tokens.iter().filter(is_name).cloned().collect();
        Maker { plans, tokens, names, grammar: Grammar::published() }
    }

    /// One of the examples after some damage.
    pub fn damaged(&self, dice: &mut ChaCha8Rng) -> String {
        let mut text = self.plan(dice).to_owned();
        for _ in 0..dice.random_range(1..=6) {
            text = self.damage(&text, dice);
        }
        text
    }

    fn plan(&self, dice: &mut ChaCha8Rng) -> &str {
        self.plans.choose(dice).map_or("", String::as_str)
    }

    fn odd<'a>(&'a self, dice: &mut ChaCha8Rng) -> &'a str {
        if dice.random_bool(0.5) { ODD.choose(dice).unwrap() } else { self.tokens.choose(dice).unwrap() }
    }

    fn damage(&self, text: &str, dice: &mut ChaCha8Rng) -> String {
        let mut parts: Vec<&str> = pieces(text);
        if parts.is_empty() {
            return self.odd(dice).to_owned();
        }
        let at = dice.random_range(0..parts.len());
        match dice.random_range(0..9) {
            0 => drop(parts.remove(at)),
            1 => parts.insert(at, self.odd(dice)),
            2 => parts[at] = self.odd(dice),
            3 => {
                let other = dice.random_range(0..parts.len());
                parts.swap(at, other);
            }
            // A run of tokens twice, or gone.
            4 => {
                let end = (at + dice.random_range(1..40)).min(parts.len());
                let copy: Vec<&str> = parts[at..end].to_vec();
                parts.splice(at..at, copy);
            }
            5 => drop(parts.drain(at..(at + dice.random_range(1..40)).min(parts.len()))),
            // The rest of another plan.
            6 => {
                let other = pieces(self.plan(dice));
                parts.truncate(at);
                let from = if other.is_empty() { 0 } else { dice.random_range(0..other.len()) };
                parts.extend(&other[from..]);
            }
            // A figure made another.
            7 => {
                let figures: Vec<usize> =
                    (0..parts.len()).filter(|&i| parts[i].starts_with(|c: char| c.is_ascii_digit())).collect();
                if let Some(&figure) = figures.choose(dice) {
                    parts[figure] =
                        ["0", "0'", "-1'", "1/0", "1_000_000'", "0.001\"", "400 x 400", "1e9", "99999999999 mile"]
                            .choose(dice)
                            .unwrap();
                }
            }
            // A character out of the middle of a token.
            _ => {
                let mut chars: Vec<char> = text.chars().collect();
                chars.remove(dice.random_range(0..chars.len()));
                return chars.into_iter().collect();
            }
        }
        parts.concat()
    }

    /// Sentences of the grammar after a plan whose names they may use.
    pub fn sentences(&self, dice: &mut ChaCha8Rng) -> String {
        let made = Generator::new(&self.grammar, dice.random()).file();
        let mut out = if dice.random_bool(0.5) { self.plan(dice).to_owned() } else { String::new() };
        out.push('\n');
        for piece in pieces(&made) {
            let plain = piece.starts_with(|c: char| c.is_ascii_lowercase()) && dice.random_bool(0.3);
            let stand_in = ["datum", "gap", "wall_liner", "north", "ordered", "_a1", "perm_in"].contains(&piece);
            out.push_str(if plain && stand_in { self.names.choose(dice).unwrap() } else { piece });
        }
        out
    }

    /// Tokens in no order at all.
    pub fn soup(&self, dice: &mut ChaCha8Rng) -> String {
        let mut out = String::new();
        for _ in 0..dice.random_range(1..200) {
            out.push_str(self.odd(dice));
            out.push_str([" ", " ", " ", "\n", ""].choose(dice).unwrap());
        }
        out
    }
}

/// The tokens of a text and what stands between them, in order; together they are the text.
fn pieces(text: &str) -> Vec<&str> {
    let mut out = Vec::new();
    let mut at = 0;
    for token in wythe_syntax::tokens(FileId(1), text).tokens {
        let range = token.span(FileId(1)).range();
        if range.start < at || range.is_empty() {
            continue;
        }
        out.extend([&text[at..range.start], &text[range.clone()]].into_iter().filter(|t| !t.is_empty()));
        at = range.end;
    }
    out.extend(Some(&text[at..]).filter(|t| !t.is_empty()));
    out
}
