//! Who calls a build-up or a function, and what it calls.

use wythe_project::Project;
use wythe_sema::{DefId, Target};
use wythe_source::{FileId, Span};
use wythe_syntax::ast::DeclKind;

use crate::occurrence;
use crate::symbols::SymbolKind;

/// A declaration in the hierarchy.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct CallItem {
    /// Its declaration.
    pub def: DefId,
    /// Its name.
    pub name: String,
    /// The name of its file.
    pub detail: String,
    /// What it is.
    pub kind: SymbolKind,
    /// All of it.
    pub span: Span,
    /// Its name's place.
    pub name_span: Span,
}

/// A caller or a callee, with the places of the calls.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Call {
    /// The other end.
    pub item: CallItem,
    /// Where the calls stand, in the caller.
    pub places: Vec<Span>,
}

/// The build-up, function or other declaration at an offset.
pub fn prepare(project: &Project, file: FileId, offset: u32) -> Option<CallItem> {
    let (_, target) = occurrence::at(project.program(), file, offset)?;
    match target {
        Target::Def(def) => item(project, def),
        _ => None,
    }
}

/// The declarations that name it.
pub fn incoming(project: &Project, def: DefId) -> Vec<Call> {
    let program = project.program();
    let mut out: Vec<Call> = Vec::new();
    for place in occurrence::everywhere(project, Target::Def(def)) {
        let Some(data) = program.module(place.file) else { continue };
        let Some(index) = data.module.decls.iter().position(|d| d.span.holds(place) && d.name.span != place) else {
            continue;
        };
        let caller = DefId { file: place.file, index: index as u32 };
        match out.iter_mut().find(|c| c.item.def == caller) {
            Some(call) => call.places.push(place),
            None => out.extend(item(project, caller).map(|item| Call { item, places: vec![place] })),
        }
    }
    out
}

/// The build-ups, functions, products and phases it names.
pub fn outgoing(project: &Project, def: DefId) -> Vec<Call> {
    let program = project.program();
    let Some(decl) = program.decl(def) else { return Vec::new() };
    let mut out: Vec<Call> = Vec::new();
    for (place, target) in occurrence::occurrences(program, def.file) {
        let Target::Def(callee) = target else { continue };
        if callee == def || !decl.span.holds(place) || callee.file == program.prelude.file {
            continue;
        }
        match out.iter_mut().find(|c| c.item.def == callee) {
            Some(call) => call.places.push(place),
            None => out.extend(item(project, callee).map(|item| Call { item, places: vec![place] })),
        }
    }
    out
}

/// A declaration as an item; nothing for what is no part of a hierarchy.
pub fn item(project: &Project, def: DefId) -> Option<CallItem> {
    let decl = project.program().decl(def)?;
    let kind = match decl.kind {
        DeclKind::Buildup { .. } => SymbolKind::Buildup,
        DeclKind::Fn(_) => SymbolKind::Function,
        DeclKind::Product { .. } => SymbolKind::Product,
        DeclKind::Phase(_) => SymbolKind::Phase,
        DeclKind::Joint { .. } => SymbolKind::Joint,
        DeclKind::Foundation { .. } => SymbolKind::Foundation,
        DeclKind::Site(_) => SymbolKind::Site,
        DeclKind::Rule(_) | DeclKind::Amend { .. } => SymbolKind::Rule,
        DeclKind::Test { .. } => SymbolKind::Test,
        DeclKind::Let(_) => SymbolKind::Value,
        _ => return None,
    };
    Some(CallItem {
        def,
        name: decl.name.name.to_string(),
        detail: project.name(def.file),
        kind,
        span: decl.span,
        name_span: decl.name.span,
    })
}
