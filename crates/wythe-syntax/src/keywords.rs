//! The one table of words: what is reserved, what each word opens, and what it means in a line.
//!
//! The lexer, the layout pass, the parser, completion and the editor grammars all read this table.

/// What a word is for.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub enum WordClass {
    /// Reserved; opens a declaration.
    Declaration,
    /// Reserved; opens a statement in a block.
    Statement,
    /// Reserved; stands inside a line.
    Line,
    /// A plain name, except in one place of the grammar.
    Contextual,
    /// A plain name the prelude declares; it may not be declared again at file level.
    Prelude,
    /// A plain name that names a direction a wall runs.
    Wind,
}

impl WordClass {
    /// Whether words of this class can never be names.
    pub const fn is_reserved(self) -> bool {
        matches!(self, WordClass::Declaration | WordClass::Statement | WordClass::Line)
    }
}

/// One word of the language.
#[derive(Clone, Copy, Debug)]
pub struct Word {
    /// As it is written.
    pub text: &'static str,
    /// What it is for.
    pub class: WordClass,
    /// What it means, in one line.
    pub doc: &'static str,
}

macro_rules! words {
    (reserved { $($variant:ident $text:literal $class:ident $doc:literal)* }
     free { $($free:literal $free_class:ident $free_doc:literal)* }) => {
        /// A reserved word.
        #[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
        #[repr(u8)]
        pub enum Keyword {
            $(#[doc = $doc] $variant,)*
        }

        impl Keyword {
            /// Every reserved word, in the order of the reference.
            pub const ALL: &'static [Keyword] = &[$(Keyword::$variant,)*];

            /// As it is written.
            pub const fn text(self) -> &'static str {
                WORDS[self as usize].text
            }

            /// What it is for.
            pub const fn class(self) -> WordClass {
                WORDS[self as usize].class
            }

            /// What it means, in one line.
            pub const fn doc(self) -> &'static str {
                WORDS[self as usize].doc
            }
        }

        /// Every word the language knows: the reserved ones first, in the order of [`Keyword::ALL`].
        pub const WORDS: &[Word] = &[
            $(Word { text: $text, class: WordClass::$class, doc: $doc },)*
            $(Word { text: $free, class: WordClass::$free_class, doc: $free_doc },)*
        ];
    };
}

