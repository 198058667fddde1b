//! From the building to a bill: takeoff, cut lists, roll layouts, orders, prices, labor, schedule, comparison and
//! progress of real foundations.
//!
//! May import the building (`wythe-model`), the algorithms over plain inputs (`wythe-takeoff`), findings and units;
//! knows no syntax, reads no file and no clock. Nothing here sizes structure.
//!
//! Start at [`Job::of`], which takes everything off one or more houses together; then [`order`], [`labor`],
//! [`timeline`], [`compare`], [`change`], [`bid`] and [`progress`].

pub mod bid;
pub mod board;
pub mod causes;
pub mod change;
pub mod compare;
pub mod cost;
mod job;
pub mod labor;
pub mod order;
pub mod outcome;
pub mod progress;
pub mod sheet;
pub mod takeoff;
mod terms;
pub mod timeline;

pub use job::Job;
pub use takeoff::{Counted, TakeoffLine};
pub use terms::Terms;
