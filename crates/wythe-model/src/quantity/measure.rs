//! A measure, and the arithmetic that led to it, kept as terms so that each reader sees its own units.

use uom::si::f64::{Area, Length, Volume};
use wythe_source::Symbol;

/// A measured amount.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Measure {
    /// An area.
    Area(Area),
    /// A length.
    Length(Length),
    /// Pieces.
    Count(u64),
    /// A volume.
    Volume(Volume),
}

impl Measure {
    /// The sum of two of one sort; nothing for unlike sorts.
    pub fn plus(self, other: Measure) -> Option<Measure> {
        match (self, other) {
            (Measure::Area(a), Measure::Area(b)) => Some(Measure::Area(a + b)),
            (Measure::Length(a), Measure::Length(b)) => Some(Measure::Length(a + b)),
            (Measure::Count(a), Measure::Count(b)) => Some(Measure::Count(a.saturating_add(b))),
            (Measure::Volume(a), Measure::Volume(b)) => Some(Measure::Volume(a + b)),
            _ => None,
        }
    }

    /// Whether there is nothing of it; what is no number counts as nothing.
    pub fn is_nothing(self) -> bool {
        let some = match self {
            Measure::Area(a) => a > Area::default(),
            Measure::Length(l) => l > Length::default(),
            Measure::Count(n) => n > 0,
            Measure::Volume(v) => v > Volume::default(),
        };
        !some
    }

    pub(crate) const fn sort(self) -> u8 {
        match self {
            Measure::Area(_) => 0,
            Measure::Length(_) => 1,
            Measure::Count(_) => 2,
            Measure::Volume(_) => 3,
        }
    }
}

/// A term of the arithmetic.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Term {
    /// Plain words.
    Words(&'static str),
    /// A name of the building.
    Name(Symbol),
    /// An amount.
    Amount(Measure),
}

/// How a figure was reached, in words and amounts.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct How {
    /// The terms in reading order.
    pub terms: Vec<Term>,
}

impl How {
    /// Opens with words.
    pub fn say(words: &'static str) -> How {
        How { terms: vec![Term::Words(words)] }
    }

    /// Adds words.
    #[must_use]
    pub fn and(mut self, words: &'static str) -> How {
        self.terms.push(Term::Words(words));
        self
    }

    /// Adds a name.
    #[must_use]
    pub fn name(mut self, name: Symbol) -> How {
        self.terms.push(Term::Name(name));
        self
    }

    /// Adds a length.
    #[must_use]
    pub fn length(mut self, length: Length) -> How {
        self.terms.push(Term::Amount(Measure::Length(length)));
        self
    }

    /// Adds an area.
    #[must_use]
    pub fn area(mut self, area: Area) -> How {
        self.terms.push(Term::Amount(Measure::Area(area)));
        self
    }

    /// Adds a volume.
    #[must_use]
    pub fn volume(mut self, volume: Volume) -> How {
        self.terms.push(Term::Amount(Measure::Volume(volume)));
        self
    }

    /// Adds a number.
    #[must_use]
    pub fn count(mut self, count: u64) -> How {
        self.terms.push(Term::Amount(Measure::Count(count)));
        self
    }

    /// Adds the terms of another.
    #[must_use]
    pub fn then(mut self, mut other: How) -> How {
        self.terms.append(&mut other.terms);
        self
    }

    /// The whole in words, each amount as `show` writes it, terms parted by spaces.
    pub fn words(&self, show: impl Fn(Measure) -> String) -> String {
        let mut out = String::new();
        for term in &self.terms {
            let text = match term {
                Term::Words(words) => (*words).to_owned(),
                Term::Name(name) => name.as_str().to_owned(),
                Term::Amount(amount) => show(*amount),
            };
            if !out.is_empty() && !text.starts_with([',', ';', ')']) && !out.ends_with('(') {
                out.push(' ');
            }
            out.push_str(&text);
        }
        out
    }
}
