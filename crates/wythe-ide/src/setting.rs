//! What sort of block a cursor stands in, read from the words that open each brace.

use wythe_model::SurfaceKind;
use wythe_sema::{DefId, Program, Signature, Type};
use wythe_source::Symbol;
use wythe_syntax::keywords::Keyword;
use wythe_syntax::{Kind, Token};

use crate::cursor::Cursor;
use crate::scope;

/// A sort of block.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Setting {
    /// No block: the file itself.
    File,
    /// Properties of a record of the prelude, and statements of its own.
    Record(DefId),
    /// The faces of a build-up.
    Faces(SurfaceKind),
    /// Layers, and `during` around them.
    Face,
    /// Layers of one phase.
    During,
    /// A test.
    Test,
    /// The value of a function.
    Function,
    /// Fields of a record, members of an enumeration: names that are new.
    New,
}

/// The sort of block a cursor stands in.
pub(crate) fn setting(program: &Program, cursor: &Cursor<'_>) -> Setting {
    let mut now = Setting::File;
    for open in &cursor.opens {
        if cursor.tokens[open.at].kind == Kind::BraceOpen {
            now = inside(program, cursor, &cursor.tokens[open.head..open.at], now);
        }
    }
    now
}

fn inside(program: &Program, cursor: &Cursor<'_>, head: &[Token], outer: Setting) -> Setting {
    let record = |name: &str| program.prelude.def(name).map_or(Setting::New, Setting::Record);
    let mut words = head.iter().skip_while(|t| t.kind == Kind::Word(Keyword::Pub));
    let Some(first) = words.next() else { return Setting::New };
    match first.kind {
        Kind::Word(keyword) => match keyword {
            Keyword::Product => {
                let class = head.iter().find(|t| t.kind == Kind::Type);
                class.map_or(Setting::New, |c| record(cursor.text_of(c)))
            }
            Keyword::Buildup => kind_of(cursor, head).map_or(Setting::New, Setting::Faces),
            Keyword::Joint => Setting::Face,
            Keyword::During => Setting::During,
            Keyword::Phase => record("PhaseBlock"),
            Keyword::Site => record("Site"),
            Keyword::Foundation => record("FoundationBlock"),
            Keyword::Rule | Keyword::Amend => record("RuleBlock"),
            Keyword::Waiver => record("WaiverBlock"),
            Keyword::Prices => record("PricesBlock"),
            Keyword::Rates => record("RatesBlock"),
            Keyword::Log => record("LogBlock"),
            Keyword::Entry => record("EntryBlock"),
            Keyword::Wall => record("WallBlock"),
            Keyword::Step => record("StepBlock"),
            Keyword::Opening => record("OpeningBlock"),
            Keyword::Piers => record("PiersBlock"),
            Keyword::Pier => record("PierBlock"),
            Keyword::Pad => record("PadBlock"),
            Keyword::Beam => record("BeamBlock"),
            Keyword::Test => Setting::Test,
            Keyword::Fn => Setting::Function,
            _ => Setting::New,
        },
        Kind::Name => match outer {
            Setting::Faces(_) => Setting::Face,
            Setting::Record(def) => section(program, def, Symbol::new(cursor.text_of(first))),
            _ => Setting::New,
        },
        _ => Setting::New,
    }
}

/// The word after `for` in the head of a build-up.
fn kind_of(cursor: &Cursor<'_>, head: &[Token]) -> Option<SurfaceKind> {
    let at = head.iter().rposition(|t| t.kind == Kind::Word(Keyword::For))?;
    let word = cursor.text_of(head.get(at + 1)?);
    SurfaceKind::of_word(word)
}

fn section(program: &Program, def: DefId, name: Symbol) -> Setting {
    let field = scope::signature(program, def).and_then(|s| s.field(name));
    match field.map(|(_, f)| f.ty.required().clone()) {
        Some(Type::Record(inner)) => Setting::Record(inner),
        _ => Setting::New,
    }
}

/// The words that open a statement in a block.
pub(crate) fn statements(program: &Program, setting: Setting) -> &'static [Keyword] {
    use Keyword as K;
    const VERBS: &[Keyword] =
        &[K::Coat, K::Drain, K::Fill, K::Lay, K::Hang, K::Set, K::Fasten, K::Cap, K::Tape, K::Seal, K::Lap, K::Remove];
    const FACE: &[Keyword] = &[
        K::During,
        K::Coat,
        K::Drain,
        K::Fill,
        K::Lay,
        K::Hang,
        K::Set,
        K::Fasten,
        K::Cap,
        K::Tape,
        K::Seal,
        K::Lap,
        K::Remove,
    ];
    match setting {
        Setting::Face => FACE,
        Setting::During => VERBS,
        Setting::Test => &[K::Expect, K::Let],
        Setting::Function => &[K::Let, K::Give],
        Setting::Record(def) => match program.name_of(def).as_str() {
            "FoundationBlock" => &[K::Opening, K::Piers, K::Pier, K::Pad, K::Beam],
            "WallsBlock" => &[K::Wall],
            "WallBlock" => &[K::Step],
            "RuleBlock" => &[K::For, K::Require, K::Otherwise, K::Let],
            "RatesBlock" => &[K::Rate, K::Waste],
            "LogBlock" => &[K::Entry],
            _ => &[],
        },
        Setting::File | Setting::Faces(_) | Setting::New => &[],
    }
}

/// The properties of a record that may be said in its block: name, number.
pub(crate) fn properties(program: &Program, def: DefId) -> Vec<(Symbol, u32)> {
    match scope::signature(program, def) {
        Some(Signature::Record(fields)) => fields.iter().enumerate().map(|(i, f)| (f.name, i as u32)).collect(),
        _ => Vec::new(),
    }
}
