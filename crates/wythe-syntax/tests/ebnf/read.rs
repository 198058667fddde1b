//! The grammar file as rules.

use std::collections::BTreeMap;

/// The right side of a rule, or a part of it.
#[derive(Clone, Debug)]
pub enum Part {
    /// A word or a sign as it is written.
    Literal(String),
    /// A class of tokens.
    Class(String),
    /// Another rule.
    Rule(String),
    /// One after the other.
    Sequence(Vec<Part>),
    /// One of them.
    Choice(Vec<Part>),
    /// It or nothing.
    Optional(Box<Part>),
    /// Any number of it.
    Repeated(Box<Part>),
}

/// The rules by name.
pub struct Grammar {
    pub rules: BTreeMap<String, Part>,
}

impl Grammar {
    /// The published grammar.
    pub fn published() -> Grammar {
        Grammar::read(include_str!("../../../../spec/grammar.ebnf"))
    }

    fn read(text: &str) -> Grammar {
        let mut tokens = Vec::new();
        let mut rest = text;
        loop {
            rest = rest.trim_start();
            let Some(first) = rest.chars().next() else { break };
            let length = if rest.starts_with("(*") {
                let end = rest.find("*)").expect("a comment ends") + 2;
                rest = &rest[end..];
                continue;
            } else if first == '"' {
                rest[1..].find('"').expect("a literal ends") + 2
            } else if first.is_alphanumeric() {
                rest.find(|c: char| !c.is_alphanumeric() && c != '_').unwrap_or(rest.len())
            } else {
                1
            };
            tokens.push(&rest[..length]);
            rest = &rest[length..];
        }
        let mut rules = BTreeMap::new();
        let mut at = 0;
        while at < tokens.len() {
            let name = tokens[at].to_owned();
            assert_eq!(tokens[at + 1], "=", "rule {name}");
            at += 2;
            let part = choice(&tokens, &mut at);
            assert_eq!(tokens[at], ";", "rule {name}");
            at += 1;
            assert!(rules.insert(name.clone(), part).is_none(), "rule {name} stands twice");
        }
        let grammar = Grammar { rules };
        grammar.rules.values().for_each(|part| grammar.check(part));
        grammar
    }

    fn check(&self, part: &Part) {
        match part {
            Part::Rule(name) => assert!(self.rules.contains_key(name), "no rule {name}"),
            Part::Sequence(parts) | Part::Choice(parts) => parts.iter().for_each(|p| self.check(p)),
            Part::Optional(part) | Part::Repeated(part) => self.check(part),
            Part::Literal(_) | Part::Class(_) => {}
        }
    }

    /// Every word and sign the grammar writes out.
    pub fn literals(&self) -> Vec<String> {
        fn gather(part: &Part, out: &mut Vec<String>) {
            match part {
                Part::Literal(text) => out.push(text.clone()),
                Part::Sequence(parts) | Part::Choice(parts) => parts.iter().for_each(|p| gather(p, out)),
                Part::Optional(part) | Part::Repeated(part) => gather(part, out),
                Part::Class(_) | Part::Rule(_) => {}
            }
        }
        let mut out = Vec::new();
        self.rules.values().for_each(|part| gather(part, &mut out));
        out.sort();
        out.dedup();
        out
    }
}

fn choice(tokens: &[&str], at: &mut usize) -> Part {
    let mut parts = vec![sequence(tokens, at)];
    while tokens[*at] == "|" {
        *at += 1;
        parts.push(sequence(tokens, at));
    }
    if parts.len() == 1 { parts.remove(0) } else { Part::Choice(parts) }
}

fn sequence(tokens: &[&str], at: &mut usize) -> Part {
    let mut parts = Vec::new();
    while !matches!(tokens[*at], "|" | ";" | ")" | "]" | "}") {
        let token = tokens[*at];
        *at += 1;
        parts.push(match token {
            "(" => closed(tokens, at, ")"),
            "[" => Part::Optional(Box::new(closed(tokens, at, "]"))),
            "{" => Part::Repeated(Box::new(closed(tokens, at, "}"))),
            literal if literal.starts_with('"') => Part::Literal(literal.trim_matches('"').to_owned()),
            class if class.starts_with(|c: char| c.is_ascii_uppercase()) => Part::Class(class.to_owned()),
            rule => Part::Rule(rule.to_owned()),
        });
    }
    if parts.len() == 1 { parts.remove(0) } else { Part::Sequence(parts) }
}

fn closed(tokens: &[&str], at: &mut usize, close: &str) -> Part {
    let part = choice(tokens, at);
    assert_eq!(tokens[*at], close);
    *at += 1;
    part
}
