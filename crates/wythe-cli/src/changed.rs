//! The files that a change touches: those git names, and those that use them.

use std::collections::BTreeSet;
use std::io;

use wythe_findings::Finding;
use wythe_project::{MANIFEST_NAME, Origin, Project};
use wythe_source::FileId;

use crate::bill::git::git;
use crate::repository::Opened;

/// The findings that a change may have brought: those in files that changed since a revision, or that use such a file.
pub(crate) fn touched(findings: Vec<Finding>, repository: &Opened, revision: &str) -> io::Result<Vec<Finding>> {
    let changed = changed(repository, revision)?;
    let project = &repository.project;
    // The manifest and the files it holds every house to bear on everything.
    let all = changed.contains(MANIFEST_NAME);
    let files = project.program().files();
    let mut reached: BTreeSet<FileId> =
        files.iter().copied().filter(|file| is_changed(project, *file, &changed)).collect();
    loop {
        let leans = |file: &FileId| !reached.contains(file) && leans_on(project, *file, &reached);
        let more: Vec<FileId> = files.iter().copied().filter(leans).collect();
        if more.is_empty() {
            break;
        }
        reached.extend(more);
    }
    let bears = |finding: &Finding| {
        let mut places = finding.related.iter().chain([&finding.primary]).map(|label| label.span.file);
        places.any(|file| reached.contains(&file) || is_changed(project, file, &changed))
    };
    Ok(findings.into_iter().filter(|finding| all || bears(finding)).collect())
}

fn is_changed(project: &Project, file: FileId, changed: &BTreeSet<String>) -> bool {
    project.entry(file).is_some_and(|e| e.origin == Origin::Repository && changed.contains(e.path.as_str()))
}

fn leans_on(project: &Project, file: FileId, reached: &BTreeSet<FileId>) -> bool {
    let used =
        project.program().module(file).is_some_and(|data| data.uses.iter().flatten().any(|f| reached.contains(f)));
    used || project.codes_for(file).iter().any(|code| reached.contains(code))
}

/// The paths, from the repository's folder, of files that differ from a revision or are new.
fn changed(repository: &Opened, revision: &str) -> io::Result<BTreeSet<String>> {
    // A revision that looks like an option would be read as one.
    if revision.starts_with('-') {
        return Err(io::Error::other("a revision does not begin with `-`"));
    }
    let root = repository.disk.root();
    let differ = git(root, &["diff", "--name-only", "--no-ext-diff", "-z", "--relative", revision, "--", "."])?;
    let new = git(root, &["ls-files", "--others", "--exclude-standard", "-z", "--", "."])?;
    let names = differ.split(|b| *b == 0).chain(new.split(|b| *b == 0));
    Ok(names.filter_map(|name| std::str::from_utf8(name).ok()).filter(|n| !n.is_empty()).map(str::to_owned).collect())
}
