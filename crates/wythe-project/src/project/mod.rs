//! A repository under examination: its files, what is known of each, and what a change makes due again.
//!
//! A change goes through `load` (texts), `settle` (the program and what is due), `words` (names and types) and `judge`
//! (foundations); `stages` offers them in one go, or bit by bit for an editor, where what is open comes first and
//! judgements are made beside the project from what `standing` holds fast.

mod in_turn;
mod judge;
mod load;
mod manifest;
mod questions;
mod settle;
mod stages;
mod standing;
mod weather;
mod words;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use jiff::civil::Date;
use rustc_hash::{FxHashMap, FxHashSet};
use wythe_assess::moisture::ServiceMemo;
use wythe_eval::{Judgement, Shared};
use wythe_findings::Finding;
use wythe_sema::{DefId, Prelude, Program};
use wythe_source::FileId;

use crate::board::Board;
use crate::discovery::{MANIFEST_NAME, is_source};
use crate::entry::FileTable;
use crate::library::{LOCK_NAME, library_folder};
use crate::overlay::Overlay;
use crate::pipeline::link::Links;
use crate::pipeline::order::Order;
use crate::pipeline::read::Reading;
use crate::severity::weighed;
use crate::{FileEntry, Manifest, SourcePath, Sources};

pub use standing::{Judged, Task};

/// The findings of one file, by place.
#[derive(Clone, PartialEq, Debug)]
pub struct FileReport {
    /// The file.
    pub file: FileId,
    /// What is wrong in it.
    pub findings: Vec<Finding>,
}

/// What is known of a file.
#[derive(Debug, Default)]
struct FileState {
    reading: Option<Reading>,
    links: Links,
    judgement: Option<Arc<Judgement>>,
    /// Its waivers, each with the file of the foundation it holds in.
    waivers: Vec<(DefId, Option<FileId>)>,
}

/// A judgement that is due.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
struct Due {
    /// The change that made it due. A judgement begun before does not count.
    ticket: u64,
    /// Whether it is being made.
    under_way: bool,
}

/// A repository under examination.
pub struct Project {
    sources: Overlay,
    manifest: Manifest,
    manifest_text: Arc<str>,
    manifest_findings: Vec<Finding>,
    library_findings: Vec<Finding>,
    /// Where the files of each library look for what they use, beside their own folder; by the library's folder.
    library_folders: BTreeMap<SourcePath, Vec<SourcePath>>,
    codes: Vec<Option<FileId>>,
    files: Arc<FileTable>,
    states: Vec<FileState>,
    /// The files asked for; others are in only because these use them.
    roots: BTreeSet<FileId>,
    /// Files whose text may have changed since the last check.
    stale: FxHashSet<FileId>,
    /// Files asked for, checked and let go.
    released: BTreeSet<FileId>,
    /// The texts of files let go whose findings are still to be shown.
    kept_texts: FxHashMap<FileId, Arc<str>>,
    /// Files to be checked again though their text is the same.
    due: FxHashSet<FileId>,
    /// Files in the program: the roots and all they use.
    reached: FxHashSet<FileId>,
    order: Order,
    /// Whether the files in the program, or what they use, may be others than the order says.
    reordered: bool,
    /// Whether no file's `use` lines are known to lead where they led.
    unlinked: bool,
    /// Files whose names and types are to be checked.
    unchecked: FxHashSet<FileId>,
    /// Files whose foundations are to be judged.
    unjudged: FxHashMap<FileId, Due>,
    /// Counts what made judgements due.
    ticket: u64,
    /// The files with waivers.
    waiving: BTreeSet<FileId>,
    /// Every waiver.
    waivers: Arc<[DefId]>,
    program: Arc<Program>,
    /// What judgements of the program as it stands have in common.
    shared: Arc<Shared>,
    board: Board,
    weather: weather::WeatherShelf,
    /// Spaces whose year of hours has been worked out.
    moisture: Arc<ServiceMemo>,
}

impl Project {
    /// The number of the manifest's file.
    pub const MANIFEST: FileId = FileId(0);

