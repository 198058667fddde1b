//! The modules of a program and what has been learnt of them.

use std::sync::Arc;

use rustc_hash::FxHashMap;
use wythe_source::{FileId, Span, Symbol};
use wythe_syntax::ast::{Decl, Module};

use crate::{Checked, Declared, Prelude};

/// A declaration: its file and its number in it.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, PartialOrd, Ord)]
pub struct DefId {
    /// The file.
    pub file: FileId,
    /// The number of the declaration in its module.
    pub index: u32,
}

/// What is known of one module.
#[derive(Clone, Debug)]
pub struct ModuleData {
    /// Its text.
    pub text: Arc<str>,
    /// Its tree.
    pub module: Arc<Module>,
    /// Its names.
    pub declared: Arc<Declared>,
    /// The file each of its `use` lines leads to, in order; `None` where it leads nowhere.
    pub uses: Vec<Option<FileId>>,
    /// Its types, once checked.
    pub checked: Option<Arc<Checked>>,
}

/// All modules, the prelude included.
#[derive(Clone, Debug)]
pub struct Program {
    /// The words every file knows.
    pub prelude: Arc<Prelude>,
    modules: FxHashMap<FileId, Arc<ModuleData>>,
}

impl Program {
    /// A program of the prelude alone.
    pub fn new(prelude: Arc<Prelude>) -> Self {
        let mut modules = FxHashMap::default();
        modules.insert(prelude.file, Arc::new(prelude.data.clone()));
        Program { prelude, modules }
    }

    /// Puts a module in, or in another's place.
    pub fn insert(&mut self, file: FileId, data: ModuleData) {
        self.modules.insert(file, Arc::new(data));
    }

    /// Takes a module out.
    pub fn remove(&mut self, file: FileId) {
        self.modules.remove(&file);
    }

    /// Records what a check has learnt.
    pub fn set_checked(&mut self, file: FileId, checked: Arc<Checked>) {
        if let Some(data) = self.modules.get_mut(&file) {
            Arc::make_mut(data).checked = Some(checked);
        }
    }

    /// A module.
    pub fn module(&self, file: FileId) -> Option<&ModuleData> {
        self.modules.get(&file).map(|data| &**data)
    }

    /// Every file of the program, in order.
    pub fn files(&self) -> Vec<FileId> {
        let mut files: Vec<_> = self.modules.keys().copied().collect();
        files.sort();
        files
    }

    /// A declaration.
    pub fn decl(&self, def: DefId) -> Option<&Decl> {
        self.modules.get(&def.file)?.module.decls.get(def.index as usize)
    }

    /// The name of a declaration.
    pub fn name_of(&self, def: DefId) -> Symbol {
        self.decl(def).map_or_else(|| Symbol::new("?"), |d| d.name.name)
    }

    /// The place of a declaration's name.
    pub fn span_of(&self, def: DefId) -> Span {
        self.decl(def).map_or_else(Span::default, |d| d.name.span)
    }

    /// The text of a place.
    pub fn text(&self, span: Span) -> &str {
        self.modules.get(&span.file).map_or("", |m| span.text(&m.text))
    }

    /// What has been learnt of a file.
    pub fn checked(&self, file: FileId) -> Option<&Arc<Checked>> {
        self.modules.get(&file)?.checked.as_ref()
    }

    /// The documentation of a place of `///` lines, without its marks.
    pub fn docs(&self, span: Option<Span>) -> String {
        let Some(span) = span else { return String::new() };
        let lines = self.text(span).lines().map(|l| l.trim().trim_start_matches("///").trim());
        lines.collect::<Vec<_>>().join("\n").trim().to_owned()
    }
}
