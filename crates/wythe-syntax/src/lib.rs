//! Lexer, parser, syntax tree and formatter of the language.
//!
//! Imports `wythe-source`, `wythe-findings` and `wythe-units`. Start at [`ast::Module`].

pub mod ast;
