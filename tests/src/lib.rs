//! What the whole-program tests and benchmarks share: generated repositories of houses, the book, the libraries.

pub mod book;
pub mod houses;
pub mod libraries;
