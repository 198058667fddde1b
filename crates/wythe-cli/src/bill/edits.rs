//! Which lines differ between two revisions of a repository, and which of them a figure depends on.

use std::collections::{BTreeMap, BTreeSet};
use std::time::Duration;

use similar::{DiffOp, TextDiff};
use wythe_project::{Origin, Project};
use wythe_sema::{DefId, Res};
use wythe_source::{FileId, LineTable, Span};
use wythe_syntax::ast::{DeclKind, ExprId, ExprKind};

/// How long a comparison of two texts may look for the shortest difference.
const PATIENCE: Duration = Duration::from_secs(2);
/// How many lines are named for one change.
const NAMED: usize = 3;
/// How many changed lines a change order lists.
const MOST_LINES: usize = 40;

/// The changed lines of both revisions.
pub(crate) struct Edits {
    pub old: Side,
    pub new: Side,
}

/// The changed lines of one revision, by file, counted from nought.
#[derive(Default)]
pub(crate) struct Side {
    lines: BTreeMap<FileId, BTreeSet<u32>>,
}

impl Edits {
    /// Compares every file of the two programs; where one file is gone and one is new,
    /// they are taken for one.
    /// `lead` are the two files asked for, where one of each was: they are compared whatever they are called.
    pub(crate) fn between(old: &Project, new: &Project, lead: Option<(FileId, FileId)>) -> Edits {
        let mut out = Edits { old: Side::default(), new: Side::default() };
        let mut old_files = files(old);
        let mut new_files = files(new);
        if let Some((a, b)) = lead.filter(|(a, b)| old.name(*a) != new.name(*b)) {
            out.pair(Some((a, old.text(a))), Some((b, new.text(b))));
            old_files.retain(|_, file| *file != a);
            new_files.retain(|_, file| *file != b);
        }
        // What stands in one of them for other reasons is no edit.
        if lead.is_some() {
            old_files.retain(|path, _| new_files.contains_key(path));
            new_files.retain(|path, _| old_files.contains_key(path));
        }
        let (mut gone, mut come): (Vec<FileId>, Vec<FileId>) = (Vec::new(), Vec::new());
        for (path, &file) in &new_files {
            match old_files.get(path) {
                Some(&other) => out.pair(Some((other, old.text(other))), Some((file, new.text(file)))),
                None => come.push(file),
            }
        }
        gone.extend(old_files.iter().filter(|(path, _)| !new_files.contains_key(*path)).map(|(_, &file)| file));
        if let ([was], [is]) = (gone.as_slice(), come.as_slice()) {
            out.pair(Some((*was, old.text(*was))), Some((*is, new.text(*is))));
        } else {
            gone.iter().for_each(|&file| out.pair(Some((file, old.text(file))), None));
            come.iter().for_each(|&file| out.pair(None, Some((file, new.text(file)))));
        }
        out
    }

    fn pair(&mut self, old: Option<(FileId, &str)>, new: Option<(FileId, &str)>) {
        let (a, b) = (old.map_or("", |o| o.1), new.map_or("", |n| n.1));
        if a == b {
            return;
        }
        let diff = TextDiff::configure().timeout(PATIENCE).diff_lines(a, b);
        for op in diff.ops() {
            if matches!(op, DiffOp::Equal { .. }) {
                continue;
            }
            if let Some((file, _)) = old {
                self.old.lines.entry(file).or_default().extend(op.old_range().map(|l| l as u32));
            }
            if let Some((file, _)) = new {
                self.new.lines.entry(file).or_default().extend(op.new_range().map(|l| l as u32));
            }
        }
    }
}

fn files(project: &Project) -> BTreeMap<String, FileId> {
    let known = project.program().files();
    let own = known.into_iter().filter_map(|f| {
        let entry = project.entry(f)?;
        (entry.origin == Origin::Repository).then(|| (entry.path.to_string(), f))
    });
    own.collect()
}

impl Side {
    /// Every changed line that holds anything, in the order of the files.
    pub(crate) fn all_lines(&self, project: &Project) -> Vec<String> {
        let mut out = Vec::new();
        for (&file, lines) in &self.lines {
            for &line in lines {
                let text = project.text(file);
                let range = LineTable::new(text).line_range(line, text);
                let blank = range.is_none_or(|r| text.get(r).is_none_or(|t| t.trim().is_empty()));
                if !blank {
                    out.push(named(project, file, line));
                }
            }
        }
        let more = out.len().saturating_sub(MOST_LINES);
        out.truncate(MOST_LINES);
        if more > 0 {
            out.push(format!("and {more} more"));
        }
        out
    }

    /// The changed lines that places stand on, or else those of the declarations they stand in.
    pub(crate) fn lines_of(&self, causes: &[Span], project: &Project) -> Vec<String> {
        let mut found: Vec<(FileId, u32)> = Vec::new();
        for whole in [false, true] {
            for cause in causes.iter().flat_map(|c| [*c].into_iter().chain(calls(project, *c))) {
                let Some(changed) = self.lines.get(&cause.file) else { continue };
                let text = project.text(cause.file);
                let table = LineTable::new(text);
                let span = if whole { declaration(project, cause) } else { cause };
                let (from, to) = (table.line_of(span.start), table.line_of(span.end));
                for &line in changed.range(from..=to) {
                    let blank =
                        table.line_range(line, text).is_none_or(|r| text.get(r).is_none_or(|t| t.trim().is_empty()));
                    if !blank && !found.contains(&(cause.file, line)) {
                        found.push((cause.file, line));
                    }
                }
            }
            if !found.is_empty() {
                break;
            }
        }
        found.into_iter().take(NAMED).map(|(file, line)| named(project, file, line)).collect()
    }
}

/// The calls and bare mentions of the build-up whose name stands at a place.
fn calls(project: &Project, place: Span) -> Vec<Span> {
    let program = project.program();
    let declared = program.module(place.file).and_then(|data| {
        let index = data.module.decls.iter().position(|d| d.name.span == place)?;
        let buildup = matches!(data.module.decls[index].kind, DeclKind::Buildup { .. });
        buildup.then_some(DefId { file: place.file, index: index as u32 })
    });
    let Some(def) = declared else { return Vec::new() };
    let mut out = Vec::new();
    for file in project.roots() {
        let (Some(data), Some(checked)) = (program.module(file), program.checked(file)) else { continue };
        for (at, expr) in data.module.exprs.iter().enumerate() {
            let named = match &expr.kind {
                ExprKind::Call { callee, .. } => *callee,
                ExprKind::Name(_) => ExprId(at as u32),
                _ => continue,
            };
            if checked.res(named) == Res::Def(def) {
                out.push(expr.span);
            }
        }
    }
    out
}

/// The declaration a place stands in, or the place itself.
fn declaration(project: &Project, place: Span) -> Span {
    let decls = project.program().module(place.file).map(|data| &data.module.decls);
    decls.and_then(|d| d.iter().find(|d| d.span.holds(place))).map_or(place, |d| d.span)
}

fn named(project: &Project, file: FileId, line: u32) -> String {
    let text = project.text(file);
    let range = LineTable::new(text).line_range(line, text);
    let words = range.and_then(|r| text.get(r)).unwrap_or("").trim();
    let short: String = words.chars().take(80).collect();
    format!("{}:{}: {short}", project.name(file), line + 1)
}
