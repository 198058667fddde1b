//! Terminal, drawing, report and data outputs: from what has been found and worked out to text and bytes.
//!
//! May import every crate below it that holds results; it reads no file, and knows no command line and no editor.
//! Start at [`Files`], which names what a place points into; then one module an output.

pub mod ci;
pub mod climate;
pub mod drawing;
mod files;
pub mod json;
pub mod tables;
pub mod terminal;

pub use files::Files;
