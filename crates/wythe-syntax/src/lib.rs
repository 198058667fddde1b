//! Lexer, parser, syntax tree and formatter of the language.
//!
//! Imports `wythe-source`, `wythe-findings` and `wythe-units`. Start at [`parse`] and [`ast::Module`]; then the
//! stations of a text in their order: `lexer`, `layout`, `parser`. The words stand in one table, [`keywords`].

pub mod ast;
mod clauses;
mod collector;
mod format;
pub mod keywords;
mod layout;
mod lexer;
pub mod limits;
mod parse;
mod parser;
mod token;

pub use clauses::{CLAUSES, print_rank};
pub use format::{INDENT, MAX_WIDTH, format, format_parsed, format_range};
pub use layout::Chunk;
pub use lexer::Lexed;
pub use parse::{LaidOut, Parsed, decode, lay_out, parse, parse_prelude, tokens};
pub use token::{Before, Comment, Kind, Token};
