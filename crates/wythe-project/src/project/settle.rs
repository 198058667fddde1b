//! The program and its order, after files have changed.

use std::sync::Arc;

use rustc_hash::FxHashSet;
use wythe_sema::ModuleData;
use wythe_source::FileId;

use super::Project;
use crate::pipeline::order::{affected, order};
use crate::pipeline::read::Reading;

impl Project {
    /// Makes the program hold what the roots reach, with what has changed put in anew.
    pub(super) fn settle_program(&mut self, changed: &mut FxHashSet<FileId>) {
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
            self.states[file.0 as usize].judgement = None;
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
}
