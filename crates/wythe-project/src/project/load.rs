//! Reading: what is stale, what that leads to, and where every `use` line ends.

use std::sync::Arc;

use rayon::prelude::*;
use rustc_hash::FxHashSet;
use wythe_source::FileId;

use super::Project;
use crate::pipeline::link::{Found, Shelves, candidates, code_candidates, link};
use crate::pipeline::read::{Reading, read};
use crate::{FileEntry, Origin, ReadFault, Sources as _, built_in};

impl Project {
    /// Reads what is stale and everything it leads to; gives the files that are not as they were.
    pub(super) fn load(&mut self) -> FxHashSet<FileId> {
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
            let links = link(entry, &parsed.module, self.shelves(), |candidate| self.found(candidate));
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
}
