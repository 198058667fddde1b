//! From a name to its declaration, to its type, and to every place it is named.

use wythe_project::Project;
use wythe_sema::{DefId, Target, Type};
use wythe_source::{FileId, Span};

use crate::occurrence;

/// Where the name at an offset is declared.
pub fn definition(project: &Project, file: FileId, offset: u32) -> Option<Span> {
    let (_, target) = occurrence::at(project.program(), file, offset)?;
    occurrence::declared_at(project.program(), target)
}

/// Where the type of the name at an offset is declared: its record, its enumeration, or the class of a product.
pub fn type_definition(project: &Project, file: FileId, offset: u32) -> Option<Span> {
    let program = project.program();
    let (span, target) = occurrence::at(program, file, offset)?;
    let checked = program.checked(file)?;
    let module = &program.module(file)?.module;
    let at_expr = module.exprs.iter().zip(&checked.types).find(|(e, _)| e.span == span).map(|(_, t)| t.clone());
    let ty = at_expr.or_else(|| match target {
        Target::Def(def) => match program.checked(def.file)?.signatures.get(def.index as usize)? {
            wythe_sema::Signature::Value(ty) => Some(ty.clone()),
            _ => None,
        },
        _ => None,
    })?;
    declaration_of(project, &ty).map(|def| program.span_of(def))
}

fn declaration_of(project: &Project, ty: &Type) -> Option<DefId> {
    match ty {
        Type::Enum(def) | Type::Record(def) | Type::Callable(def) => Some(*def),
        Type::Product(Some(class)) => project.program().prelude.def(class.name()),
        Type::Phase => project.program().prelude.def("PhaseBlock"),
        Type::List(inner) | Type::Optional(inner) | Type::Range(inner) | Type::Size(inner) => {
            declaration_of(project, inner)
        }
        _ => None,
    }
}

/// Every place the name at an offset is named, its declaration first if asked for.
pub fn references(project: &Project, file: FileId, offset: u32, with_declaration: bool) -> Vec<Span> {
    let Some((_, target)) = occurrence::at(project.program(), file, offset) else { return Vec::new() };
    let declared = occurrence::declared_at(project.program(), target);
    let mut all = occurrence::everywhere(project, target);
    if !with_declaration {
        all.retain(|span| Some(*span) != declared);
    }
    all
}
