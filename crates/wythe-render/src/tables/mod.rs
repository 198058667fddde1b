//! Tables and the documents made of them, written as text, CSV, Markdown and JSON; and the documents of the bill:
//! takeoff, cut list, order, schedule, comparison, what-if, progress, bid and change order.
//!
//! Start at [`Document`]; one file a document makes its tables from the results of `wythe-bill`.

mod bid;
mod cell;
mod change;
mod compare;
mod csv;
mod cut_list;
mod document;
mod json;
mod markdown;
mod order;
mod progress;
mod results;
mod schedule;
mod show;
mod states;
mod takeoff;
mod text;
mod what_if;

pub use bid::bid;
pub use cell::Cell;
pub use change::change_order;
pub use compare::comparison;
pub use cut_list::cut_list;
pub use document::{Column, Document, Table};
pub use order::order;
pub use progress::progress;
pub use results::{Standing, results};
pub use schedule::schedule;
pub use show::Shower;
pub use states::{states, states_flat};
pub use takeoff::{By, takeoff};
pub use what_if::what_if;
