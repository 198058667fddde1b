//! Names and types: checking what is due of them, and the waivers that come to light by it.

use std::sync::Arc;

use rustc_hash::FxHashSet;
use wythe_eval::Judgement;
use wythe_findings::{Finding, codes};
use wythe_sema::{DefId, Res};
use wythe_source::{FileId, Span};
use wythe_syntax::ast::DeclKind;
use wythe_syntax::limits::MAX_FINDINGS;

use super::Project;
use crate::ReadFault;
use crate::board::Station;
use crate::pipeline::check;
use crate::pipeline::deprecated::deprecated;
use crate::pipeline::order::{affected, circle_finding};
use crate::pipeline::read::Reading;

impl Project {
    /// Checks files whose names and types are due, and puts what is found on the board. What they use must have been
    /// checked, or be among them.
    pub(super) fn check_words(&mut self, files: &[FileId]) {
        let levels = self.order.leveled(files.iter().copied());
        check::check(Arc::make_mut(&mut self.program), &levels);
        for &file in files {
            self.unchecked.remove(&file);
            self.note_waivers(file);
            self.put_words(file);
            if !self.reached.contains(&file) {
                self.unjudged.remove(&file);
                self.state(file).judgement = None;
                self.board.put(file, Station::Judgement, Vec::new());
            }
        }
    }

    /// Puts what is wrong with the text, the names and the types of a file on the board.
    pub(super) fn put_words(&mut self, file: FileId) {
        let judgement = self.state(file).judgement.clone();
        let found = self.words_of(file, judgement.as_deref());
        self.board.put(file, Station::Words, found);
    }

    fn words_of(&self, file: FileId, judgement: Option<&Judgement>) -> Vec<Finding> {
        let state = &self.states[file.0 as usize];
        let parsed = match &state.reading {
            Some(Reading::Absent(fault)) if self.roots.contains(&file) => return vec![unreadable(file, fault)],
            Some(Reading::Present(parsed)) if self.reached.contains(&file) => parsed,
            _ => return Vec::new(),
        };
        // A test may expect a fault of names or types within it; such a one does not count.
        let expected = |finding: &&Finding| {
            let mut tests = judgement.iter().flat_map(|judgement| &judgement.expected);
            tests.any(|(name, test)| name == finding.name.as_str() && test.holds(finding.primary.span))
        };
        let checked = self.program.checked(file).into_iter().flat_map(|checked| &checked.findings);
        let left = deprecated(&self.program, file);
        let all = parsed.findings.iter().chain(&state.links.findings).chain(&left);
        let mut found = at_most(MAX_FINDINGS, all.chain(checked.filter(|finding| !expected(finding))));
        for circle in self.order.circles.iter().filter(|circle| circle.first() == Some(&file)) {
            found.extend(circle_finding(circle, |f| self.name(f), |from, to| self.use_line(from, to)));
        }
        found
    }

    fn use_line(&self, from: FileId, to: FileId) -> Option<Span> {
        let data = self.program.module(from)?;
        let at = data.uses.iter().position(|target| *target == Some(to))?;
        Some(data.module.uses.get(at)?.span)
    }

    /// Notes the waivers of a file. Where one is new, other or gone, the files in which it holds are to be judged
    /// again, and those that build on them.
    pub(super) fn note_waivers(&mut self, file: FileId) {
        let now = self.waivers_in(file);
        let before = std::mem::replace(&mut self.state(file).waivers, now.clone());
        if before.is_empty() && now.is_empty() {
            return;
        }
        let held: FxHashSet<FileId> = before.iter().chain(&now).filter_map(|(_, target)| *target).collect();
        // A waiver may name what every file knows, and that stands in no file of the program.
        let held = held.into_iter().filter(|file| self.reached.contains(file)).collect();
        self.judge_again(affected(&self.order, &held));
        if now.is_empty() {
            self.waiving.remove(&file);
        } else {
            self.waiving.insert(file);
        }
        let states = &self.states;
        let all = self.waiving.iter().flat_map(|file| &states[file.0 as usize].waivers);
        self.waivers = all.map(|(waiver, _)| *waiver).collect();
    }

    fn waivers_in(&self, file: FileId) -> Vec<(DefId, Option<FileId>)> {
        let Some(data) = self.program.module(file) else { return Vec::new() };
        let Some(checked) = &data.checked else { return Vec::new() };
        let decls = data.module.decls.iter().enumerate();
        let waivers = decls.filter_map(|(index, decl)| {
            let DeclKind::Waiver { within, .. } = &decl.kind else { return None };
            let target = match checked.ident(*within) {
                Res::Def(def) => Some(def.file),
                _ => None,
            };
            Some((DefId { file, index: index as u32 }, target))
        });
        waivers.collect()
    }
}

/// The first findings, up to a limit, and one that counts the rest.
pub(super) fn at_most<'a>(limit: usize, mut findings: impl Iterator<Item = &'a Finding>) -> Vec<Finding> {
    let mut kept: Vec<Finding> = findings.by_ref().take(limit).cloned().collect();
    let mut left = 0;
    let mut last = None;
    for finding in findings {
        left += 1;
        last = Some(finding.primary.span);
    }
    if let Some(place) = last {
        kept.push(
            Finding::new(codes::TOO_MANY_FINDINGS, place, format!("{left} or more findings are not shown"))
                .cause(format!("a file lists {limit} findings at most"))
                .mend("mend the first ones and check again"),
        );
    }
    kept
}

/// Says that a file cannot be read.
pub(super) fn unreadable(file: FileId, fault: &ReadFault) -> Finding {
    let place = Span::new(file, 0, 0);
    match fault {
        ReadFault::Outside => Finding::new(codes::LINK_OUTSIDE, place, "the file is a link that leaves the repository")
            .label("nothing outside is read")
            .mend("put the file itself in the place of the link"),
        fault => Finding::new(codes::FILE_UNREADABLE, place, "the file cannot be read").label(fault.to_string()),
    }
}
