//! A page as its parts, before it is written as HTML or as plain text.

use wythe_render::drawing::Drawing;

use crate::Language;

/// A part of a page.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// A heading.
    Heading(String),
    /// Prose.
    Text(String),
    /// What must not be missed: safety, and where work stops.
    Warning(Vec<String>),
    /// Cautions for those who do the work; the first line is their head.
    Care(Vec<String>),
    /// Steps at one place, numbered from a first number: the place, the number, the steps.
    Steps(String, usize, Vec<String>),
    /// Things to tick off at one place.
    ChecksAt(String, Vec<String>),
    /// Things to tick off.
    Checks(Vec<String>),
    /// A table with its heads.
    Table(Vec<String>, Vec<Vec<String>>),
    /// Figures by name.
    Facts(Vec<(String, String)>),
    /// A drawing.
    Drawing(Box<Drawing>),
    /// Lines to sign on, each with what stands under it.
    SignOff(Vec<String>),
    /// What follows begins a new page.
    NewPage,
}

/// How large a page's type is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Size {
    /// For reading at arm's length, on a board or a windowsill.
    Large,
    /// For reading at a desk.
    Normal,
    /// A label, half a sheet.
    Label,
}

/// A page, or the few pages, that someone holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// The language it is in.
    pub language: Language,
    /// Its title.
    pub title: String,
    /// The house it is about.
    pub house: String,
    /// How many pages it should take at most.
    pub pages: usize,
    /// How large its type is.
    pub size: Size,
    /// Its parts.
    pub blocks: Vec<Block>,
    /// What stands at its foot.
    pub foot: String,
}
