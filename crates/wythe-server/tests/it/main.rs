//! The server as a client meets it: messages in, messages out.

mod bad_input;
mod burst;
mod client;
mod drawing;
mod features;
mod files;
mod session;
