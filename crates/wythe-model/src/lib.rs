//! The building: site, foundation, walls, piers, openings, ground, assemblies of layers, joints and phases.
//!
//! Imports `wythe-source`, `uom`, `geo` (plain plane geometry), `jiff` (dates) and `rust_decimal` (money); knows no syntax. Every part carries the place
//! it came from, so that a finding about the building can point at the text. Start at [`Foundation`], then [`Assembly`].
//! What follows from the parts has modules of its own: [`geometry`] (outline, corners, areas, extents on a wall)
//! and [`quantity`] (net quantities of every piece of work). Prices, rates and the log stand in [`ledger`], a
//! house by numbers in [`bid`].

mod assembly;
pub mod bid;
mod element;
#[cfg(any(test, feature = "fixtures"))]
pub mod fixture;
mod foundation;
pub mod geometry;
pub mod ledger;
mod level;
mod phase;
mod product;
pub mod quantity;
mod site;
mod weather_columns;

pub use assembly::*;
pub use element::*;
pub use foundation::*;
pub use level::*;
pub use phase::*;
pub use product::*;
pub use site::*;
pub use weather_columns::*;

pub use uom::si::f64::{Angle, Area, Length, Ratio, Volume, VolumeRate};
