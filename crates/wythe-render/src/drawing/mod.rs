//! Drawings of a foundation: section, plan, pier, sequence and sheet patterns, as pure functions of the model.
//!
//! Each function makes a [`Drawing`], a scene of typed shapes and measured texts whose groups know the work they
//! come from; [`to_svg`] writes it for a [`Theme`]. Lengths on paper are millimeters, true to the scale the drawing
//! says. Start at [`section()`], then `section::cut`, which draws a cut up to any phase; the pier, the sequence and
//! the control strip are made of such cuts. Texts are never laid over one another: `leader` and `room` see to that.

mod control;
mod dimension;
mod finish;
mod hatch;
mod laid;
mod leader;
mod pier;
mod plan;
mod region;
mod room;
mod scale;
mod scene;
mod section;
mod sequence;
mod sheet;
mod stack;
mod svg;
mod text;
mod theme;
pub mod words;

pub use control::{BreakAt, BreakSide, ControlLine, LineBreak, LineStep};
pub use laid::{letter, patterns, permanent_floor, piece_mark, plan_options, section_marks};
pub use pier::{PierOptions, pier_detail};
pub use plan::{PlanOptions, PlanPiece, PlanStrip, SectionMark, plan};
pub use scale::words_for as scale_words;
pub use scene::{Anchor, Dash, Drawing, Fill, Form, Frame, Group, Ink, Item, Pen, Role, Shape, Spot, Text, Weight};
pub use section::{SectionOptions, section};
pub use sequence::{StripOptions, control_strip, sequence_strip};
pub use sheet::{Cutout, PatternOffcut, PatternOptions, PatternPiece, SheetPattern, sheet_patterns};
pub use svg::to_svg;
pub use theme::{Theme, dashes, letter as control_letter, plain_name as control_name};
pub use wythe_units::UnitSystem;

#[cfg(test)]
mod tests;
