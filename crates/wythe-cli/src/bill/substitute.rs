//! The text of a foundation's file with arguments and properties of the foundation replaced.

use wythe_findings::{Edit, apply_edits};
use wythe_project::Project;
use wythe_sema::{DefId, Res, Signature};
use wythe_source::{Span, Symbol};
use wythe_syntax::ast::{Arg, Block, Decl, DeclKind, ExprId, ExprKind, Item, Module, StatementKind, UseTarget};

/// What came of a substitution.
pub(crate) enum Substituted {
    /// The new text.
    Text(String),
    /// A name that nothing in the foundation bears.
    Unknown(String),
}

/// The file's text with the values put in: for each name the arguments so called in the foundation, else the
/// parameters so called of the build-ups it calls, else its properties.
pub(crate) fn substitute(project: &Project, def: DefId, values: &[(&str, &str)]) -> Substituted {
    let unknown = |name: &str| Substituted::Unknown(name.to_owned());
    let Some(data) = project.program().module(def.file) else { return unknown("") };
    let Some(decl) = data.module.decls.get(def.index as usize) else { return unknown("") };
    let mut edits: Vec<Edit> = Vec::new();
    for (name, value) in values {
        let places = places(project, def, &data.module, decl, Symbol::new(name), value);
        if places.is_empty() {
            return unknown(name);
        }
        edits.extend(places);
        edits.extend(import(&data.module, project.text(def.file), value, &edits));
    }
    // Several values in one call may be put in at one place: they are told apart by their order.
    match apply_edits(project.text(def.file), &edits) {
        Some(text) => Substituted::Text(text),
        None => unknown(values.first().map_or("", |v| v.0)),
    }
}

fn places(project: &Project, def: DefId, module: &Module, decl: &Decl, name: Symbol, value: &str) -> Vec<Edit> {
    let replace = |id: ExprId| Edit { span: module[id].span, text: value.to_owned() };
    let calls: Vec<(Span, ExprId, &[Arg])> = module
        .exprs
        .iter()
        .filter(|e| decl.span.holds(e.span))
        .filter_map(|e| match &e.kind {
            ExprKind::Call { callee, args } => Some((e.span, *callee, args.as_slice())),
            _ => None,
        })
        .collect();
    let named = calls.iter().flat_map(|c| c.2).filter(|a| a.name.is_some_and(|n| n.name == name));
    let mut out: Vec<Edit> = named.map(|a| replace(a.value)).collect();
    if !out.is_empty() {
        return out;
    }
    for (span, callee, args) in calls {
        if has_parameter(project, def, callee, name) {
            let comma = if args.is_empty() { "" } else { ", " };
            let end = Span::new(span.file, span.end - 1, span.end - 1);
            out.push(Edit { span: end, text: format!("{comma}{name}: {value}") });
        }
    }
    if out.is_empty() {
        // Named bare, a build-up takes its defaults; it is called with the value instead.
        let callees: Vec<ExprId> = module.exprs.iter().filter_map(|e| callee(&e.kind)).collect();
        for (at, expr) in module.exprs.iter().enumerate() {
            let id = ExprId(at as u32);
            let bare = matches!(expr.kind, ExprKind::Name(_)) && decl.span.holds(expr.span) && !callees.contains(&id);
            if bare && has_parameter(project, def, id, name) {
                let end = Span::new(expr.span.file, expr.span.end, expr.span.end);
                out.push(Edit { span: end, text: format!("({name}: {value})") });
            }
        }
    }
    if out.is_empty()
        && let DeclKind::Foundation { block, .. } = &decl.kind
    {
        properties(block, name, &mut |id| out.push(replace(id)));
    }
    out
}

fn callee(kind: &ExprKind) -> Option<ExprId> {
    match kind {
        ExprKind::Call { callee, .. } => Some(*callee),
        _ => None,
    }
}

fn has_parameter(project: &Project, def: DefId, callee: ExprId, name: Symbol) -> bool {
    let Some(checked) = project.program().checked(def.file) else { return false };
    let Res::Def(called) = checked.res(callee) else { return false };
    let signature = project.program().checked(called.file).and_then(|c| c.signatures.get(called.index as usize));
    matches!(signature, Some(Signature::Buildup { params, .. }) if params.iter().any(|p| p.name == name))
}

fn properties(block: &Block, name: Symbol, found: &mut dyn FnMut(ExprId)) {
    for item in &block.items {
        match item {
            Item::Property { name: n, value } if n.name == name => found(*value),
            Item::Section { block, .. } => properties(block, name, found),
            Item::Statement(statement) => {
                let inner = match &statement.kind {
                    StatementKind::Wall { block, .. } | StatementKind::Beam { block, .. } => block.as_ref(),
                    StatementKind::Step { block, .. }
                    | StatementKind::Opening { block, .. }
                    | StatementKind::Piers { block, .. }
                    | StatementKind::Pier { block, .. }
                    | StatementKind::Pad { block, .. } => Some(block),
                    _ => None,
                };
                if let Some(block) = inner {
                    properties(block, name, found);
                }
            }
            Item::Property { .. } => {}
        }
    }
}

/// A value that is a bare name the file does not know is imported from where the products it uses come from.
fn import(module: &Module, text: &str, value: &str, made: &[Edit]) -> Option<Edit> {
    let bare = value.starts_with(|c: char| c.is_ascii_lowercase())
        && value.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_');
    let known = |n: &str| {
        let imported = module.uses.iter().any(|u| match &u.target {
            UseTarget::File { imports, .. } => imports.iter().any(|i| i.local().name.as_str() == n),
            UseTarget::Code(_) => false,
        });
        imported || module.decls.iter().any(|d| d.name.name.as_str() == n)
    };
    let put = format!(", {value}");
    if !bare || known(value) || ["true", "false", "none"].contains(&value) || made.iter().any(|e| e.text == put) {
        return None;
    }
    // The line that imports what stood there before, told by its first name being replaced somewhere.
    let replaced =
        |name: &str| made.iter().any(|e| e.text == value && text.get(e.span.range()).is_some_and(|t| t.trim() == name));
    module.uses.iter().find_map(|u| {
        let UseTarget::File { imports, .. } = &u.target else { return None };
        imports.iter().any(|i| replaced(i.local().name.as_str())).then_some(())?;
        let end = u.span.end;
        Some(Edit { span: Span::new(u.span.file, end, end), text: put.clone() })
    })
}
