//! Findings mended by the edits they offer, each tried before it is kept.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use wythe_findings::{Edit, Finding, Fix, Safety, Severity, apply_edits};
use wythe_source::FileId;

use crate::Project;

/// The most edits tried in one go.
const MOST_TRIES: usize = 10_000;

/// How many fixes are weighed against one another.
const AT_ONCE: usize = 24;

/// A file in which something was mended. Its new text stands in the project in the place of its own.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Mended {
    /// The file.
    pub file: FileId,
    /// How many fixes were made in it.
    pub count: usize,
}

/// Makes the fixes that the findings of a checked project offer, in the files asked for, and keeps those that work: the
/// finding is gone from its file, and no error or warning has come that was not there. Gives the files that differ, in order of
/// path; nothing is written.
///
/// With `not_safe`, fixes that a person should look at are made too.
pub fn mend(project: &mut Project, not_safe: bool) -> Vec<Mended> {
    let mut counts: BTreeMap<FileId, usize> = BTreeMap::new();
    let mut refused: BTreeSet<String> = BTreeSet::new();
    let mut tries = 0;
    while tries < MOST_TRIES {
        let open = candidates(project, not_safe, &refused);
        tries += open.len();
        // One fix may bar the way to another; the one that leaves the fewest faults goes first.
        let mut best: Option<(usize, usize, Arc<str>)> = None;
        for (at, (finding, fix)) in open.iter().enumerate() {
            match attempt(project, finding, fix) {
                Some((faults, text)) if best.as_ref().is_none_or(|(fewest, ..)| faults < *fewest) => {
                    best = Some((faults, at, text));
                }
                Some(_) => {}
                None => {
                    refused.insert(mark(project, finding, fix));
                }
            }
        }
        match best {
            Some((_, at, text)) => {
                let file = open[at].0.primary.span.file;
                put(project, file, text);
                *counts.entry(file).or_default() += 1;
                // What failed in the old text may do in the new one.
                refused.clear();
            }
            None if open.is_empty() => break,
            None => {}
        }
    }
    let mut mended: Vec<Mended> = counts.into_iter().map(|(file, count)| Mended { file, count }).collect();
    mended.sort_by_cached_key(|m| project.entry(m.file).cloned());
    mended
}

/// The first findings with a fix that may be made and has not failed yet.
fn candidates(project: &Project, not_safe: bool, refused: &BTreeSet<String>) -> Vec<(Finding, Fix)> {
    let roots: BTreeSet<FileId> = project.roots().collect();
    let mut found = Vec::new();
    for finding in project.findings() {
        if !roots.contains(&finding.primary.span.file) {
            continue;
        }
        for fix in finding.fixes.iter().filter(|fix| not_safe || fix.safety == Safety::Safe) {
            let mut places = fix.edits.iter().map(|e| e.span.file).chain(fix.moves.iter().map(|m| m.to.file));
            // A fix that reaches into another file is for a person in an editor.
            if places.all(|file| file == finding.primary.span.file) && !refused.contains(&mark(project, &finding, fix))
            {
                found.push((finding.clone(), fix.clone()));
            }
        }
        if found.len() >= AT_ONCE {
            break;
        }
    }
    found
}

/// By what a failed fix is known again when lines have moved.
fn mark(project: &Project, finding: &Finding, fix: &Fix) -> String {
    let place = finding.primary.span;
    let here = project.text(place.file).get(place.range()).unwrap_or("");
    format!("{}\n{}\n{}\n{}\n{here}", place.file.0, finding.name.as_str(), finding.title, fix.title)
}

/// Makes a fix, looks at what comes of it, and takes it back. Gives how many faults are left and the new text, if it is
/// to be kept.
fn attempt(project: &mut Project, finding: &Finding, fix: &Fix) -> Option<(usize, Arc<str>)> {
    let file = finding.primary.span.file;
    let old: Arc<str> = project.text(file).into();
    let edits: Vec<Edit> = fix.resolve(|file| Some(project.text(file)))?;
    let new: Arc<str> = apply_edits(&old, &edits)?.into();
    if new == old {
        return None;
    }
    let before = Tally::of(project, finding);
    put(project, file, new.clone());
    let after = Tally::of(project, finding);
    put(project, file, old);
    after.betters(&before).then(|| (after.faults.values().sum(), new))
}

fn put(project: &mut Project, file: FileId, text: Arc<str>) {
    if let Some(path) = project.entry(file).map(|e| e.path.clone()) {
        project.set_text(path, text);
        project.check_affected();
    }
}

/// How often the finding at hand, and each error and warning, stand.
struct Tally {
    /// Of the name to be mended, in its file.
    at_hand: usize,
    faults: BTreeMap<&'static str, usize>,
}

impl Tally {
    fn of(project: &Project, finding: &Finding) -> Tally {
        let alike = |f: &&Finding| f.name == finding.name && f.primary.span.file == finding.primary.span.file;
        let all = project.findings();
        let mut faults = BTreeMap::new();
        for fault in all.iter().filter(|f| f.severity >= Severity::Warning) {
            *faults.entry(fault.name.as_str()).or_default() += 1;
        }
        Tally { at_hand: all.iter().filter(alike).count(), faults }
    }

    fn betters(&self, before: &Tally) -> bool {
        let known = |name: &str| before.faults.get(name).copied().unwrap_or(0);
        self.at_hand < before.at_hand && self.faults.iter().all(|(name, count)| *count <= known(name))
    }
}
