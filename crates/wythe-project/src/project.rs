//! A repository under examination: its files, what is known of each, and what a change makes due again.

use std::collections::BTreeSet;
use std::sync::Arc;

use jiff::civil::Date;
use rayon::prelude::*;
use rustc_hash::FxHashSet;
use wythe_findings::{Finding, codes};
use wythe_sema::{ModuleData, PRELUDE_PATH, Prelude, Program};
use wythe_source::{FileId, Span};
use wythe_syntax::ast::{DeclKind, UseTarget};

use crate::board::Board;
use crate::discovery::MANIFEST_NAME;
use crate::entry::FileTable;
use crate::guard::guarded;
use crate::overlay::Overlay;
use crate::pipeline::link::{Found, Links, candidates, code_candidates, link, unknown_pack};
use crate::pipeline::order::{Order, affected, circle_finding, order};
use crate::pipeline::read::{ParsedFile, Reading, read};
use crate::pipeline::{check, foundations};
use crate::severity::{unknown_names, weighed};
use crate::{FileEntry, Manifest, Origin, ReadFault, SourcePath, Sources, built_in};

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
}

/// A repository under examination.
pub struct Project {
    sources: Overlay,
    manifest: Manifest,
    manifest_text: Arc<str>,
    manifest_findings: Vec<Finding>,
    codes: Vec<Option<FileId>>,
    files: FileTable,
    states: Vec<FileState>,
    /// The files asked for; others are in only because these use them.
    roots: BTreeSet<FileId>,
    /// Files whose text may have changed since the last check.
    stale: FxHashSet<FileId>,
    /// Files to be checked again though their text is the same.
    due: FxHashSet<FileId>,
    /// Files in the program: the roots and all they use.
    reached: FxHashSet<FileId>,
    order: Order,
    program: Arc<Program>,
    board: Board,
}

impl Project {
    /// The number of the manifest's file.
    pub const MANIFEST: FileId = FileId(0);

