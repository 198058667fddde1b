//! The stations from the bytes of a file to what is found in it: read, link, order, check; judging is the project's own.
//!
//! Each station is a function of what it is given; what is kept between two runs is kept by the project.

pub(crate) mod check;
pub(crate) mod deprecated;
pub(crate) mod head;
pub(crate) mod link;
pub(crate) mod moved;
pub(crate) mod order;
pub(crate) mod read;

pub use read::ParsedFile;
