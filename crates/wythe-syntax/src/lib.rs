//! Lexer, parser, syntax tree and formatter of the language.
