//! Places in files as addresses and ranges of the protocol.

use std::cell::RefCell;
use std::rc::Rc;

use rustc_hash::FxHashMap;
use tower_lsp::lsp_types::{Location, Position, Range, Url};
use wythe_source::{FileId, LineTable, Span};

use crate::encoding::Encoding;
use crate::state::{Repository, State};

/// Places of one repository; the lines of each file are counted once.
pub(crate) struct Places<'s> {
    state: &'s State,
    repository: &'s Repository,
    tables: RefCell<FxHashMap<FileId, Rc<LineTable>>>,
}

impl<'s> Places<'s> {
    pub(crate) fn new(state: &'s State, repository: &'s Repository) -> Self {
        Places { state, repository, tables: RefCell::default() }
    }

    fn encoding(&self) -> Encoding {
        self.state.can.encoding
    }

    fn table(&self, file: FileId) -> Rc<LineTable> {
        let text = self.repository.project.text(file);
        self.tables.borrow_mut().entry(file).or_insert_with(|| Rc::new(LineTable::new(text))).clone()
    }

    /// The address of a file: the client's own where it is open.
    pub(crate) fn url(&self, file: FileId) -> Option<Url> {
        let open = self.state.open_url(self.repository, file).cloned();
        open.or_else(|| self.repository.url(self.state, file))
    }

    /// The byte of a position.
    pub(crate) fn offset(&self, file: FileId, position: Position) -> u32 {
        self.encoding().offset(&self.table(file), self.repository.project.text(file), position)
    }

    /// The position of a byte.
    pub(crate) fn position(&self, file: FileId, offset: u32) -> Position {
        self.encoding().position(&self.table(file), self.repository.project.text(file), offset)
    }

    /// The range of a span.
    pub(crate) fn range(&self, span: Span) -> Range {
        Range::new(self.position(span.file, span.start), self.position(span.file, span.end))
    }

    /// The address and range of a span; nothing for a file that stands nowhere.
    pub(crate) fn location(&self, span: Span) -> Option<Location> {
        Some(Location { uri: self.url(span.file)?, range: self.range(span) })
    }
}
