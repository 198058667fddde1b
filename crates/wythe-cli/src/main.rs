//! The wythe command.

fn main() {}