words! {
    reserved {
        Use "use" Declaration "takes names from another file, or a code pack"
        Let "let" Declaration "gives a value a name"
        Fn "fn" Declaration "declares a function"
        Unit "unit" Declaration "declares a unit, counted or worked out from others"
        Record "record" Declaration "declares a record type"
        Enum "enum" Declaration "declares a type by listing its members"
        Product "product" Declaration "declares a product by its properties"
        Buildup "buildup" Declaration "declares the layers of a surface, in the order they go on"
        Joint "joint" Declaration "declares what is done where two surfaces meet"
        Phase "phase" Declaration "declares a visit in the order of work"
        Site "site" Declaration "declares a place: climate, soil, hazards"
        Foundation "foundation" Declaration "declares a foundation on a site"
        Rule "rule" Declaration "declares something that must hold"
        Amend "amend" Declaration "restates parts of a rule"
        Waiver "waiver" Declaration "sets a rule aside for a reason, until a day"
        Prices "prices" Declaration "declares a table of prices"
        Rates "rates" Declaration "declares how fast a crew works and what it wastes"
        Log "log" Declaration "records what was done on site, day by day"
        Test "test" Declaration "declares what must come out"
        Pub "pub" Declaration "lets other files use the declaration"
        Coat "coat" Statement "brushes, rolls, sprays or trowels a coating on"
        Drain "drain" Statement "lays a drain"
        Fill "fill" Statement "fills with stone or earth"
        Lay "lay" Statement "lays a sheet on the ground"
        Hang "hang" Statement "hangs a sheet on a wall or a pier"
        Set "set" Statement "sets a board, a panel or a piece of equipment"
        Fasten "fasten" Statement "fastens a layer that is in place"
        Cap "cap" Statement "caps an open edge"
        Tape "tape" Statement "tapes an edge, a joint, a head or a cut"
        Seal "seal" Statement "seals with sealant"
        Lap "lap" Statement "laps one layer over another"
        Remove "remove" Statement "takes a layer away again"
        During "during" Statement "says in which phase the layers in its braces go on"
        Wall "wall" Statement "runs a wall on from where the last one ended"
        Step "step" Statement "changes heights from a place along the wall onward"
        Opening "opening" Statement "cuts an opening into a wall"
        Piers "piers" Statement "places a grid of piers"
        Pier "pier" Statement "places one pier"
        Pad "pad" Statement "places one added footing"
        Beam "beam" Statement "runs a dropped beam between two places"
        For "for" Statement "goes through a list, or says what something is for"
        Require "require" Statement "says what must hold"
        Otherwise "otherwise" Statement "says what is told when it does not hold"
        Rate "rate" Statement "says how fast a task goes"
        Waste "waste" Statement "says what share of a class is wasted"
        Entry "entry" Statement "records one day"
        Expect "expect" Statement "says what must come out in a test"
        Give "give" Statement "gives the result of a function"
        Each "each" Line "follows `for`: each of a list"
        In "in" Line "inside; right after a number, `per` or `as` it is the inch"
        Where "where" Line "only those for which it holds; in a parameter, what must hold of it"
        From "from" Line "the one end of an extent"
        To "to" Line "the other end of an extent, or what an edge is joined to"
        Along "along" Line "the line something runs along"
        Over "over" Line "the edge or the layer something goes over"
        Under "under" Line "the edge or the layer something goes under"
        Into "into" Line "what something goes into"
        With "with" Line "what it is fastened with"
        Every "every" Line "the spacing"
        By "by" Line "the overlap, the tail or the pattern"
        Bead "bead" Line "the width of a bead"
        At "at" Line "a place along a wall or in plan"
        On "on" Line "the site a foundation stands on"
        Of "of" Line "the layer an edge belongs to"
        As "as" Line "the name a layer goes by, the unit a value is shown in, or another name for an import"
        Per "per" Line "opens the names below the line of a unit"
        Runs "runs" Line "the direction and length of a wall"
        Between "between" Line "the two surfaces of a joint"
        Within "within" Line "how far an expected value may be off"
        No "no" Line "the finding must not come"
        Finding "finding" Line "a finding by its name"
        X "x" Line "the sign between the figures of a size"
        If "if" Line "opens a choice between two values"
        Then "then" Line "the value if it holds"
        Else "else" Line "the value if it does not hold"
        And "and" Line "both hold"
        Or "or" Line "one of them holds, or both"
        Not "not" Line "does not hold"
        True "true" Line "holds"
        False "false" Line "does not hold"
        None "none" Line "no value"
    }
    free {
        "code" Contextual "after `use`: a code pack by its name"
        "ordered" Contextual "after the name of an enum: its members can be compared"
        "datum" Prelude "the elevation everything of a foundation is measured from"
        "top" Prelude "the elevation of the top of the wall"
        "sill" Prelude "the elevation of the lower edge of an opening"
        "grade" Prelude "the elevation of the earth outside"
        "ground" Prelude "the elevation of the floor of the crawl space"
        "footing" Prelude "the elevation of the top of the footing"
        "structure" Prelude "what the layers of a surface go onto"
        "walls" Prelude "the walls of the foundation at hand"
        "joints" Prelude "the joints of the foundation at hand"
        "data" Prelude "reads a column of figures from a file of the repository"
        "table" Prelude "reads a table from a file of the repository"
        "monthly" Prelude "reads monthly figures from a file of the repository"
        "sum" Prelude "the sum of a list"
        "count" Prelude "how many a list holds"
        "all" Prelude "whether every member of a list is true"
        "any" Prelude "whether a member of a list is true"
        "min" Prelude "the least of a list"
        "max" Prelude "the greatest of a list"
        "north" Wind "runs north"
        "northeast" Wind "runs northeast"
        "east" Wind "runs east"
        "southeast" Wind "runs southeast"
        "south" Wind "runs south"
        "southwest" Wind "runs southwest"
        "west" Wind "runs west"
        "northwest" Wind "runs northwest"
    }
}

