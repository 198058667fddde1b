//! The texts findings are drawn on, made fit for a terminal once a file.

use std::fmt::Display;

use ariadne::{Cache, Source};
use rustc_hash::FxHashMap;
use wythe_source::{FileId, Span};

use super::clean;
use crate::Files;

/// The longest line that is drawn, in bytes. A longer one would fill the screen many times over.
const LONGEST_LINE: usize = 400;

struct Sheet {
    name: String,
    source: Source<String>,
}

/// The texts of files as they are drawn.
pub struct Sheets<'f> {
    files: &'f dyn Files,
    sheets: FxHashMap<FileId, Sheet>,
}

impl<'f> Sheets<'f> {
    /// Texts of these files.
    pub fn new(files: &'f dyn Files) -> Self {
        Sheets { files, sheets: FxHashMap::default() }
    }

    fn sheet(&mut self, file: FileId) -> &Sheet {
        let files = self.files;
        self.sheets.entry(file).or_insert_with(|| Sheet {
            name: clean(&files.name(file)).into_owned(),
            source: Source::from(clean(files.text(file)).into_owned()),
        })
    }

    /// The characters of a place, counted from the start of the file; `None` where it is not to be drawn.
    ///
    /// The drawing counts characters: told to count bytes, it mixes the two up beyond the first file.
    pub(super) fn drawn(&mut self, span: Span) -> Option<std::ops::Range<usize>> {
        let source = &self.sheet(span.file).source;
        let place = |byte: u32| -> Option<usize> {
            let (line, _, column) = source.get_byte_line(byte as usize)?;
            let text = source.get_line_text(line)?;
            if text.len() > LONGEST_LINE {
                return None;
            }
            Some(line.offset() + text.char_indices().take_while(|(at, _)| *at < column).count())
        };
        let start = place(span.start)?;
        let end = if span.end > span.start { place(span.end)? } else { start };
        Some(start..end.max(start))
    }

    /// A place in words: file, line and column, the last two counted from one.
    pub(super) fn words(&mut self, span: Span) -> String {
        let sheet = self.sheet(span.file);
        match sheet.source.get_byte_line(span.start as usize) {
            Some((line, number, column)) => {
                let text = sheet.source.get_line_text(line).unwrap_or("");
                let column = text.char_indices().take_while(|(at, _)| *at < column).count();
                format!("{}:{}:{}", sheet.name, number + 1, column + 1)
            }
            None => sheet.name.clone(),
        }
    }
}

impl Cache<FileId> for &mut Sheets<'_> {
    type Storage = String;

    fn fetch(&mut self, file: &FileId) -> Result<&Source<String>, impl std::fmt::Debug> {
        Ok::<_, std::convert::Infallible>(&self.sheet(*file).source)
    }

    fn display<'a>(&self, file: &'a FileId) -> Option<impl Display + 'a> {
        self.sheets.get(file).map(|sheet| sheet.name.clone())
    }
}
