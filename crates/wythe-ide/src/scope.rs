//! Names in reach of a file, and those other files could lend it.

use rustc_hash::FxHashSet;
use wythe_project::{Origin, Project};
use wythe_sema::{DefId, Program, Signature, Type};
use wythe_source::{FileId, Symbol};
use wythe_syntax::ast::{Decl, DeclKind, UseTarget};

/// What a name stands for at file level.
pub(crate) fn lookup(program: &Program, file: FileId, name: Symbol) -> Option<DefId> {
    let data = program.module(file)?;
    if let Some(&index) = data.declared.names.get(&name) {
        return Some(DefId { file, index });
    }
    let imported = imports(program, file).into_iter().find(|(known, _)| *known == name);
    imported.map(|(_, def)| def).or_else(|| program.prelude.def_of(name))
}

/// Every name a file knows: its own, those it uses, and the language's; by name.
pub(crate) fn visible(program: &Program, file: FileId) -> Vec<(Symbol, DefId)> {
    let mut out = Vec::new();
    let mut seen = FxHashSet::default();
    let own = program
        .module(file)
        .into_iter()
        .flat_map(|data| data.declared.names.iter().map(move |(name, &index)| (*name, DefId { file, index })));
    let prelude = &program.prelude.data.declared.names;
    let prelude = prelude.iter().map(|(name, &index)| (*name, DefId { file: program.prelude.file, index }));
    for (name, def) in own.chain(imports(program, file)).chain(prelude) {
        if seen.insert(name) {
            out.push((name, def));
        }
    }
    out.sort_by_key(|(name, _)| name.as_str());
    out
}

/// Public names of the repository's other files that a file does not know yet; by name and file.
pub(crate) fn lendable(project: &Project, file: FileId) -> Vec<(Symbol, DefId)> {
    let program = project.program();
    let known: FxHashSet<DefId> = visible(program, file).into_iter().map(|(_, def)| def).collect();
    let mut out = Vec::new();
    for other in program.files() {
        let ours = project.entry(other).is_some_and(|e| e.origin == Origin::Repository);
        let Some(data) = program.module(other).filter(|_| ours && other != file) else { continue };
        for (name, &index) in &data.declared.names {
            let def = DefId { file: other, index };
            if data.module.decls[index as usize].public && !known.contains(&def) {
                out.push((*name, def));
            }
        }
    }
    out.sort_by(|a, b| (a.0.as_str(), a.1).cmp(&(b.0.as_str(), b.1)));
    out
}

fn imports(program: &Program, file: FileId) -> Vec<(Symbol, DefId)> {
    let mut out = Vec::new();
    let Some(data) = program.module(file) else { return out };
    for (used, target) in data.module.uses.iter().zip(&data.uses) {
        let Some(target) = *target else { continue };
        match &used.target {
            UseTarget::Code(_) => pack(program, target, &mut out, &mut Vec::new()),
            UseTarget::File { imports, .. } if imports.is_empty() => public(program, target, &mut out),
            UseTarget::File { imports, .. } => {
                let Some(other) = program.module(target) else { continue };
                for import in imports {
                    if let Some(&index) = other.declared.names.get(&import.name.name) {
                        out.push((import.local().name, DefId { file: target, index }));
                    }
                }
            }
        }
    }
    out
}

fn public(program: &Program, file: FileId, out: &mut Vec<(Symbol, DefId)>) {
    let Some(data) = program.module(file) else { return };
    for (name, &index) in &data.declared.names {
        if data.module.decls[index as usize].public {
            out.push((*name, DefId { file, index }));
        }
    }
}

/// Every public name of a pack and of the packs it is made of.
fn pack(program: &Program, file: FileId, out: &mut Vec<(Symbol, DefId)>, seen: &mut Vec<FileId>) {
    if seen.contains(&file) {
        return;
    }
    seen.push(file);
    public(program, file, out);
    let Some(data) = program.module(file) else { return };
    for (used, target) in data.module.uses.iter().zip(&data.uses) {
        let whole = match &used.target {
            UseTarget::Code(_) => true,
            UseTarget::File { imports, .. } => imports.is_empty(),
        };
        if let (true, Some(target)) = (whole, target) {
            pack(program, *target, out, seen);
        }
    }
}

/// What a declaration looks like from outside.
pub(crate) fn signature(program: &Program, def: DefId) -> Option<&Signature> {
    program.checked(def.file)?.signatures.get(def.index as usize)
}

/// The type a name has in an expression; a function's is that of its result.
pub(crate) fn value_type(program: &Program, def: DefId) -> Option<Type> {
    match signature(program, def)? {
        Signature::Value(ty) => Some(ty.clone()),
        Signature::Function { result, .. } => Some(result.clone()),
        Signature::Buildup { kind, .. } => Some(Type::Buildup(*kind)),
        _ => None,
    }
}

/// The declaration around an offset, with its number.
pub(crate) fn around(program: &Program, file: FileId, offset: u32) -> Option<(DefId, &Decl)> {
    let decls = &program.module(file)?.module.decls;
    let (index, decl) = decls.iter().enumerate().find(|(_, d)| d.span.touches(offset))?;
    Some((DefId { file, index: index as u32 }, decl))
}

/// The header of a declaration as written, without its block or body.
pub(crate) fn header(program: &Program, def: DefId) -> String {
    let Some(decl) = program.decl(def) else { return String::new() };
    let module = program.module(def.file).map(|d| &d.module);
    let end = match (&decl.kind, module) {
        (DeclKind::Record(_) | DeclKind::Enum { .. } | DeclKind::Let(_) | DeclKind::Unit(_), _) => decl.span.end,
        (DeclKind::Fn(f), Some(_)) => f.result.span.end,
        (kind, _) => kind.block().map_or(decl.span.end, |b| b.span.start),
    };
    let text = program.text(wythe_source::Span::new(def.file, decl.span.start, end)).trim();
    let lines: Vec<&str> = text.lines().collect();
    if lines.len() > 14 {
        return format!("{}\n    …\n}}", lines[..12].join("\n"));
    }
    lines.join("\n")
}
