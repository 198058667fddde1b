//! The tree-sitter grammar of Wythe. The grammar stands in `grammar.js`, line ends in `src/scanner.c`; `src/parser.c`
//! is generated from them by the tree-sitter command and committed.
//!
//! The one place of the workspace with unsafe code: the parser is C.

use tree_sitter_language::LanguageFn;

unsafe extern "C" {
    fn tree_sitter_wythe() -> *const ();
}

/// The grammar.
pub const LANGUAGE: LanguageFn = unsafe { LanguageFn::from_raw(tree_sitter_wythe) };

/// What editors color by.
pub const HIGHLIGHTS: &str = include_str!("../../queries/highlights.scm");
/// What editors fold.
pub const FOLDS: &str = include_str!("../../queries/folds.scm");
/// What editors set deeper.
pub const INDENTS: &str = include_str!("../../queries/indents.scm");
/// What editors select as a whole.
pub const TEXT_OBJECTS: &str = include_str!("../../queries/textobjects.scm");
