//! Judging: which foundations are due, judging them on the threads at hand or beside the project, and putting what is
//! found on the board.

use std::sync::Arc;

use rayon::prelude::*;
use rustc_hash::FxHashSet;
use wythe_eval::Judgement;
use wythe_source::FileId;
use wythe_syntax::limits::MAX_FINDINGS;

use super::standing::{Judged, Standing, Task};
use super::words::at_most;
use super::{Due, Project};
use crate::board::Station;

impl Project {
    /// Notes that files are to be judged, whatever judgement of them is under way.
    pub(super) fn judge_again(&mut self, files: impl IntoIterator<Item = FileId>) {
        self.ticket += 1;
        let due = Due { ticket: self.ticket, under_way: false };
        let files = files.into_iter().filter(|file| self.reached.contains(file));
        self.unjudged.extend(files.map(|file| (file, due)));
    }

    /// Judges files on the threads at hand. Everything they build on must have been checked.
    pub(super) fn judge(&mut self, files: &[FileId]) {
        let standing = self.standing();
        let judged: Vec<Judgement> = if files.len() == 1 {
            files.iter().map(|file| standing.judged(*file, None)).collect()
        } else {
            files.par_iter().map(|file| standing.judged(*file, None)).collect()
        };
        for (file, judgement) in files.iter().zip(judged) {
            self.put_judgement(*file, judgement);
        }
    }

    /// Works out a checked file once more and keeps what its rules were decided by: for sheets and commands that show why
    /// a rule holds. Start from `JudgedFoundation::account`.
    pub fn judged_with_evidence(&self, file: FileId) -> Option<Judgement> {
        self.reached.contains(&file).then(|| self.standing().judged(file, Some(&self.manifest.display)))
    }

    /// Judgements to be made beside the project, those of `first` before others and `most` in all. What is not all
    /// checked yet waits.
    pub fn tasks(&mut self, first: &[FileId], most: usize) -> Vec<Task> {
        let waits = |project: &Project, file: &FileId| project.unjudged.get(file).is_some_and(|due| !due.under_way);
        let mut files: Vec<FileId> =
            first.iter().copied().filter(|file| waits(self, file) && self.is_ready(*file)).take(most).collect();
        if files.len() < most && self.unchecked.is_empty() && self.stale.is_empty() {
            let mut rest: Vec<FileId> =
                self.unjudged.iter().filter(|(_, due)| !due.under_way).map(|(file, _)| *file).collect();
            rest.retain(|file| !files.contains(file));
            rest.sort_unstable();
            rest.truncate(most - files.len());
            files.extend(rest);
        }
        if files.is_empty() {
            return Vec::new();
        }
        let standing = Arc::new(self.standing());
        let begin = |file: FileId| {
            let due = self.unjudged.get_mut(&file)?;
            due.under_way = true;
            Some(Task { file, ticket: due.ticket, standing: standing.clone() })
        };
        files.into_iter().filter_map(begin).collect()
    }

    /// Takes in a judgement made beside the project, unless a change has come in between.
    pub(super) fn take_in(&mut self, judged: Judged) {
        if self.unjudged.get(&judged.file).is_some_and(|due| due.ticket == judged.ticket) {
            self.put_judgement(judged.file, judged.judgement);
        }
    }

    /// Whether a file and everything it builds on have been checked, so that it can be judged.
    pub(super) fn is_ready(&self, file: FileId) -> bool {
        self.closure([file]).iter().all(|file| !self.unchecked.contains(file))
    }

    /// Files and everything a judgement of them builds on: what they use, the packs they are held to, and the files
    /// with waivers that hold in them.
    pub(super) fn closure(&self, files: impl IntoIterator<Item = FileId>) -> FxHashSet<FileId> {
        let mut open: Vec<FileId> = files.into_iter().collect();
        open.extend(self.codes.iter().flatten());
        let mut seen = FxHashSet::default();
        loop {
            while let Some(file) = open.pop() {
                if self.reached.contains(&file) && seen.insert(file) {
                    open.extend(self.states[file.0 as usize].links.uses.iter().flatten());
                }
            }
            let holds = |file: &&FileId| {
                !seen.contains(*file)
                    && self.states[file.0 as usize]
                        .waivers
                        .iter()
                        .any(|(_, to)| to.is_some_and(|to| seen.contains(&to)))
            };
            open.extend(self.waiving.iter().filter(holds));
            if open.is_empty() {
                return seen;
            }
        }
    }

    fn standing(&self) -> Standing {
        Standing {
            program: self.program.clone(),
            files: self.files.clone(),
            codes: self.codes.clone(),
            waivers: self.waivers.clone(),
            today: self.manifest.today,
            asks: self.manifest.asks.clone(),
            sources: self.sources.clone(),
            weather: self.weather.clone(),
            moisture: self.moisture.clone(),
            shared: self.shared.clone(),
        }
    }

    fn put_judgement(&mut self, file: FileId, judgement: Judgement) {
        self.unjudged.remove(&file);
        let state = self.state(file);
        let expected_before = state.judgement.as_ref().is_some_and(|earlier| !earlier.expected.is_empty());
        let expects = expected_before || !judgement.expected.is_empty();
        let found = at_most(MAX_FINDINGS, judgement.findings.iter());
        state.judgement = Some(Arc::new(judgement));
        self.board.put(file, Station::Judgement, found);
        if expects {
            self.put_words(file);
        }
    }
}
