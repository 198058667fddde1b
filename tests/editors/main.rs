//! Editors as people use them: real clients over the plans of Cedar Row, and the grammars they color by.

mod client;
mod emacs;
mod neovim;
mod textmate;
mod tree_sitter;
