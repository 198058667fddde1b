//! Checking: in one go, or bit by bit for an editor, where what is open comes first.

use std::ops::ControlFlow;

use wythe_source::FileId;

use super::standing::Judged;
use super::{FileReport, Project};

/// How many files are read and checked in one step. What is typed meanwhile waits for the step to end.
const STEP: usize = 24;

impl Project {
    /// Checks what the changes since the last check have made due, and reports the files whose findings differ.
    pub fn check_affected(&mut self) -> Vec<FileReport> {
        self.all_words();
        let mut files: Vec<FileId> = self.unjudged.keys().copied().collect();
        files.sort_unstable();
        self.judge(&files);
        self.reports()
    }

    /// Checks the names and types of some files and of everything they build on, and leaves the rest due. What was
    /// found of foundations before stands until they are judged again, moved along with the text.
    pub fn check_first(&mut self, files: &[FileId]) -> Vec<FileReport> {
        self.take_up(files.to_vec());
        let mut due: Vec<FileId> = self.closure(files.iter().copied()).into_iter().collect();
        due.extend(files);
        due.retain(|file| self.unchecked.contains(file));
        due.sort_unstable();
        due.dedup();
        self.check_words(&due);
        self.reports()
    }

    /// Checks the names and types of every file, and judges none.
    pub fn check_names(&mut self) -> Vec<FileReport> {
        self.all_words();
        self.reports()
    }

    /// Reads every file that is due, so that all names are known, and checks none.
    pub fn read_all(&mut self) {
        let stale = self.stale.iter().copied().collect();
        self.take_up(stale);
    }

    /// Reads and checks a few more of the files that are due; breaks when none are left. Judging them is another
    /// matter: see [`Project::tasks`].
    pub fn check_more(&mut self) -> ControlFlow<Vec<FileReport>, Vec<FileReport>> {
        if !self.stale.is_empty() || !self.due.is_empty() {
            let mut some: Vec<FileId> = self.stale.iter().copied().collect();
            some.sort_unstable();
            some.truncate(STEP);
            self.take_up(some);
        }
        let levels = self.order.leveled(self.unchecked.iter().copied());
        match levels.into_iter().next() {
            Some(mut lowest) => {
                // Files that use each other are checked together, as they are when all are.
                if self.order.circles.is_empty() {
                    lowest.truncate(STEP);
                }
                self.check_words(&lowest);
            }
            // What is left stands in no program, and yet may be told of.
            None => self.all_words(),
        }
        let reports = self.reports();
        if self.words_are_due() { ControlFlow::Continue(reports) } else { ControlFlow::Break(reports) }
    }

    /// Whether names or types of any file are still to be checked.
    pub fn words_are_due(&self) -> bool {
        !(self.stale.is_empty() && self.due.is_empty() && self.unchecked.is_empty())
    }

    /// Whether a file is one of the program and not judged as it stands.
    pub fn is_due(&self, file: FileId) -> bool {
        self.stale.contains(&file) || self.unjudged.contains_key(&file)
    }

    /// Whether no file waits to be judged.
    pub fn is_judged(&self) -> bool {
        self.unjudged.is_empty()
    }

    /// How many files wait to be read, checked or judged.
    pub fn waiting(&self) -> usize {
        self.stale.len() + self.due.len() + self.unchecked.len().max(self.unjudged.len())
    }

    /// Checks and judges a file with everything it builds on, and all else that is due if it is not more than `few`.
    pub fn check_for(&mut self, file: FileId, few: usize) -> Vec<FileReport> {
        let mut reports = self.check_first(&[file]);
        if self.waiting() <= few {
            reports.extend(self.check_affected());
        } else if self.unjudged.contains_key(&file) && self.is_ready(file) {
            self.judge(&[file]);
            reports.extend(self.reports());
        }
        reports
    }

    /// Takes in a judgement made beside the project; one that a change has made idle is dropped.
    pub fn take(&mut self, judged: Judged) -> Vec<FileReport> {
        self.take_in(judged);
        self.reports()
    }

    fn take_up(&mut self, files: Vec<FileId>) {
        let mut loaded = self.load(files);
        loaded.changed.extend(self.due.drain());
        if !loaded.changed.is_empty() || self.reordered {
            self.settle_program(loaded);
        }
    }

    fn all_words(&mut self) {
        self.read_all();
        let mut due: Vec<FileId> = self.unchecked.iter().copied().collect();
        due.sort_unstable();
        self.check_words(&due);
    }

    fn reports(&mut self) -> Vec<FileReport> {
        if !self.words_are_due() {
            self.put_manifest_findings();
        }
        let mut touched = self.board.take_touched();
        touched.sort_by_cached_key(|file| self.files.get(*file).cloned());
        touched.into_iter().map(|file| FileReport { file, findings: self.findings_in(file) }).collect()
    }
}
