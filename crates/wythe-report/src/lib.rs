//! The foundation report, and the site of all houses of a plans repository.
//!
//! May import what renders and what holds results; it reads no file and knows no command line. A [`House`] is what
//! has been worked out; [`report`] puts it in the order people read it in, as a [`Report`] of plain blocks, which
//! [`html::page`] writes as one self-contained page and another crate typesets. Start at [`model`], then [`sections`].
//! Text is escaped where it is written and nowhere else; what could turn the direction of a line is taken out first.

mod figures;
mod grid;
mod house;
pub mod html;
mod model;
mod plot;
mod sections;
pub mod site;
mod words;

pub use house::{House, Waived, control_line};
pub use model::{Block, Check, Column, Fact, Found, Grid, Grounds, Plot, Report, Section, Sheet};
pub use sections::{Key, key_figures, report};
