//! What a name under the cursor stands for, and every place it is named.

mod parts;

use wythe_project::Project;
use wythe_sema::{DefId, Program, Target};
use wythe_source::{FileId, Span};
use wythe_syntax::ast::{Block, DeclKind, Ident, Item, Module, Param, StatementKind};

/// Every place of a file where something is named, declarations included, by place.
pub fn occurrences(program: &Program, file: FileId) -> Vec<(Span, Target)> {
    let Some(data) = program.module(file) else { return Vec::new() };
    let mut out = declared(&data.module, file);
    if let Some(checked) = &data.checked {
        out.extend(checked.mentions.iter().copied());
        parts::mentioned(program, &data.module, checked, &mut out);
    }
    out.sort_by_key(|(span, _)| (span.start, span.end));
    out.dedup();
    out
}

/// What stands at an offset. The shortest span that holds the offset wins.
pub fn at(program: &Program, file: FileId, offset: u32) -> Option<(Span, Target)> {
    let all = occurrences(program, file);
    all.into_iter().filter(|(span, _)| span.touches(offset)).min_by_key(|(span, _)| span.end - span.start)
}

/// Where something is declared: the place of its name.
pub fn declared_at(program: &Program, target: Target) -> Option<Span> {
    match target {
        Target::Def(def) => program.decl(def).map(|d| d.name.span),
        Target::Local(span) => Some(span),
        Target::Part(def, number) => part(program, def, number).map(|i| i.span),
    }
}

/// A field of a record, or a member of an enumeration.
pub fn part(program: &Program, def: DefId, number: u32) -> Option<Ident> {
    match &program.decl(def)?.kind {
        DeclKind::Record(fields) => fields.get(number as usize).map(|f| f.name),
        DeclKind::Enum { members, .. } => members.get(number as usize).copied(),
        _ => None,
    }
}

/// Every place in the project where something is named, by file and place.
pub fn everywhere(project: &Project, target: Target) -> Vec<Span> {
    let program = project.program();
    let mut out: Vec<Span> = program
        .files()
        .into_iter()
        .flat_map(|file| occurrences(program, file))
        .filter(|(_, t)| *t == target)
        .map(|(span, _)| span)
        .collect();
    out.sort_unstable();
    out.dedup();
    out
}

/// The names a module declares, at every depth.
fn declared(module: &Module, file: FileId) -> Vec<(Span, Target)> {
    let mut out = Vec::new();
    for (index, decl) in module.decls.iter().enumerate() {
        let def = DefId { file, index: index as u32 };
        let named = !matches!(decl.kind, DeclKind::Test { .. } | DeclKind::Waiver { .. } | DeclKind::Amend { .. });
        if named {
            out.push((decl.name.span, Target::Def(def)));
        }
        let params: &[Param] = match &decl.kind {
            DeclKind::Fn(function) => {
                out.extend(function.lets.iter().map(|l| local(l.name)));
                &function.params
            }
            DeclKind::Buildup { params, .. } => params,
            DeclKind::Record(fields) => {
                out.extend(fields.iter().enumerate().map(|(i, f)| (f.name.span, Target::Part(def, i as u32))));
                &[]
            }
            DeclKind::Enum { members, .. } => {
                out.extend(members.iter().enumerate().map(|(i, m)| (m.span, Target::Part(def, i as u32))));
                &[]
            }
            _ => &[],
        };
        out.extend(params.iter().map(|p| local(p.name)));
        if let Some(block) = decl.kind.block() {
            bound(block, &mut out);
        }
    }
    out
}

fn local(name: Ident) -> (Span, Target) {
    (name.span, Target::Local(name.span))
}

fn bound(block: &Block, out: &mut Vec<(Span, Target)>) {
    for item in &block.items {
        match item {
            Item::Section { block, .. } => bound(block, out),
            Item::Property { .. } => {}
            Item::Statement(statement) => match &statement.kind {
                StatementKind::Let(binding) => out.push(local(binding.name)),
                StatementKind::ForEach { name, .. } => out.push(local(*name)),
                StatementKind::During { block, .. } => bound(block, out),
                StatementKind::Wall { name, block, .. } => {
                    out.push(local(*name));
                    if let Some(block) = block {
                        bound(block, out);
                    }
                }
                StatementKind::Opening { name, .. }
                | StatementKind::Pier { name, .. }
                | StatementKind::Piers { name, .. }
                | StatementKind::Pad { name, .. }
                | StatementKind::Beam { name, .. } => out.push(local(*name)),
                _ => {}
            },
        }
    }
}
