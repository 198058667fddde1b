//! Editors as people use them: real clients over the plans of Cedar Row, and the grammars they color by.

#![allow(clippy::unwrap_used, reason = "a test that meets nothing where something must be fails there")]

mod client;
mod configurations;
mod emacs;
mod neovim;
mod textmate;
mod tree_sitter;
