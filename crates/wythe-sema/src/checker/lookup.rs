//! What a name stands for, from the innermost place outward.

use wythe_findings::{Finding, codes};
use wythe_source::{FileId, Span, Symbol};
use wythe_syntax::ast::{Ident, Import, UseTarget};

use crate::checked::{Res, Target};
use crate::declare::has_name;
use crate::program::DefId;
use crate::suggest::closest;

use super::Checker;

/// After this many findings in a file no more names are guessed at: a guess looks at every name in reach.
const MOST_GUESSES: usize = 100;

impl Checker<'_> {
    /// Reads the `use` lines: which names of which files are known here.
    pub(super) fn imports(&mut self) {
        let module = self.module;
        for (number, used) in module.uses.iter().enumerate() {
            let Some(file) = self.data.uses.get(number).copied().flatten() else { continue };
            let UseTarget::File { imports, .. } = &used.target else {
                self.import_pack(file, used.span, &mut Vec::new());
                continue;
            };
            let Some(other) = self.program.module(file) else { continue };
            let other = (other.module.clone(), other.declared.clone());
            if imports.is_empty() {
                for (name, &index) in &other.1.names {
                    if other.0.decls[index as usize].public {
                        let def = DefId { file, index };
                        self.imported.entry(*name).or_insert((def, used.span));
                    }
                }
                continue;
            }
            for import in imports {
                match other.1.names.get(&import.name.name) {
                    Some(&index) => self.import(*import, DefId { file, index }, other.0.decls[index as usize].public),
                    // It is declared there in a way that cannot be read, which has been told.
                    None if other.1.lost.contains(&import.name.name) => {}
                    None => {
                        let public = other.1.names.iter().filter(|(_, i)| other.0.decls[**i as usize].public);
                        let near = closest(import.name.name.as_str(), public.map(|(n, _)| n.as_str()));
                        let mut finding = Finding::new(
                            codes::UNKNOWN_NAME,
                            import.name.span,
                            format!("there is no `{}` in that file", import.name.name),
                        )
                        .label("not declared there");
                        if let Some(near) = near {
                            finding = finding.mend(format!("did you mean `{near}`?")).fix(
                                wythe_findings::Fix::needs_consent(format!("write `{near}`"), import.name.span, near),
                            );
                        }
                        self.report(finding);
                    }
                }
            }
        }
    }

    /// Every public name of a pack and of the packs it is made of.
    fn import_pack(&mut self, file: FileId, at: Span, seen: &mut Vec<FileId>) {
        if seen.contains(&file) {
            return;
        }
        seen.push(file);
        let Some(data) = self.program.module(file) else { return };
        for (name, &index) in &data.declared.names {
            if data.module.decls[index as usize].public {
                self.imported.entry(*name).or_insert((DefId { file, index }, at));
            }
        }
        for (used, target) in data.module.uses.iter().zip(&data.uses) {
            let whole = match &used.target {
                UseTarget::Code(_) => true,
                UseTarget::File { imports, .. } => imports.is_empty(),
            };
            if let (true, Some(target)) = (whole, target) {
                self.import_pack(*target, at, seen);
            }
        }
    }

    fn import(&mut self, import: Import, def: DefId, public: bool) {
        let local = import.local();
        self.mention(import.name.span, Target::Def(def));
        if !public {
            self.report(
                Finding::new(
                    codes::NOT_PUBLIC,
                    import.name.span,
                    format!("`{}` is private to its file", import.name.name),
                )
                .label("used here")
                .related(self.program.span_of(def), "declared here without `pub`")
                .mend("write `pub` before its declaration"),
            );
        }
        if let Some(&index) = self.data.declared.names.get(&local.name) {
            let here = self.module.decls[index as usize].name.span;
            self.report(
                Finding::new(
                    codes::DUPLICATE_NAME,
                    local.span,
                    format!("`{}` is used and declared in one file", local.name),
                )
                .label("used here")
                .related(here, "declared here")
                .mend("take it under another name: `… as …`"),
            );
        } else if let Some((other, first)) = self.imported.insert(local.name, (def, local.span))
            && other != def
        {
            self.report(
                Finding::new(codes::DUPLICATE_NAME, local.span, format!("`{}` is used from two files", local.name))
                    .label("used again here")
                    .related(first, "first used here")
                    .mend("take one of the two under another name: `… as …`"),
            );
        }
    }

    /// A name of this module, of those it uses, or of the prelude.
    pub(crate) fn global(&self, name: Symbol) -> Option<DefId> {
        if let Some(&index) = self.data.declared.names.get(&name) {
            return Some(DefId { file: self.file, index });
        }
        if let Some(&(def, _)) = self.imported.get(&name) {
            return Some(def);
        }
        self.program.prelude.def_of(name)
    }

    /// Every name an expression could mean here, for suggestions.
    pub(crate) fn names_in_reach(&self) -> Vec<&'static str> {
        let locals = self.locals.iter().map(|l| l.name.as_str());
        let own = self.module.decls.iter().filter(|d| has_name(&d.kind)).map(|d| d.name.name.as_str());
        let imported = self.imported.keys().map(|n| n.as_str());
        let mut names: Vec<_> = locals.chain(own).chain(imported).collect();
        names.sort_unstable();
        names.dedup();
        names
    }

    /// A name outside an expression, which must be a declaration.
    pub(crate) fn global_ident(&mut self, ident: Ident) -> Option<DefId> {
        let Some(def) = self.global(ident.name) else {
            self.unknown_name(ident);
            return None;
        };
        self.note_ident(ident, Res::Def(def));
        self.mention(ident.span, Target::Def(def));
        Some(def)
    }

    /// Says that a name is not known.
    pub(crate) fn unknown_name(&mut self, ident: Ident) {
        if self.data.declared.lost.contains(&ident.name) {
            return;
        }
        // Whoever has this many faults is not helped by a guess at each.
        let guess = self.out.findings.len() < MOST_GUESSES;
        let near = if guess { closest(ident.name.as_str(), self.names_in_reach()) } else { None };
        let mut finding = Finding::new(codes::UNKNOWN_NAME, ident.span, format!("`{}` is not known here", ident.name))
            .label("neither declared in this file nor used from another");
        if let Some(near) = near {
            finding = finding.mend(format!("did you mean `{near}`?")).fix(wythe_findings::Fix::needs_consent(
                format!("write `{near}`"),
                ident.span,
                near,
            ));
        } else {
            finding = finding.mend("declare it, or name it in a `use` line");
        }
        self.report(finding);
    }

    /// Says that a declaration leads back to itself.
    pub(super) fn circle(&mut self, index: u32) {
        let start = self.under_way.iter().position(|i| *i == index).unwrap_or(0);
        let way: Vec<_> = self.under_way[start..].iter().map(|i| self.module.decls[*i as usize].name).collect();
        let first = way[0];
        let mut words: Vec<_> = way.iter().map(|n| format!("`{}`", n.name)).collect();
        words.push(words[0].clone());
        let mut finding =
            Finding::new(codes::DECLARATION_CYCLE, first.span, format!("`{}` is defined by itself", first.name))
                .label("its value needs its own value")
                .cause(words.join(" needs "))
                .mend("give one of them a value of its own");
        for other in &way[1..] {
            finding = finding.related(other.span, "and this is on the way");
        }
        self.report(finding);
    }
}
