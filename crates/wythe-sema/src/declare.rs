//! First look at a module: its names, before anything is understood of what they mean.

use rustc_hash::FxHashMap;
use wythe_findings::{Finding, codes};
use wythe_source::Symbol;
use wythe_syntax::ast::{DeclKind, Module};
use wythe_syntax::limits::MAX_FINDINGS;

/// The names of a module.
#[derive(Clone, Debug, Default)]
pub struct Declared {
    /// The number of the declaration of each name; of two of the same name, the first.
    pub names: FxHashMap<Symbol, u32>,
    /// Names of declarations that could not be read; their uses need no finding of their own.
    pub lost: Vec<Symbol>,
    /// Names declared twice.
    pub findings: Vec<Finding>,
}

/// Collects the names of a module.
pub fn declare(module: &Module) -> Declared {
    let mut declared = Declared::default();
    for (index, decl) in module.decls.iter().enumerate() {
        if !has_name(&decl.kind) {
            continue;
        }
        match declared.names.get(&decl.name.name) {
            None => {
                declared.names.insert(decl.name.name, index as u32);
            }
            // A file of nothing but one name says no more after the limit.
            Some(_) if declared.findings.len() >= MAX_FINDINGS => {}
            Some(&first) => {
                let first = module.decls[first as usize].name.span;
                declared.findings.push(
                    Finding::new(
                        codes::DUPLICATE_NAME,
                        decl.name.span,
                        format!("`{}` is declared twice", decl.name.name),
                    )
                    .label("declared again here")
                    .related(first, "first declared here")
                    .mend("give one of the two another name"),
                );
            }
        }
    }
    declared
}

/// Tests, waivers and amendments are not referred to by name.
pub(crate) const fn has_name(kind: &DeclKind) -> bool {
    !matches!(kind, DeclKind::Test { .. } | DeclKind::Waiver { .. } | DeclKind::Amend { .. })
}
