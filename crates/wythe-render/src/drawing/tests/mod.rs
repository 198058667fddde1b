//! Drawings of the fixture houses and of hard ones: no text over another, no leader over another or over a text,
//! well-formed files that can be read aloud, and golden sheets looked at by eye.

mod clear;
mod file;
mod golden;
mod hard;
mod houses;
