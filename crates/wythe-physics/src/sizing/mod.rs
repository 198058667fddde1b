//! Sizing of what keeps a crawl space dry: [`code`] minimums beside the computed [`load`], and
//! [`close_in`], the day from which it is safe to close.
//!
//! The numbers of a code are parameters: defer to the local code and its official. A computed load
//! is no substitute for either.

pub mod close_in;
pub mod code;
pub mod load;
