//! Tests of a file, run against the foundations they name.

use wythe_findings::Finding;
use wythe_sema::{Checked, DefId};
use wythe_source::Span;
use wythe_syntax::ast::{Block, DeclKind, Expect, Item, StatementKind};

use super::{Judge, JudgedFoundation};
use crate::{Findings, TestOutcome};

/// The findings a test may ask about.
struct Known<'a> {
    foundations: Vec<JudgedFoundation>,
    checked: &'a Checked,
}

impl Findings for Known<'_> {
    fn of_foundation(&self, name: Option<&str>) -> Vec<&Finding> {
        let asked = self.foundations.iter().filter(|f| name.is_none_or(|n| f.foundation.name.as_str() == n));
        asked.flat_map(|f| &f.findings).collect()
    }

    fn within(&self, span: Span) -> Vec<&Finding> {
        self.checked.findings.iter().filter(|f| span.holds(f.primary.span)).collect()
    }
}

impl Judge<'_, '_> {
    /// Runs a test.
    pub(super) fn test(&mut self, def: DefId) -> Option<TestOutcome> {
        let program = self.ev.program;
        let DeclKind::Test { block, .. } = &program.decl(def)?.kind else { return None };
        let checked = program.checked(def.file)?;
        let foundations = named(block, def, self, checked).into_iter().filter_map(|d| self.foundation(d)).collect();
        self.ev.run_test(def, &Known { foundations, checked })
    }
}

/// The foundations a test names: in its expectations, and in its values.
fn named(block: &Block, test: DefId, judge: &Judge<'_, '_>, checked: &Checked) -> Vec<DefId> {
    let program = judge.ev.program;
    let mut out: Vec<DefId> = Vec::new();
    let is_foundation = |d: DefId| matches!(program.decl(d).map(|d| &d.kind), Some(DeclKind::Foundation { .. }));
    let within = block.items.iter().filter_map(|item| match item {
        Item::Statement(s) => match &s.kind {
            StatementKind::Expect(Expect::Finding { within: Some(path), .. }) => path.parts.first().copied(),
            _ => None,
        },
        _ => None,
    });
    let names: Vec<_> = within.map(|ident| ident.name).collect();
    let mentioned =
        checked.mentions.iter().filter(|(span, _)| block.span.holds(*span)).filter_map(|(_, target)| match target {
            wythe_sema::Target::Def(def) => Some(*def),
            _ => None,
        });
    let reached = names.iter().filter_map(|name| {
        let data = program.module(test.file)?;
        let own = data.declared.names.get(name).map(|&index| DefId { file: test.file, index });
        own.or_else(|| {
            data.uses.iter().flatten().find_map(|file| {
                let index = *program.module(*file)?.declared.names.get(name)?;
                Some(DefId { file: *file, index })
            })
        })
    });
    for def in mentioned.chain(reached) {
        if is_foundation(def) && !out.contains(&def) {
            out.push(def);
        }
    }
    out
}
