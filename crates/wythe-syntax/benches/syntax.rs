//! Rates of the front end.
fn main() {}
