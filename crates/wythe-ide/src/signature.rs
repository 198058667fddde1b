//! The parameters of the function or build-up being called.

use wythe_project::Project;
use wythe_sema::{DefId, Signature};
use wythe_source::{FileId, Span, Symbol};
use wythe_syntax::ast::{DeclKind, Param};
use wythe_syntax::{Kind, tokens};

use crate::cursor::Cursor;
use crate::scope;

/// The signature of what is called, with the parameter the cursor stands in.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct SignatureHelp {
    /// The whole: `stem_wall(board: Board, gap: Length = 4")`.
    pub label: String,
    /// Its documentation.
    pub docs: String,
    /// Each parameter as a range of bytes of the label, with its contract or nothing.
    pub params: Vec<(std::ops::Range<usize>, String)>,
    /// The parameter the cursor stands in.
    pub active: Option<usize>,
}

/// The signature of the call around an offset.
pub fn signature_help(project: &Project, file: FileId, offset: u32) -> Option<SignatureHelp> {
    let text = project.text(file);
    let lexed = tokens(file, text);
    let cursor = Cursor::at(text, &lexed.tokens, &lexed.comments, offset)?;
    let (def, number, first) = called(project, file, &cursor)?;
    let program = project.program();
    let decl = program.decl(def)?;
    let (params, method): (&[Param], usize) = match &decl.kind {
        DeclKind::Fn(f) => (&f.params, usize::from(is_method(&cursor)?)),
        DeclKind::Buildup { params, .. } => (params, 0),
        _ => return None,
    };
    let mut label = format!("{}(", decl.name.name);
    let mut ranges = Vec::new();
    for (i, param) in params.iter().enumerate().skip(method) {
        if i > method {
            label.push_str(", ");
        }
        let from = label.len();
        label.push_str(&shown(project, def, param));
        let contract = param.contract.map(|c| {
            let module = program.module(def.file).map(|d| d.module.clone());
            module.map_or_else(String::new, |m| format!("where {}", program.text(m[c].span)))
        });
        ranges.push((from..label.len(), contract.unwrap_or_default()));
    }
    label.push(')');
    match scope::signature(program, def) {
        Some(Signature::Function { result, .. }) => label.push_str(&format!(" -> {}", result.written(program))),
        Some(Signature::Buildup { kind, .. }) => label.push_str(&format!(" for {}", kind.word())),
        _ => {}
    }
    let named = lexed.tokens.get(first + 1).filter(|t| t.kind == Kind::Colon).and_then(|_| lexed.tokens.get(first));
    let active = match named {
        Some(name) => params.iter().skip(method).position(|p| p.name.name.as_str() == name.text(text)),
        None => Some(number).filter(|n| *n < ranges.len()),
    };
    Some(SignatureHelp { label, docs: program.docs(decl.docs), params: ranges, active })
}

/// A parameter as it is written, without its contract.
fn shown(project: &Project, def: DefId, param: &Param) -> String {
    let program = project.program();
    let end = param.default.and_then(|d| Some(program.module(def.file)?.module[d].span.end));
    program.text(Span::new(def.file, param.name.span.start, end.unwrap_or(param.ty.span.end))).to_owned()
}

fn is_method(cursor: &Cursor<'_>) -> Option<bool> {
    let (open, ..) = cursor.call()?;
    let before = open.at.checked_sub(2).and_then(|i| cursor.tokens.get(i));
    Some(before.is_some_and(|t| t.kind == Kind::Dot))
}

/// What is called around a cursor, the number of the argument, and the argument's first token.
pub(crate) fn called(project: &Project, file: FileId, cursor: &Cursor<'_>) -> Option<(DefId, usize, usize)> {
    let (open, number, first) = cursor.call()?;
    let callee = cursor.tokens.get(open.at.checked_sub(1)?)?;
    if !matches!(callee.kind, Kind::Name | Kind::Type) {
        return None;
    }
    let name = Symbol::new(cursor.text_of(callee));
    let def = scope::lookup(project.program(), file, name)?;
    Some((def, number, first))
}