    /// A repository with its manifest read and no file asked for yet.
    pub fn open(sources: impl Sources + 'static) -> Self {
        let sources = Overlay::new(Box::new(sources));
        let mut files = FileTable::default();
        if let Some(path) = SourcePath::resolve(&SourcePath::root(), MANIFEST_NAME) {
            files.number(FileEntry::repository(path));
        }
        let mut project = Project {
            sources,
            manifest: Manifest::default(),
            manifest_text: "".into(),
            manifest_findings: Vec::new(),
            codes: Vec::new(),
            files,
            states: Vec::new(),
            roots: BTreeSet::new(),
            stale: FxHashSet::default(),
            due: FxHashSet::default(),
            reached: FxHashSet::default(),
            order: Order::default(),
            program: Arc::new(Program::new(Prelude::load())),
            board: Board::default(),
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
        let file = self.files.number(FileEntry::repository(path));
        if self.roots.insert(file) {
            self.stale.insert(file);
        }
        file
    }

    /// Forgets a file that was asked for.
    pub fn drop_root(&mut self, path: &SourcePath) {
        if let Some(file) = self.find(path) {
            self.roots.remove(&file);
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
        if path.as_str() == MANIFEST_NAME {
            self.read_manifest();
        } else if let Some(file) = self.find(path) {
            self.stale.insert(file);
        }
    }

    /// The file of a path, if it has been met.
    pub fn find(&self, path: &SourcePath) -> Option<FileId> {
        self.files.find(&FileEntry::repository(path.clone()))
    }

    /// Path and origin of a file; `None` for the prelude.
    pub fn entry(&self, file: FileId) -> Option<&FileEntry> {
        self.files.get(file)
    }

    /// The name a file is shown by.
    pub fn name(&self, file: FileId) -> String {
        match self.files.get(file) {
            Some(entry) => entry.shown(),
            None => format!("wythe:{PRELUDE_PATH}"),
        }
    }

    /// The text of a file; empty where it has none.
    pub fn text(&self, file: FileId) -> &str {
        if file == Project::MANIFEST {
            return &self.manifest_text;
        }
        if file == Prelude::FILE {
            return wythe_sema::PRELUDE_TEXT;
        }
        self.parsed(file).map_or("", |p| &p.text)
    }

    /// A file as last read.
    pub fn parsed(&self, file: FileId) -> Option<&Arc<ParsedFile>> {
        self.states.get(file.0 as usize)?.reading.as_ref()?.present()
    }

    /// The checked program. A clone is a snapshot that later changes leave alone.
    pub const fn program(&self) -> &Arc<Program> {
        &self.program
    }

    /// The files asked for, in the order met.
    pub fn roots(&self) -> impl Iterator<Item = FileId> {
        self.roots.iter().copied()
    }

    /// The code packs a file is held to: the manifest's, then those it uses, each after what it builds on.
    pub fn codes_for(&self, file: FileId) -> Vec<FileId> {
        let mut found = Vec::new();
        let mut seen = FxHashSet::default();
        for &code in self.codes.iter().flatten() {
            self.code(code, &mut found, &mut seen);
        }
        self.codes_used(file, &mut found, &mut seen);
        found
    }

    fn code(&self, pack: FileId, found: &mut Vec<FileId>, seen: &mut FxHashSet<FileId>) {
        if seen.insert(pack) {
            self.codes_used(pack, found, seen);
            found.push(pack);
        }
    }

    fn codes_used(&self, file: FileId, found: &mut Vec<FileId>, seen: &mut FxHashSet<FileId>) {
        let Some(data) = self.program.module(file) else { return };
        for (line, target) in data.module.uses.iter().zip(&data.uses) {
            if let (UseTarget::Code(_), Some(pack)) = (&line.target, target) {
                self.code(*pack, found, seen);
            }
        }
    }

    /// Checks what the changes since the last check have made due, and reports the files whose findings differ.
    pub fn check_affected(&mut self) -> Vec<FileReport> {
        let mut changed = self.load();
        changed.extend(self.due.drain());
        if !changed.is_empty() {
            self.settle_program(&mut changed);
            let affected = affected(&self.order, &changed);
            self.judge(&affected);
        }
        self.put_manifest_findings();
        let mut touched = self.board.take_touched();
        touched.sort_by_cached_key(|file| self.files.get(*file).cloned());
        touched.into_iter().map(|file| FileReport { file, findings: self.findings_in(file) }).collect()
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

    fn read_manifest(&mut self) {
        let Some(path) = self.files.get(Project::MANIFEST).map(|e| e.path.clone()) else { return };
        let file = Project::MANIFEST;
        let read = match self.sources.read(&path) {
            Ok(bytes) => match wythe_syntax::decode(file, &bytes) {
                Ok(text) => {
                    self.manifest_text = text.into();
                    Manifest::read(file, text)
                }
                Err(fault) => (Manifest::default(), vec![*fault]),
            },
            Err(ReadFault::NotFound) => (Manifest::default(), Vec::new()),
            Err(fault) => (Manifest::default(), vec![unreadable(file, &fault)]),
        };
        (self.manifest, self.manifest_findings) = read;
        // Every link may lead elsewhere now, every severity be another, and every value be shown otherwise.
        self.stale.extend(self.reached.iter().copied());
        self.stale.extend(self.roots.iter().copied());
        self.due.extend(self.reached.iter().copied());
        for state in &mut self.states {
            state.links = Links::default();
        }
        self.board.touch_all();
    }

    /// Reads what is stale and everything it leads to; gives the files that are not as they were.
    fn load(&mut self) -> FxHashSet<FileId> {
        let mut changed = FxHashSet::default();
        let mut presence_changed = false;
        let mut wave: Vec<FileId> = self.stale.drain().collect();
        let packs: Vec<_> =
            self.manifest.codes.iter().flat_map(|name| code_candidates(Origin::Repository, *name)).collect();
        for pack in packs {
            let file = self.files.number(pack);
            if self.state(file).reading.is_none() {
                wave.push(file);
            }
        }
        while !wave.is_empty() {
            wave.sort_unstable();
            wave.dedup();
            if let Some(last) = wave.last() {
                self.state(*last);
            }
            let this = &*self;
            let readings: Vec<Reading> = if wave.len() == 1 {
                wave.iter().map(|f| this.reading(*f)).collect()
            } else {
                wave.par_iter().map(|f| this.reading(*f)).collect()
            };
            let mut next = Vec::new();
            for (&file, reading) in wave.iter().zip(readings) {
                let earlier = self.state(file).reading.as_ref();
                let was_present = earlier.is_some_and(|r| r.present().is_some());
                let same = match (earlier, &reading) {
                    (Some(Reading::Present(a)), Reading::Present(b)) => Arc::ptr_eq(a, b),
                    (Some(Reading::Absent(a)), Reading::Absent(b)) => a == b,
                    _ => false,
                };
                presence_changed |= was_present != reading.present().is_some();
                if !same {
                    changed.insert(file);
                }
                self.state(file).reading = Some(reading);
                next.extend(self.targets(file));
            }
            next.retain(|f| self.state(*f).reading.is_none());
            wave = next;
        }
        self.relink(&mut changed, presence_changed);
        changed
    }

    fn reading(&self, file: FileId) -> Reading {
        let Some(entry) = self.files.get(file) else { return Reading::Absent(ReadFault::NotFound) };
        let earlier = self.states.get(file.0 as usize).and_then(|s| s.reading.as_ref());
        let (bytes, open) = match entry.origin {
            Origin::Repository => (self.sources.read(&entry.path), self.sources.is_open(&entry.path)),
            Origin::BuiltIn => {
                let text = built_in::pack(entry.path.stem());
                (text.map(|t| t.as_bytes().to_vec()).ok_or(ReadFault::NotFound), false)
            }
        };
        read(file, bytes, earlier, open)
    }

    /// The files the `use` lines of a file may mean.
    fn targets(&mut self, file: FileId) -> Vec<FileId> {
        let (Some(entry), Some(parsed)) = (self.files.get(file).cloned(), self.parsed(file).cloned()) else {
            return Vec::new();
        };
        let all = parsed.module.uses.iter().flat_map(|line| candidates(&entry, line, &self.manifest));
        let all: Vec<_> = all.collect();
        all.into_iter().map(|candidate| self.files.number(candidate)).collect()
    }

    fn relink(&mut self, changed: &mut FxHashSet<FileId>, everything: bool) {
        let due: Vec<FileId> = if everything {
            (0..self.states.len() as u32).map(FileId).collect()
        } else {
            changed.iter().copied().collect()
        };
        for file in due {
            let (Some(entry), Some(parsed)) = (self.files.get(file), self.parsed(file)) else { continue };
            let links = link(entry, &parsed.module, &self.manifest, |candidate| self.found(candidate));
            let state = self.state(file);
            if state.links != links {
                state.links = links;
                changed.insert(file);
            }
        }
        let code = |name| {
            code_candidates(Origin::Repository, name).iter().find_map(|c| match self.found(c) {
                Found::Present(file) => Some(file),
                Found::Absent(_) => None,
            })
        };
        self.codes = self.manifest.codes.iter().map(|name| code(*name)).collect();
    }

    fn found(&self, candidate: &FileEntry) -> Found {
        let Some(file) = self.files.find(candidate) else { return Found::Absent(ReadFault::NotFound) };
        match self.states.get(file.0 as usize).and_then(|s| s.reading.as_ref()) {
            Some(Reading::Present(_)) => Found::Present(file),
            Some(Reading::Absent(fault)) => Found::Absent(fault.clone()),
            None => Found::Absent(ReadFault::NotFound),
        }
    }

    /// Makes the program hold what the roots reach, with what has changed put in anew.
    fn settle_program(&mut self, changed: &mut FxHashSet<FileId>) {
        let mut reached = FxHashSet::default();
        let mut open: Vec<FileId> = self.roots.iter().copied().chain(self.codes.iter().flatten().copied()).collect();
        while let Some(file) = open.pop() {
            if self.parsed(file).is_some() && reached.insert(file) {
                open.extend(self.state(file).links.uses.iter().flatten());
            }
        }
        let left: Vec<FileId> = self.reached.difference(&reached).copied().collect();
        changed.extend(reached.difference(&self.reached));
        let program = Arc::make_mut(&mut self.program);
        for &file in &left {
            program.remove(file);
            self.board.put(file, Vec::new());
            if !self.roots.contains(&file) {
                // Read again if it is ever used again: nothing says when it changes meanwhile.
                self.states[file.0 as usize].reading = None;
            }
        }
        let mut files: Vec<FileId> = reached.iter().copied().collect();
        files.sort_by_cached_key(|file| self.files.get(*file).cloned());
        let states = &self.states;
        self.order = order(&files, |file| &states[file.0 as usize].links.uses);
        self.reached = reached;
        for file in affected(&self.order, changed) {
            let state = &self.states[file.0 as usize];
            if let (true, Some(Reading::Present(parsed))) = (self.reached.contains(&file), &state.reading) {
                let data = ModuleData {
                    text: parsed.text.clone(),
                    module: parsed.module.clone(),
                    declared: parsed.declared.clone(),
                    uses: state.links.uses.clone(),
                    checked: None,
                };
                program.insert(file, data);
            }
        }
    }

    /// Checks files and puts what is found on the board.
    fn judge(&mut self, affected: &FxHashSet<FileId>) {
        check::check(Arc::make_mut(&mut self.program), &self.order, affected);
        let mut circles: Vec<(FileId, Finding)> = Vec::new();
        for circle in &self.order.circles {
            let finding = circle_finding(circle, |f| self.name(f), |from, to| self.use_line(from, to));
            circles.extend(finding.map(|finding| (circle[0], finding)));
        }
        let mut files: Vec<FileId> = affected.iter().copied().collect();
        files.sort_unstable();
        let this = &*self;
        let found: Vec<Vec<Finding>> = files.par_iter().map(|&file| this.found_in(file)).collect();
        for (file, mut found) in files.into_iter().zip(found) {
            found.extend(circles.iter().filter(|(first, _)| *first == file).map(|(_, f)| f.clone()));
            self.board.put(file, found);
        }
    }

    fn found_in(&self, file: FileId) -> Vec<Finding> {
        let state = &self.states[file.0 as usize];
        let parsed = match &state.reading {
            Some(Reading::Absent(fault)) if self.roots.contains(&file) => return vec![unreadable(file, fault)],
            Some(Reading::Present(parsed)) if self.reached.contains(&file) => parsed,
            _ => return Vec::new(),
        };
        let mut found = parsed.findings.clone();
        found.extend(state.links.findings.iter().cloned());
        if let Some(checked) = self.program.checked(file) {
            found.extend(checked.findings.iter().cloned());
        }
        if parsed.module.decls.iter().any(|d| matches!(d.kind, DeclKind::Foundation { .. })) {
            let judged = guarded(file, || foundations::judge(&self.program, file));
            found.extend(judged.unwrap_or_else(|fault| vec![*fault]));
        }
        found
    }

    fn use_line(&self, from: FileId, to: FileId) -> Option<Span> {
        let data = self.program.module(from)?;
        let at = data.uses.iter().position(|target| *target == Some(to))?;
        Some(data.module.uses.get(at)?.span)
    }

    fn put_manifest_findings(&mut self) {
        let mut findings = self.manifest_findings.clone();
        findings.extend(unknown_names(&self.manifest, &self.program));
        for (at, pack) in self.codes.iter().enumerate() {
            if let (None, Some(name), Some(place)) =
                (pack, self.manifest.codes.get(at), self.manifest.code_places.get(at))
            {
                findings.push(unknown_pack(*name, *place));
            }
        }
        self.board.put(Project::MANIFEST, findings);
    }

    fn state(&mut self, file: FileId) -> &mut FileState {
        let at = file.0 as usize;
        if at >= self.states.len() {
            self.states.resize_with(at + 1, FileState::default);
        }
        &mut self.states[at]
    }
}

fn unreadable(file: FileId, fault: &ReadFault) -> Finding {
    let place = Span::new(file, 0, 0);
    match fault {
        ReadFault::Outside => Finding::new(codes::LINK_OUTSIDE, place, "the file is a link that leaves the repository")
            .label("nothing outside is read")
            .mend("put the file itself in the place of the link"),
        fault => Finding::new(codes::FILE_UNREADABLE, place, "the file cannot be read").label(fault.to_string()),
    }
}
