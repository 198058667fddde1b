//! Parts of a foundation named where they are not declared: the wall of an opening, `unit_4.wall(south)`, the parts a
//! waiver holds for.

use wythe_sema::{Checked, DefId, Program, Res, Target};
use wythe_source::{Span, Symbol};
use wythe_syntax::ast::{Block, DeclKind, ExprId, ExprKind, Item, Module, StatementKind};

/// Adds every such place of a module.
pub(super) fn mentioned(program: &Program, module: &Module, checked: &Checked, out: &mut Vec<(Span, Target)>) {
    for decl in &module.decls {
        match &decl.kind {
            DeclKind::Foundation { block, .. } => {
                for item in &block.items {
                    if let Item::Statement(statement) = item
                        && let StatementKind::Opening { wall, .. } = &statement.kind
                        && let Some(declared) = named(block, wall.name)
                    {
                        out.push((wall.span, Target::Local(declared)));
                    }
                }
            }
            DeclKind::Waiver { within, elements, .. } => {
                let Res::Def(def) = checked.ident(*within) else { continue };
                for element in elements {
                    if let Some(declared) = part_of(program, def, element.name) {
                        out.push((element.span, Target::Local(declared)));
                    }
                }
            }
            _ => {}
        }
    }
    for expr in &module.exprs {
        let ExprKind::Call { callee, args } = &expr.kind else { continue };
        let (ExprKind::Field { of, name }, [arg]) = (&module[*callee].kind, &args[..]) else { continue };
        let ExprKind::Name(part) = module[arg.value].kind else { continue };
        if !matches!(name.name.as_str(), "wall" | "pier" | "opening") {
            continue;
        }
        if let Some(def) = foundation(module, checked, *of)
            && let Some(declared) = part_of(program, def, part)
        {
            out.push((module[arg.value].span, Target::Local(declared)));
        }
    }
}

/// The foundation an expression stands for: its name, or a `let` of its name.
fn foundation(module: &Module, checked: &Checked, of: ExprId) -> Option<DefId> {
    match checked.res(of) {
        Res::Def(def) => Some(def),
        Res::Local(local) => {
            let at = module[of].span;
            let decl = module.decls.iter().find(|d| d.span.holds(at))?;
            let DeclKind::Test { block, .. } = &decl.kind else { return None };
            block.items.iter().find_map(|item| match item {
                Item::Statement(statement) => match &statement.kind {
                    StatementKind::Let(binding) if binding.name.name == local => match checked.res(binding.value) {
                        Res::Def(def) => Some(def),
                        _ => None,
                    },
                    _ => None,
                },
                _ => None,
            })
        }
        _ => None,
    }
}

fn part_of(program: &Program, def: DefId, name: Symbol) -> Option<Span> {
    match &program.decl(def)?.kind {
        DeclKind::Foundation { block, .. } => named(block, name),
        _ => None,
    }
}

/// Where a part of a name is declared in a foundation's block.
fn named(block: &Block, name: Symbol) -> Option<Span> {
    block.items.iter().find_map(|item| match item {
        Item::Section { block, .. } => named(block, name),
        Item::Statement(statement) => match &statement.kind {
            StatementKind::Wall { name: n, .. }
            | StatementKind::Opening { name: n, .. }
            | StatementKind::Pier { name: n, .. }
            | StatementKind::Piers { name: n, .. }
            | StatementKind::Pad { name: n, .. }
            | StatementKind::Beam { name: n, .. }
                if n.name == name =>
            {
                Some(n.span)
            }
            _ => None,
        },
        Item::Property { .. } => None,
    })
}