const SLOTS: usize = 1024;

/// Open addressing with a hash of three bytes: a name that is no keyword mostly meets an empty slot at once.
static INDEX: [u8; SLOTS] = index();

const fn slot(text: &[u8]) -> usize {
    let length = text.len();
    let (first, last) = (text[0] as usize, text[length - 1] as usize);
    let second = text[if length > 1 { 1 } else { 0 }] as usize;
    (first.wrapping_mul(37) ^ second.wrapping_mul(151) ^ last.wrapping_mul(5) ^ length.wrapping_mul(211)) % SLOTS
}

const fn index() -> [u8; SLOTS] {
    let mut slots = [u8::MAX; SLOTS];
    let mut word = 0;
    while word < Keyword::ALL.len() {
        let mut at = slot(WORDS[word].text.as_bytes());
        while slots[at] != u8::MAX {
            at = (at + 1) % SLOTS;
        }
        slots[at] = word as u8;
        word += 1;
    }
    slots
}

impl Keyword {
    /// The reserved word with this text.
    #[inline]
    pub fn find(text: &str) -> Option<Keyword> {
        if text.is_empty() {
            return None;
        }
        let mut at = slot(text.as_bytes());
        loop {
            let keyword = *Keyword::ALL.get(usize::from(INDEX[at]))?;
            if keyword.text() == text {
                return Some(keyword);
            }
            at = (at + 1) % SLOTS;
        }
    }

    /// Whether a line that starts with it goes on with the line before.
    pub const fn continues(self) -> bool {
        use Keyword::*;
        matches!(
            self,
            And | Or
                | Where
                | From
                | To
                | Along
                | Over
                | Under
                | Into
                | With
                | Every
                | By
                | Bead
                | At
                | As
                | Per
                | Then
                | Else
                | Within
        )
    }

    /// Whether it opens a declaration; in the first column it closes every open brace.
    pub const fn declares(self) -> bool {
        matches!(self.class(), WordClass::Declaration)
    }

    /// Whether a line that starts with it is a new statement, whatever bracket is still open.
    pub const fn starts_statement(self) -> bool {
        matches!(self, Keyword::Let) || (matches!(self.class(), WordClass::Statement) && !matches!(self, Keyword::For))
    }
}

/// Every word of a class, in the order of the table.
pub fn words_of(class: WordClass) -> impl Iterator<Item = &'static Word> {
    WORDS.iter().filter(move |word| word.class == class)
}

#[cfg(test)]
mod tests {
    use super::{Keyword, WORDS};

    #[test]
    fn every_reserved_word_is_found_and_no_other() {
        for (word, &keyword) in WORDS.iter().zip(Keyword::ALL) {
            assert_eq!(Keyword::find(word.text), Some(keyword));
            assert_eq!(Keyword::find(&format!("{}s_", word.text)), None);
        }
        for word in &WORDS[Keyword::ALL.len()..] {
            assert_eq!(Keyword::find(word.text), None, "{} is free", word.text);
            assert!(!word.class.is_reserved());
        }
        assert_eq!(Keyword::find(""), None);
    }

    #[test]
    fn no_word_stands_twice() {
        let mut texts: Vec<_> = WORDS.iter().map(|w| w.text).collect();
        texts.sort_unstable();
        texts.dedup();
        assert_eq!(texts.len(), WORDS.len());
    }
}
