//! Sheet goods from rolls: liner and ground sheet laid over the real floor, and strips hung on walls and piers.

mod floor;
mod hung;

pub use floor::{FloorLayout, floor_outline, floors};
pub use hung::{HungPlan, HungStrip, hung};
