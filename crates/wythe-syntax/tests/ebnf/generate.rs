//! Random sentences of the grammar, as text.

use super::read::{Grammar, Part};

/// Makes sentences; the same seed makes the same ones.
pub struct Generator<'g> {
    grammar: &'g Grammar,
    state: u64,
    out: String,
    in_text: bool,
    depth: usize,
    /// Where the line at hand starts.
    line: usize,
}

impl<'g> Generator<'g> {
    pub fn new(grammar: &'g Grammar, seed: u64) -> Self {
        Generator {
            grammar,
            state: seed.wrapping_mul(2).wrapping_add(1),
            out: String::new(),
            in_text: false,
            depth: 0,
            line: 0,
        }
    }

    /// A file of some `use` lines and some declarations.
    pub fn file(mut self) -> String {
        for rule in ["use", "decl"] {
            for _ in 0..self.below(4) {
                self.line = self.out.len();
                self.rule(rule);
                self.out.push('\n');
            }
        }
        self.out
    }

    fn below(&mut self, bound: usize) -> usize {
        self.state = self.state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.state >> 33) as usize % bound.max(1)
    }

    fn rule(&mut self, name: &str) {
        // No text stands inside the braces of a text: the lexer says so, not the grammar.
        if name == "text" && self.in_text {
            return self.class("NAME");
        }
        // Deep down only the short ways out are taken.
        if name == "expr" && (self.depth > 45 || self.out.len() > self.line + 1500) {
            return self.class("NAME");
        }
        self.depth += 1;
        let part = &self.grammar.rules[name];
        self.part(part);
        self.depth -= 1;
    }

    fn part(&mut self, part: &'g Part) {
        match part {
            Part::Literal(text) => self.write(text),
            Part::Class(class) => self.class(class),
            Part::Rule(name) => self.rule(name),
            Part::Sequence(parts) => parts.iter().for_each(|p| self.part(p)),
            Part::Choice(parts) => {
                // A choice between values nests without end: it is taken now and then.
                let chain = matches!(parts.last(), Some(Part::Rule(rule)) if rule == "or");
                let pick = if chain && self.below(8) > 0 { parts.len() - 1 } else { self.below(parts.len()) };
                self.part(&parts[pick]);
            }
            Part::Optional(part) => {
                if self.more() {
                    self.part(part);
                }
            }
            Part::Repeated(part) => {
                for _ in 0..3 {
                    if self.more() {
                        self.part(part);
                    }
                }
            }
        }
    }

    fn more(&mut self) -> bool {
        let bound = 2 + self.depth / 8;
        self.out.len() < self.line + 1500 && self.below(bound) == 0
    }

    fn write(&mut self, text: &str) {
        self.out.push_str(text);
        self.out.push(' ');
    }

    fn class(&mut self, class: &str) {
        const NAMES: [&str; 8] = ["datum", "gap", "wall_liner", "north", "code", "ordered", "_a1", "perm_in"];
        const TYPES: [&str; 4] = ["Length", "D", "Board", "R2"];
        const NUMBERS: [&str; 4] = ["12", "0.5", "1_000", "7"];
        const LENGTHS: [&str; 6] = ["3'", "3' 4\"", "4-1/2\"", "5/8\"", "12' 0-1/2\"", "1.5\""];
        const RVALUES: [&str; 3] = ["R-10", "RSI-1.76", "U-0.06"];
        const UNITS: [&str; 3] = ["°F", "°C", "%"];
        let pick = |list: &[&'static str], at: usize| list[at % list.len()];
        let at = self.below(1000);
        let text = match class {
            "NAME" => pick(&NAMES, at),
            "TYPE" => pick(&TYPES, at),
            "NUMBER" => pick(&NUMBERS, at),
            // A mark of inches would close the text.
            "LENGTH" if self.in_text => "3'",
            "LENGTH" => pick(&LENGTHS, at),
            "RVALUE" => pick(&RVALUES, at),
            "DATE" => "2026-03-09",
            "LUMBER" => "2x8",
            "UNIT" => pick(&UNITS, at),
            "TEXT" => pick(&["\"\"", "\"leave 3\\\" clear\"", "\"½ \\{ } \\n\""], at),
            "TEXT_HEAD" => {
                self.in_text = true;
                "\"is {"
            }
            "TEXT_MID" => "} and {",
            "TEXT_TAIL" => {
                self.in_text = false;
                "} long\""
            }
            "NL" => pick(&["\n ", "; ", "\n\n ", " // why\n "], at),
            other => panic!("the grammar names a class of tokens that is not known: {other}"),
        };
        self.write(text);
    }
}
