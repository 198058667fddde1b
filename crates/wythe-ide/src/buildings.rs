//! The foundations of a repository as last worked out, and which of them a build-up or a wall belongs to.

use std::sync::Arc;

use wythe_eval::JudgedFoundation;
use wythe_model::{Assembly, Face, Foundation};
use wythe_project::Project;
use wythe_source::{FileId, Span, Symbol};

/// Every foundation of the repository, by file; those that are still to be judged as they stand are left out.
pub(crate) fn all(project: &Project) -> impl Iterator<Item = &JudgedFoundation> {
    let mut files: Vec<FileId> = project.roots().collect();
    files.sort_unstable();
    files.into_iter().filter(|f| !project.is_due(*f)).filter_map(|f| project.judgement(f)).flat_map(|j| &j.foundations)
}

/// The foundations declared in a file.
pub(crate) fn in_file(project: &Project, file: FileId) -> impl Iterator<Item = &JudgedFoundation> {
    project.judgement(file).into_iter().flat_map(|j| &j.foundations)
}

/// The foundation declared around a place.
pub(crate) fn around(project: &Project, span: Span) -> Option<&Arc<Foundation>> {
    let decls = &project.program().module(span.file)?.module.decls;
    let decl = decls.iter().find(|d| d.span.holds(span))?;
    in_file(project, span.file).map(|j| &j.foundation).find(|f| f.origin == decl.name.span)
}

/// The assemblies made of a build-up, by the place of its name, each with its foundation.
pub(crate) fn made_of(project: &Project, buildup: Span) -> Vec<(&Arc<Foundation>, &Arc<Assembly>)> {
    let mut out: Vec<(&Arc<Foundation>, &Arc<Assembly>)> = Vec::new();
    for judged in all(project) {
        for assembly in judged.foundation.assemblies.iter().filter(|a| a.origin == buildup) {
            if !out.iter().any(|(f, a)| f.origin == judged.foundation.origin && Arc::ptr_eq(a, assembly)) {
                out.push((&judged.foundation, assembly));
            }
        }
    }
    out
}

/// A piece of work as it stands in a foundation.
pub(crate) struct Placed<'a> {
    /// The foundation.
    pub foundation: &'a Arc<Foundation>,
    /// The face, or the joint, it is listed on.
    pub face: &'a Face,
    /// Its number there.
    pub number: usize,
}

/// Every foundation in which a statement of a build-up or a joint is carried out, each once.
pub(crate) fn works_at(project: &Project, statement: Span) -> Vec<Placed<'_>> {
    let mut out: Vec<Placed<'_>> = Vec::new();
    for judged in all(project) {
        let f = &judged.foundation;
        let faces = f.assemblies.iter().flat_map(|a| &a.faces).chain(f.joints.iter().map(|j| &j.face));
        for face in faces {
            let number = face.works.iter().position(|w| w.origin == statement);
            if let Some(number) = number.filter(|_| !out.iter().any(|p| p.foundation.origin == f.origin)) {
                out.push(Placed { foundation: f, face, number });
            }
        }
    }
    out
}

/// The words of a phase's inspection, if it has one.
pub(crate) fn hold(f: &Foundation, phase: Symbol) -> Option<&str> {
    f.phases.get(f.phase_index(phase)?)?.hold.as_deref()
}
