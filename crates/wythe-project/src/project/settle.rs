//! The program and its order, after files have changed.

use std::sync::Arc;

use rustc_hash::FxHashSet;
use wythe_sema::ModuleData;
use wythe_source::FileId;

use super::Project;
use super::load::Loaded;
use crate::pipeline::order::{affected, order};
use crate::pipeline::read::Reading;

impl Project {
    /// Makes the program hold what the roots reach, with what has changed put in anew, and notes what is to be checked
    /// and judged for it. What was found in texts that have changed moves along with them meanwhile.
    pub(super) fn settle_program(&mut self, loaded: Loaded) {
        let Loaded { mut changed, moved } = loaded;
        if std::mem::take(&mut self.reordered) {
            self.reorder(&mut changed);
        }
        let affected = affected(&self.order, &changed);
        moved.iter().for_each(|moved| self.board.shift(moved));
        let program = Arc::make_mut(&mut self.program);
        for &file in &affected {
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
        if self.codes.iter().flatten().any(|code| affected.contains(code)) {
            // A pack of the manifest holds for files that do not name it.
            let all: Vec<FileId> = self.reached.iter().copied().collect();
            self.judge_again(all);
        }
        self.unchecked.extend(affected.iter().copied());
        self.judge_again(affected);
        self.shared = Arc::default();
    }

    /// Works out anew which files the roots reach and in what order.
    fn reorder(&mut self, changed: &mut FxHashSet<FileId>) {
        let mut reached = FxHashSet::default();
        let mut open: Vec<FileId> = self.roots.iter().copied().chain(self.codes.iter().flatten().copied()).collect();
        while let Some(file) = open.pop() {
            if self.parsed(file).is_some() && reached.insert(file) {
                open.extend(self.state(file).links.uses.iter().flatten());
            }
        }
        let left: Vec<FileId> = self.reached.difference(&reached).copied().collect();
        changed.extend(reached.difference(&self.reached));
        self.reached = reached;
        for &file in &left {
            Arc::make_mut(&mut self.program).remove(file);
            self.board.take_back(file);
            self.unchecked.remove(&file);
            self.unjudged.remove(&file);
            self.note_waivers(file);
            self.state(file).judgement = None;
            if !self.roots.contains(&file) {
                // Read again if it is ever used again: nothing says when it changes meanwhile.
                self.states[file.0 as usize].reading = None;
            }
        }
        let mut files: Vec<FileId> = self.reached.iter().copied().collect();
        files.sort_by_cached_key(|file| self.files.get(*file).cloned());
        let states = &self.states;
        self.order = order(&files, |file| &states[file.0 as usize].links.uses);
    }
}
