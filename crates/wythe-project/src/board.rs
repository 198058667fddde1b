//! Who found what: findings by the file they stand in and the file whose check made them.

use std::collections::BTreeMap;

use rustc_hash::{FxHashMap, FxHashSet};
use wythe_check::merge;
use wythe_findings::Finding;
use wythe_source::FileId;

/// The findings of a project. The check of one file may find faults in another: a house in its library.
#[derive(Debug, Default)]
pub(crate) struct Board {
    /// By the file a finding stands in, then by the file whose check made it.
    shown: FxHashMap<FileId, BTreeMap<FileId, Vec<Finding>>>,
    /// The files each check has found faults in.
    found_in: FxHashMap<FileId, FxHashSet<FileId>>,
    touched: FxHashSet<FileId>,
}

impl Board {
    /// Puts what the check of a file has found in the place of what it found before.
    pub(crate) fn put(&mut self, by: FileId, findings: Vec<Finding>) {
        let mut new: FxHashMap<FileId, Vec<Finding>> = FxHashMap::default();
        for finding in findings {
            new.entry(finding.primary.span.file).or_default().push(finding);
        }
        let now: FxHashSet<FileId> = new.keys().copied().collect();
        let before = self.found_in.insert(by, now).unwrap_or_default();
        for file in before {
            if !new.contains_key(&file)
                && let Some(makers) = self.shown.get_mut(&file)
            {
                makers.remove(&by);
                self.touched.insert(file);
            }
        }
        for (file, findings) in new {
            let makers = self.shown.entry(file).or_default();
            if makers.get(&by) != Some(&findings) {
                makers.insert(by, findings);
                self.touched.insert(file);
            }
        }
    }

    /// The findings in a file, by place. What several checks have found alike stands once.
    pub(crate) fn of(&self, file: FileId) -> Vec<Finding> {
        let all: Vec<Finding> =
            self.shown.get(&file).into_iter().flat_map(BTreeMap::values).flatten().cloned().collect();
        merge(all)
    }

    /// Every file with findings.
    pub(crate) fn files(&self) -> Vec<FileId> {
        self.shown.iter().filter(|(_, makers)| !makers.is_empty()).map(|(file, _)| *file).collect()
    }

    /// Counts every file with findings as touched.
    pub(crate) fn touch_all(&mut self) {
        self.touched.extend(self.files());
    }

    /// The files whose findings have changed since the last call.
    pub(crate) fn take_touched(&mut self) -> Vec<FileId> {
        self.touched.drain().collect()
    }
}
