//! From net quantities to what is bought: beads, coatings, fasteners, tape, drains and stone, each in
//! whole purchase units with what is left over and the share that is waste.

mod bead;
mod coating;
mod drain;
mod fastener;
mod tape;
mod units;

pub use bead::{BeadError, BeadShape, Cartridge, bead_section, cartridges};
pub use coating::{Coat, CoatingError, coverage, pails};
pub use drain::{Trench, TrenchError, TrenchMaterials, trench};
pub use fastener::{FastenerError, FastenerRules, fasteners_for_length, fasteners_for_piece};
pub use tape::{TapeError, TapeRoll, tape_rolls};
pub use units::{Purchase, PurchaseError, whole_units};
