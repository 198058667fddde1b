//! The building: site, foundation, walls, piers, openings, ground, assemblies of layers, joints and phases.
//!
//! Imports `wythe-source` and `uom`; knows no syntax. Every part carries the place it came from, so that a
//! finding about the building can point at the text. Start at [`Foundation`], then [`Assembly`].
//! Derived geometry (outline, areas, extents on a wall) has a module of its own.

mod assembly;
mod element;
mod foundation;
mod level;
mod phase;
mod product;
mod site;

pub use assembly::*;
pub use element::*;
pub use foundation::*;
pub use level::*;
pub use phase::*;
pub use product::*;
pub use site::*;

pub use uom::si::f64::{Angle, Area, Length, Ratio, Volume, VolumeRate};
