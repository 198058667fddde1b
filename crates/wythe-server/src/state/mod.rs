//! What the one thread owns: the client's abilities and settings, the repositories, the open documents.

mod checking;
mod documents;
mod repository;
mod watching;

use std::collections::BTreeMap;
use std::path::PathBuf;

use rustc_hash::FxHashMap;
use tower_lsp::lsp_types::{Position, Range, Url};
use wythe_project::{Project, SourcePath};
use wythe_source::{FileId, Span};

use crate::client::ClientCan;
use crate::convert::Places;
use crate::judges::Judges;
use crate::open::Open;
use crate::publisher::Publisher;
use crate::queue::Queue;
use crate::requests::semantic::Sent;
use crate::settings::{Delivery, Settings};
use crate::shipped::Shipped;

pub(crate) use checking::Need;
pub(crate) use repository::Repository;

/// Everything the server knows.
pub(crate) struct State {
    publisher: Publisher,
    /// The way back to this state for work done elsewhere.
    queue: Queue,
    judges: Judges,
    progress: checking::Progress,
    leaving: bool,
    /// Counts what may have changed the plans.
    edits: u64,
    /// What the client can do.
    pub can: ClientCan,
    /// The client's settings.
    pub settings: Settings,
    /// Texts that come with Wythe.
    pub shipped: Shipped,
    /// The folders the client works in.
    pub(super) folders: Vec<PathBuf>,
    repositories: Vec<Repository>,
    /// The open documents, by address.
    open: BTreeMap<Url, Open>,
    /// The semantic tokens last sent for each document.
    pub sent_tokens: FxHashMap<Url, Sent>,
    /// What each file was when it was last looked at.
    stamps: FxHashMap<(usize, SourcePath), watching::Stamp>,
}

/// A place in a checked repository.
pub(crate) struct At<'s> {
    /// The repository.
    pub repository: &'s Repository,
    /// The file.
    pub file: FileId,
    /// The byte.
    pub offset: u32,
    /// Positions of this repository.
    pub places: Places<'s>,
}

impl At<'_> {
    /// The project.
    pub(crate) const fn project(&self) -> &Project {
        &self.repository.project
    }
}

impl State {
    pub(crate) fn new(publisher: Publisher, queue: Queue, judges: Judges) -> State {
        State {
            publisher,
            queue,
            judges,
            progress: checking::Progress::default(),
            leaving: false,
            edits: 0,
            can: ClientCan::default(),
            settings: Settings::default(),
            shipped: Shipped::default(),
            folders: Vec::new(),
            repositories: Vec::new(),
            open: BTreeMap::new(),
            sent_tokens: FxHashMap::default(),
            stamps: FxHashMap::default(),
        }
    }

    /// The mouth of the server.
    pub(crate) const fn publisher(&self) -> &Publisher {
        &self.publisher
    }

    /// Whether the client has gone.
    pub(crate) const fn leaving(&self) -> bool {
        self.leaving
    }

    /// The client has gone.
    pub(crate) const fn leave(&mut self) {
        self.leaving = true;
    }

    /// Counts what may have changed the plans, from outside or from the client.
    pub(crate) const fn edits(&self) -> u64 {
        self.edits
    }

    /// Whether findings are sent unasked.
    pub(crate) fn pushes(&self) -> bool {
        match self.settings.diagnostics {
            Delivery::Auto => !self.can.pull_diagnostics,
            Delivery::Push => true,
            Delivery::Pull => false,
        }
    }

    /// A place by address and position; nothing for what is not open in a repository.
    pub(crate) fn at(&self, url: &Url, position: Position) -> Option<At<'_>> {
        let mut at = self.file(url)?;
        at.offset = at.places.offset(at.file, position);
        Some(at)
    }

    /// The start of a file by its address, whether it is open or not.
    pub(crate) fn file(&self, url: &Url) -> Option<At<'_>> {
        let (number, file) = self.file_number(url)?;
        let repository = self.repositories.get(number)?;
        let places = Places::new(self, repository);
        Some(At { repository, file, offset: 0, places })
    }

    /// The number of the repository a file belongs to, and its own.
    fn file_number(&self, url: &Url) -> Option<(usize, FileId)> {
        let (number, path) = match self.open.get(url) {
            Some(open) => (open.repository, open.path.clone()),
            None => self.known(url)?,
        };
        Some((number, self.repositories.get(number)?.project.find(&path)?))
    }

    /// A range of a file.
    pub(crate) fn range(&self, url: &Url, range: Range) -> Option<(At<'_>, Span)> {
        let at = self.file(url)?;
        let (a, b) = (at.places.offset(at.file, range.start), at.places.offset(at.file, range.end));
        let span = Span::new(at.file, a.min(b), a.max(b));
        Some((at, span))
    }

    /// Every repository.
    pub(crate) fn repositories(&self) -> &[Repository] {
        &self.repositories
    }

    /// The version of an open document.
    pub(crate) fn version(&self, url: &Url) -> Option<i32> {
        self.open.get(url).map(|o| o.version)
    }

    /// The address the client knows an open document by.
    pub(crate) fn open_url(&self, repository: &Repository, file: FileId) -> Option<&Url> {
        let path = &repository.project.entry(file)?.path;
        let same = |o: &Open| {
            o.path == *path && self.repositories.get(o.repository).is_some_and(|r| std::ptr::eq(r, repository))
        };
        self.open.iter().find(|(_, o)| same(o)).map(|(url, _)| url)
    }
}
