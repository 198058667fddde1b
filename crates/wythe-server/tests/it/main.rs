//! The server as a client meets it: messages in, messages out.

#![allow(clippy::unwrap_used, reason = "a test that meets nothing where something must be fails there")]

mod bad_input;
mod burst;
mod client;
mod drawing;
mod features;
mod files;
mod meta;
mod model;
mod session;
