//! Rules, amendments, waivers and tests.

use wythe_findings::{Finding, codes, find_page};
use wythe_source::Span;
use wythe_syntax::ast::{Block, Decl, DeclKind, Expect, Ident, Item, Path, StatementKind};

use crate::checked::{Res, Target};
use crate::checker::{Checker, Local};
use crate::program::DefId;
use crate::suggest::closest;
use crate::types::Type;

use super::Context;

pub(super) fn check_rule(c: &mut Checker<'_>, decl: &Decl, block: &Block) {
    c.whole = Some(c.program.prelude.record("Foundation"));
    c.record_block_named(block, "RuleBlock", Context::Rule, decl.name.span);
    let is_section = |i: &Item| matches!(i, Item::Section { name, .. } if name.name.as_str() == "asks");
    let requires = block.items.iter().any(|i| matches!(i, Item::Statement(s) if is_requirement(&s.kind)));
    // A rule that only has the compiler ask for other lengths requires nothing itself.
    if block.items.iter().any(is_section) && !requires {
        return;
    }
    needs(c, block, decl.name.span, |k| matches!(k, StatementKind::Require(_)), "require");
    needs(c, block, decl.name.span, |k| matches!(k, StatementKind::Otherwise(_)), "otherwise");
}

const fn is_requirement(kind: &StatementKind) -> bool {
    matches!(kind, StatementKind::Require(_) | StatementKind::Otherwise(_) | StatementKind::ForEach { .. })
}

fn needs(c: &mut Checker<'_>, block: &Block, owner: Span, is: impl Fn(&StatementKind) -> bool, word: &str) {
    let has = block.items.iter().any(|i| matches!(i, Item::Statement(s) if is(&s.kind)));
    if !has {
        c.report(
            Finding::new(codes::MISSING_PROPERTY, owner, format!("`{word}` must be said here"))
                .mend("a rule says what it requires, and what is said otherwise"),
        );
    }
}

/// An amendment is read with the names its rule binds.
pub(super) fn check_amendment(c: &mut Checker<'_>, path: &Path, block: &Block) {
    c.whole = Some(c.program.prelude.record("Foundation"));
    if let Some(def) = rule_named(c, path) {
        bind_names_of(c, def);
    }
    c.record_block_named(block, "RuleBlock", Context::Rule, path.span());
}

fn bind_names_of(c: &mut Checker<'_>, def: DefId) {
    let Some(DeclKind::Rule(block)) = c.program.decl(def).map(|d| &d.kind) else { return };
    let module = if def.file == c.file { None } else { c.program.checked(def.file).cloned() };
    for item in &block.items {
        let Item::Statement(statement) = item else { continue };
        let (name, list) = match &statement.kind {
            StatementKind::ForEach { name, list, .. } => (*name, *list),
            StatementKind::Let(binding) => (binding.name, binding.value),
            _ => continue,
        };
        let is_list = matches!(statement.kind, StatementKind::ForEach { .. });
        let ty = match &module {
            Some(checked) => checked.ty(list).clone(),
            None => c.infer(list),
        };
        let ty = match ty {
            Type::List(inner) if is_list => (*inner).clone(),
            other => other,
        };
        c.locals.push(Local { name: name.name, ty, res: Res::Local(name.name), span: name.span });
    }
}

/// The rule a path names: its last part is the rule's name.
fn rule_named(c: &mut Checker<'_>, path: &Path) -> Option<DefId> {
    let last = *path.parts.last()?;
    let def = c.global_ident(last)?;
    if !matches!(c.program.decl(def).map(|d| &d.kind), Some(DeclKind::Rule(_))) {
        c.report(
            Finding::new(codes::TYPE_MISMATCH, last.span, format!("`{}` is not a rule", last.name))
                .related(c.program.span_of(def), "declared here"),
        );
        return None;
    }
    Some(def)
}

pub(super) fn check_waiver(c: &mut Checker<'_>, path: &Path, within: Ident, block: &Block, owner: Span) {
    // What is waived may be a rule, or a finding of the compiler. Rules of code packs are known by name only once
    // all packs are together; the project checks those.
    if let Some(last) = path.parts.last()
        && let Some(def) = c.global(last.name)
    {
        c.mention(last.span, Target::Def(def));
        c.note_ident(*last, Res::Def(def));
    }
    if let Some(def) = c.global(within.name) {
        c.mention(within.span, Target::Def(def));
        c.note_ident(within, Res::Def(def));
    }
    c.record_block_named(block, "WaiverBlock", Context::Plain, owner);
}

pub(super) fn statement(c: &mut Checker<'_>, kind: &StatementKind) {
    match kind {
        StatementKind::ForEach { name, list, condition } => {
            let element = c.element_of(*list);
            c.bind(*name, element);
            if let Some(condition) = condition {
                c.expect(*condition, &Type::Bool);
            }
        }
        StatementKind::Require(condition) => {
            c.expect(*condition, &Type::Bool);
        }
        StatementKind::Otherwise(text) => {
            c.expect(*text, &Type::Text);
        }
        StatementKind::Expect(expect) => check_expect(c, expect),
        _ => {}
    }
}

fn check_expect(c: &mut Checker<'_>, expect: &Expect) {
    match expect {
        Expect::Value { value, within } => {
            c.expect(*value, &Type::Bool);
            if let Some(within) = within {
                c.infer(*within);
            }
        }
        Expect::Finding { name, .. } => {
            let Some(last) = name.as_ref().and_then(|p| p.parts.last()) else { return };
            if find_page(last.name.as_str()).is_some() {
                return;
            }
            if let Some(def) = c.global(last.name) {
                c.mention(last.span, Target::Def(def));
                return;
            }
            // A rule of a code pack is known by name alone; a slip in a compiler's code is worth a word.
            if let Some(near) = closest(last.name.as_str(), wythe_findings::all_pages().map(|p| p.name)) {
                c.report(
                    Finding::new(codes::UNKNOWN_CODE, last.span, format!("no finding is called `{}`", last.name))
                        .mend(format!("did you mean `{near}`?")),
                );
            }
        }
    }
}