    /// A repository with its manifest read and no file asked for yet.
    pub fn open(sources: impl Sources + 'static) -> Self {
        let sources = Overlay::new(Arc::new(sources));
        let mut files = FileTable::default();
        if let Some(path) = SourcePath::resolve(&SourcePath::root(), MANIFEST_NAME) {
            files.number(FileEntry::repository(path));
        }
        let mut project = Project {
            sources,
            manifest: Manifest::default(),
            manifest_text: "".into(),
            manifest_findings: Vec::new(),
            library_findings: Vec::new(),
            library_folders: BTreeMap::new(),
            codes: Vec::new(),
            files: Arc::new(files),
            states: Vec::new(),
            roots: BTreeSet::new(),
            stale: FxHashSet::default(),
            released: BTreeSet::new(),
            kept_texts: FxHashMap::default(),
            due: FxHashSet::default(),
            reached: FxHashSet::default(),
            order: Order::default(),
            reordered: true,
            unlinked: false,
            unchecked: FxHashSet::default(),
            unjudged: FxHashMap::default(),
            ticket: 0,
            waiving: BTreeSet::new(),
            waivers: Arc::default(),
            program: Arc::new(Program::new(Prelude::load())),
            shared: Arc::default(),
            board: Board::default(),
            weather: weather::WeatherShelf::default(),
            moisture: Arc::default(),
        };
        project.read_manifest();
        project
    }

    /// What the repository says of itself.
    pub const fn manifest(&self) -> &Manifest {
        &self.manifest
    }

    /// Judges waivers and prices on this day, whatever the manifest says.
    pub fn set_today(&mut self, today: Date) {
        self.manifest.today = Some(today);
        self.due.extend(self.reached.iter().copied());
    }

    /// Asks for every source in the folders the manifest names.
    pub fn add_all(&mut self) {
        for folder in self.manifest.sources.clone() {
            for path in self.sources.list(&folder).unwrap_or_default() {
                self.add(path);
            }
        }
    }

    /// Asks for a file.
    pub fn add(&mut self, path: SourcePath) -> FileId {
        let file = self.number(FileEntry::repository(path));
        if self.roots.insert(file) {
            self.reordered = true;
            self.stale.insert(file);
        }
        file
    }

    /// Forgets a file that was asked for.
    pub fn drop_root(&mut self, path: &SourcePath) {
        if let Some(file) = self.find(path) {
            self.roots.remove(&file);
            self.reordered = true;
            // Its text may be the same, and yet what is found in it is no longer asked for.
            self.due.insert(file);
            self.stale.insert(file);
        }
    }

    /// Puts a text in the place of the file's own, as an editor does, and asks for the file.
    pub fn set_text(&mut self, path: SourcePath, text: impl Into<Arc<str>>) -> FileId {
        self.sources.set(path.clone(), text.into());
        self.changed_on_disk(&path);
        self.add(path)
    }

    /// Goes back to the file's own text.
    pub fn close(&mut self, path: &SourcePath) {
        self.sources.close(path);
        self.changed_on_disk(path);
    }

    /// Says that a file may have been written, made or taken away.
    pub fn changed_on_disk(&mut self, path: &SourcePath) {
        let of_library = library_folder(path);
        let own_manifest = of_library.is_some() && path.as_str().ends_with(MANIFEST_NAME);
        if path.as_str() == MANIFEST_NAME || own_manifest {
            self.read_manifest();
        } else if of_library.is_some() || path.as_str() == LOCK_NAME {
            self.verify_libraries();
        }
        if let Some(file) = self.find(path).filter(|file| *file != Project::MANIFEST) {
            self.stale.insert(file);
        }
        let being_read = !is_source(path.as_str()) && self.unjudged.values().any(|due| due.under_way);
        if self.weather.forget(path) || being_read {
            // Any house may have been judged by it.
            self.due.extend(self.reached.iter().copied());
        }
    }

    /// Every finding, by path and place.
    pub fn findings(&self) -> Vec<Finding> {
        let mut files = self.board.files();
        files.sort_by_cached_key(|file| self.files.get(*file).cloned());
        files.into_iter().flat_map(|file| self.findings_in(file)).collect()
    }

    /// The findings of one file, by place.
    pub fn findings_in(&self, file: FileId) -> Vec<Finding> {
        self.board.of(file).into_iter().filter_map(|f| weighed(f, &self.manifest)).collect()
    }

    fn number(&mut self, entry: FileEntry) -> FileId {
        match self.files.find(&entry) {
            Some(file) => file,
            None => Arc::make_mut(&mut self.files).number(entry),
        }
    }

    fn state(&mut self, file: FileId) -> &mut FileState {
        let at = file.0 as usize;
        if at >= self.states.len() {
            self.states.resize_with(at + 1, FileState::default);
        }
        &mut self.states[at]
    }
}
