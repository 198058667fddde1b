//! Whether the grammar takes a text: every way through it is followed at once, so nothing depends on order.

use std::collections::{BTreeSet, HashMap};

use wythe_source::FileId;
use wythe_syntax::{Kind, lay_out};

use super::read::{Grammar, Part};

/// Whether the grammar takes the text. Faults of the lexer and the layout pass refuse it before.
pub fn accepts(grammar: &Grammar, text: &str) -> bool {
    let laid = lay_out(FileId(0), text);
    if !laid.findings.is_empty() {
        return false;
    }
    // One declaration is followed at a time: the rule `file` says that the `use` lines come first.
    let mut declared = false;
    laid.chunks.iter().all(|chunk| {
        let tokens: Vec<(Kind, &str)> = chunk.iter().map(|t| (t.kind, t.text(text))).collect();
        let is_use = tokens.first().is_some_and(|t| t.1 == "use");
        if is_use && declared {
            return false;
        }
        declared |= !is_use;
        let mut walk = Walk { grammar, tokens: &tokens, known: HashMap::new() };
        walk.rule(if is_use { "use" } else { "decl" }, 0).contains(&tokens.len())
    })
}

struct Walk<'a> {
    grammar: &'a Grammar,
    tokens: &'a [(Kind, &'a str)],
    known: HashMap<(String, usize), BTreeSet<usize>>,
}

impl Walk<'_> {
    fn rule(&mut self, name: &str, at: usize) -> BTreeSet<usize> {
        if let Some(ends) = self.known.get(&(name.to_owned(), at)) {
            return ends.clone();
        }
        let part = &self.grammar.rules[name];
        let ends = self.part(part, at);
        self.known.insert((name.to_owned(), at), ends.clone());
        ends
    }

    fn part(&mut self, part: &Part, at: usize) -> BTreeSet<usize> {
        match part {
            Part::Literal(text) => self.token(at, |kind, found| {
                found == text && !matches!(kind, Kind::Text | Kind::TextHead | Kind::TextMid | Kind::TextTail)
            }),
            Part::Class(class) => self.token(at, |kind, _| is_of(kind, class)),
            Part::Rule(name) => self.rule(name, at),
            Part::Sequence(parts) => parts
                .iter()
                .fold(BTreeSet::from([at]), |ends, part| ends.into_iter().flat_map(|at| self.part(part, at)).collect()),
            Part::Choice(parts) => parts.iter().flat_map(|part| self.part(part, at)).collect(),
            Part::Optional(part) => self.part(part, at).into_iter().chain([at]).collect(),
            Part::Repeated(part) => {
                let mut ends = BTreeSet::from([at]);
                let mut fresh = vec![at];
                while let Some(at) = fresh.pop() {
                    fresh.extend(self.part(part, at).into_iter().filter(|&end| ends.insert(end)));
                }
                ends
            }
        }
    }

    fn token(&self, at: usize, fits: impl Fn(Kind, &str) -> bool) -> BTreeSet<usize> {
        self.tokens.get(at).filter(|t| fits(t.0, t.1)).map(|_| at + 1).into_iter().collect()
    }
}

fn is_of(kind: Kind, class: &str) -> bool {
    match class {
        "NAME" => kind == Kind::Name,
        "TYPE" => kind == Kind::Type,
        "NUMBER" => kind == Kind::Number,
        "LENGTH" => kind == Kind::Length,
        "RVALUE" => kind == Kind::RValue,
        "DATE" => kind == Kind::Date,
        "LUMBER" => kind == Kind::Lumber,
        "UNIT" => kind == Kind::UnitSign,
        "TEXT" => kind == Kind::Text,
        "TEXT_HEAD" => kind == Kind::TextHead,
        "TEXT_MID" => kind == Kind::TextMid,
        "TEXT_TAIL" => kind == Kind::TextTail,
        "NL" => kind == Kind::End,
        other => panic!("the grammar names a class of tokens that is not known: {other}"),
    }
}
