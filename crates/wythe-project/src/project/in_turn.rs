//! A check of many files that lets go of those nobody uses as soon as they are judged, so that what it keeps does not
//! grow with the number of houses.

use std::sync::Arc;

use rayon::prelude::*;
use rustc_hash::FxHashSet;
use wythe_check::merge;
use wythe_findings::Finding;
use wythe_source::FileId;

use super::{FileState, Project};
use crate::pipeline::head::{may_waive, used_paths};
use crate::{SourcePath, Sources as _};

/// With fewer files than this nothing is gained by letting any go.
const FEW: usize = 200;

/// How many files are held at once beside those that others use.
const AT_ONCE: usize = 128;

impl Project {
    /// Checks every file asked for and gives what [`Project::findings`] gives after a check, but keeps only the files
    /// that others use. Of the rest the texts with findings stay, to be shown; nothing else can be asked of them.
    pub fn check_in_turn(&mut self) -> Vec<Finding> {
        if self.roots.len() < FEW {
            self.check_affected();
            return self.findings();
        }
        let alone = self.used_by_nobody();
        for file in &alone {
            self.roots.remove(file);
            self.stale.remove(file);
        }
        self.check_affected();
        let mut found = self.findings();
        for files in alone.chunks(AT_ONCE) {
            self.roots.extend(files);
            self.stale.extend(files);
            self.check_affected();
            let findings = self.findings();
            let shown: FxHashSet<FileId> = findings.iter().map(|f| f.primary.span.file).collect();
            for &file in files {
                self.let_go(file, shown.contains(&file));
            }
            found.extend(findings);
        }
        let mut found = merge(found);
        found.sort_by_cached_key(|f| (self.files.get(f.primary.span.file).cloned(), f.primary.span, f.name.as_str()));
        found
    }

    /// The files asked for that no file uses, in order of path. A name that any `use` line ends with counts as used,
    /// wherever it leads; packs are used by name, and waivers bear on files that do not use them.
    fn used_by_nobody(&self) -> Vec<FileId> {
        let paths: Vec<(FileId, SourcePath)> =
            self.roots.iter().filter_map(|file| Some((*file, self.files.get(*file)?.path.clone()))).collect();
        let glances: Vec<(Vec<String>, bool)> = paths
            .par_iter()
            .map(|(_, path)| match self.sources.read(path) {
                Ok(bytes) => {
                    let text = String::from_utf8_lossy(&bytes);
                    let name = |path: &str| path.rsplit('/').next().unwrap_or(path).to_owned();
                    (used_paths(&text).map(name).collect(), may_waive(&text))
                }
                // What cannot be read is told in its turn.
                Err(_) => (Vec::new(), true),
            })
            .collect();
        let used: FxHashSet<&str> = glances.iter().flat_map(|(used, _)| used).map(String::as_str).collect();
        let mut alone: Vec<_> = paths
            .iter()
            .zip(&glances)
            .filter(|((_, path), (_, waives))| {
                let name = path.as_str().rsplit('/').next().unwrap_or("");
                let in_codes = path.as_str().split('/').any(|part| part == "codes");
                !waives && !in_codes && !used.contains(name)
            })
            .map(|((file, path), _)| (path, *file))
            .collect();
        alone.sort();
        alone.into_iter().map(|(_, file)| file).collect()
    }

    fn let_go(&mut self, file: FileId, keep_text: bool) {
        if keep_text {
            let text: Arc<str> = self.text(file).into();
            self.kept_texts.insert(file, text);
        }
        self.roots.remove(&file);
        self.released.insert(file);
        self.reached.remove(&file);
        Arc::make_mut(&mut self.program).remove(file);
        self.board.take_back(file);
        self.states[file.0 as usize] = FileState::default();
    }
}
