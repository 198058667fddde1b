//! Reading: what is stale, what that leads to, and where every `use` line ends.

use std::sync::Arc;

use rayon::prelude::*;
use rustc_hash::FxHashSet;
use wythe_source::FileId;

use super::Project;
use crate::pipeline::link::{Found, Shelves, candidates, code_candidates, link};
use crate::pipeline::moved::Moved;
use crate::pipeline::read::{Reading, read};
use crate::{FileEntry, Origin, ReadFault, Sources as _, built_in};

/// What came of reading.
#[derive(Debug, Default)]
pub(super) struct Loaded {
    /// The files that are not as they were.
    pub(super) changed: FxHashSet<FileId>,
    /// How the texts that were there before have changed.
    pub(super) moved: Vec<Moved>,
}

impl Project {
    /// Reads what is stale of some files and of everything they lead to.
    pub(super) fn load(&mut self, files: impl IntoIterator<Item = FileId>) -> Loaded {
        let mut loaded = Loaded::default();
        let mut presence_changed = false;
        let mut seen: FxHashSet<FileId> = FxHashSet::default();
        let mut wave: Vec<FileId> = files.into_iter().collect();
        let packs: Vec<_> =
            self.manifest.codes.iter().flat_map(|name| code_candidates(Origin::Repository, *name)).collect();
        wave.extend(packs.into_iter().map(|pack| self.number(pack)));
        while !wave.is_empty() {
            wave.sort_unstable();
            wave.retain(|file| seen.insert(*file));
            if let Some(last) = wave.last() {
                self.state(*last);
            }
            let (due, known): (Vec<FileId>, Vec<FileId>) =
                wave.iter().partition(|file| self.stale.contains(file) || self.state(**file).reading.is_none());
            let this = &*self;
            let readings: Vec<Reading> = if due.len() == 1 {
                due.iter().map(|f| this.reading(*f)).collect()
            } else {
                due.par_iter().map(|f| this.reading(*f)).collect()
            };
            let mut next = Vec::new();
            for file in known {
                next.extend(self.state(file).links.uses.iter().flatten());
            }
            for (file, reading) in due.into_iter().zip(readings) {
                self.stale.remove(&file);
                presence_changed |= self.keep(file, reading, &mut loaded);
                next.extend(self.targets(file));
            }
            wave = next;
        }
        let everything = presence_changed || std::mem::take(&mut self.unlinked);
        self.relink(&mut loaded.changed, everything);
        loaded
    }

    /// Keeps what was read of a file; says whether it has come or gone since it was last looked for.
    fn keep(&mut self, file: FileId, reading: Reading, loaded: &mut Loaded) -> bool {
        let earlier = self.state(file).reading.replace(reading);
        let now = self.state(file).reading.as_ref();
        match (&earlier, now) {
            (Some(Reading::Present(a)), Some(Reading::Present(b))) => {
                if Arc::ptr_eq(a, b) {
                    return false;
                }
                loaded.moved.extend(Moved::between(file, &a.text, &b.text));
            }
            (Some(Reading::Absent(a)), Some(Reading::Absent(b))) if a == b => return false,
            _ => {}
        }
        let was_present = earlier.as_ref().is_some_and(|r| r.present().is_some());
        let is_present = now.is_some_and(|r| r.present().is_some());
        loaded.changed.insert(file);
        self.reordered |= was_present != is_present;
        earlier.is_some() && was_present != is_present
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

    const fn shelves(&self) -> Shelves<'_> {
        Shelves { manifest: &self.manifest, of_libraries: &self.library_folders }
    }

    /// The files the `use` lines of a file may mean.
    fn targets(&mut self, file: FileId) -> Vec<FileId> {
        let (Some(entry), Some(parsed)) = (self.files.get(file).cloned(), self.parsed(file).cloned()) else {
            return Vec::new();
        };
        let all = parsed.module.uses.iter().flat_map(|line| candidates(&entry, line, self.shelves()));
        let all: Vec<_> = all.collect();
        all.into_iter().map(|candidate| self.number(candidate)).collect()
    }

    fn relink(&mut self, changed: &mut FxHashSet<FileId>, everything: bool) {
        let due: Vec<FileId> = if everything {
            (0..self.states.len() as u32).map(FileId).collect()
        } else {
            changed.iter().copied().collect()
        };
        for file in due {
            let (Some(entry), Some(parsed)) = (self.files.get(file), self.parsed(file)) else { continue };
            let links = link(entry, &parsed.module, self.shelves(), |candidate| self.found(candidate));
            let state = self.state(file);
            if state.links != links {
                let other_files = state.links.uses != links.uses;
                state.links = links;
                changed.insert(file);
                self.reordered |= other_files;
            }
        }
        let code = |name| {
            code_candidates(Origin::Repository, name).iter().find_map(|c| match self.found(c) {
                Found::Present(file) => Some(file),
                Found::Absent(_) => None,
            })
        };
        let codes = self.manifest.codes.iter().map(|name| code(*name)).collect();
        self.reordered |= self.codes != codes;
        self.codes = codes;
    }

    fn found(&self, candidate: &FileEntry) -> Found {
        let Some(file) = self.files.find(candidate) else { return Found::Absent(ReadFault::NotFound) };
        match self.states.get(file.0 as usize).and_then(|s| s.reading.as_ref()) {
            Some(Reading::Present(_)) => Found::Present(file),
            Some(Reading::Absent(fault)) => Found::Absent(fault.clone()),
            None => Found::Absent(ReadFault::NotFound),
        }
    }
}
