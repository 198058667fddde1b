//! Checking and judging what a change has made due, and putting the findings on the board.

use std::sync::Arc;

use rayon::prelude::*;
use rustc_hash::FxHashSet;
use wythe_eval::{Judgement, Setting, Shared, WeatherSource};
use wythe_findings::{Finding, codes};
use wythe_sema::{DefId, Res};
use wythe_source::{FileId, Span};
use wythe_syntax::ast::DeclKind;
use wythe_syntax::limits::MAX_FINDINGS;
use wythe_units::DisplayOptions;

use super::Project;
use crate::ReadFault;
use crate::guard::guarded;
use crate::pipeline::check;
use crate::pipeline::deprecated::deprecated;
use crate::pipeline::order::{affected, circle_finding};
use crate::pipeline::read::Reading;

impl Project {
    /// Checks files, judges what that bears on, and puts what is found on the board.
    pub(super) fn judge(&mut self, changed: &FxHashSet<FileId>) {
        let mut due = affected(&self.order, changed);
        check::check(Arc::make_mut(&mut self.program), &self.order, &due);
        self.add_waived(&mut due);
        if self.codes.iter().flatten().any(|code| due.contains(code)) {
            // A pack of the manifest holds for files that do not name it.
            due.extend(&self.reached);
        }
        let mut circles: Vec<(FileId, Finding)> = Vec::new();
        for circle in &self.order.circles {
            let finding = circle_finding(circle, |f| self.name(f), |from, to| self.use_line(from, to));
            circles.extend(finding.map(|finding| (circle[0], finding)));
        }
        let mut files: Vec<FileId> = due.into_iter().collect();
        files.sort_unstable();
        let this = &*self;
        let shared = Arc::default();
        let judged: Vec<_> = files.par_iter().map(|&file| this.judged(file, &shared, None)).collect();
        for (&file, judgement) in files.iter().zip(judged) {
            let mut found = self.found_in(file, judgement.as_ref());
            found.extend(circles.iter().filter(|(first, _)| *first == file).map(|(_, f)| f.clone()));
            self.board.put(file, found);
            self.state(file).judgement = judgement.map(Arc::new);
        }
    }

    /// Adds the files in which a waiver that is new, other or gone holds, and those that build on them.
    fn add_waived(&mut self, due: &mut FxHashSet<FileId>) {
        let mut files: Vec<FileId> = self.reached.iter().copied().collect();
        files.sort_unstable();
        let mut waivers = Vec::new();
        for file in files {
            let Some(data) = self.program.module(file) else { continue };
            for (index, decl) in data.module.decls.iter().enumerate() {
                if let (DeclKind::Waiver { within, .. }, Some(checked)) = (&decl.kind, &data.checked) {
                    let target = match checked.ident(*within) {
                        Res::Def(def) => Some(def.file),
                        _ => None,
                    };
                    waivers.push((DefId { file, index: index as u32 }, target));
                }
            }
        }
        let gone = self.waivers.iter().filter(|known| !waivers.contains(known));
        let new = waivers.iter().filter(|waiver| due.contains(&waiver.0.file) || !self.waivers.contains(waiver));
        let held: FxHashSet<FileId> = gone.chain(new).filter_map(|(_, target)| *target).collect();
        // A waiver may name what every file knows, and that stands in no file of the program.
        let held = held.into_iter().filter(|file| self.reached.contains(file)).collect();
        due.extend(affected(&self.order, &held));
        self.waivers = waivers;
    }

    /// Works out a checked file once more and keeps what its rules were decided by: for sheets and commands that show why
    /// a rule holds. Start from `JudgedFoundation::account`.
    pub fn judged_with_evidence(&self, file: FileId) -> Option<Judgement> {
        self.judged(file, &Arc::default(), Some(&self.manifest.display))
    }

    /// Works out a file that stands in the program; of a breakdown, the finding that says so.
    fn judged(&self, file: FileId, shared: &Arc<Shared>, evidence: Option<&DisplayOptions>) -> Option<Judgement> {
        if !self.reached.contains(&file) {
            return None;
        }
        let waivers: Vec<DefId> = self.waivers.iter().map(|(waiver, _)| *waiver).collect();
        let read = |named: &wythe_model::ClimateFile| self.weather(named);
        let setting = Setting {
            packs: &|file| self.codes_for(file),
            waivers: &waivers,
            today: self.manifest.today,
            asks: &self.manifest.asks,
            evidence,
            shared: shared.clone(),
            weather: WeatherSource { read: &read, memo: &self.moisture },
        };
        let judged = guarded(file, || wythe_eval::judge(&self.program, file, &setting));
        Some(judged.unwrap_or_else(|fault| Judgement { findings: vec![*fault], ..Judgement::default() }))
    }

    /// Everything the stations have found for a file.
    fn found_in(&self, file: FileId, judgement: Option<&Judgement>) -> Vec<Finding> {
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
        let judged = judgement.into_iter().flat_map(|judgement| &judgement.findings);
        let left = deprecated(&self.program, file);
        let all = parsed.findings.iter().chain(&state.links.findings).chain(&left);
        at_most(MAX_FINDINGS, all.chain(checked.filter(|finding| !expected(finding))).chain(judged))
    }

    fn use_line(&self, from: FileId, to: FileId) -> Option<Span> {
        let data = self.program.module(from)?;
        let at = data.uses.iter().position(|target| *target == Some(to))?;
        Some(data.module.uses.get(at)?.span)
    }
}

/// The first findings, up to a limit, and one that counts the rest.
fn at_most<'a>(limit: usize, mut findings: impl Iterator<Item = &'a Finding>) -> Vec<Finding> {
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
