//! Sheets for the people on site, and short answers to what they ask, in their language: crew sheet, order list,
//! inspector sheet, checklists before the pour and before work is covered, the owner's handover and the label.
//!
//! May import the building, its bill, its checks and what `wythe-render` draws; it reads no file and knows no clock.
//! Every word comes from the catalogues in `catalog/`, but for names, products, inspections and rules, which are the
//! plans' own. Start at [`sheet`], which makes a [`Page`]; [`html`] and [`text`] write it; [`ask`] answers.

pub mod ask;
mod gate;
mod house;
mod html;
mod page;
mod sheet;
mod small;
mod step;
mod text;
mod words;

pub use house::House;
pub use html::html;
pub use page::{Block, Page, Size};
pub use sheet::{Sheet, sheet};
pub use text::text;
pub use words::{Language, Words};

#[cfg(test)]
mod tests;
