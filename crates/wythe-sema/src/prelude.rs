//! The words every file knows, declared in the language itself.

use std::sync::Arc;

use rustc_hash::FxHashMap;
use wythe_source::{FileId, Symbol};
use wythe_syntax::parse_prelude;

use crate::{DefId, ModuleData, Program, check_module, declare};

/// The text of the prelude.
pub const PRELUDE_TEXT: &str = include_str!("../prelude/prelude.wythe");
/// The name it goes by in findings and links.
pub const PRELUDE_PATH: &str = "prelude.wythe";

/// The prelude, read and checked.
#[derive(Clone, Debug)]
pub struct Prelude {
    /// Its file number.
    pub file: FileId,
    /// What is known of it.
    pub data: ModuleData,
}

impl Prelude {
    /// The file number kept for the prelude.
    pub const FILE: FileId = FileId(u32::MAX);

    /// Reads the prelude.
    pub fn load() -> Arc<Prelude> {
        let parsed = parse_prelude(Prelude::FILE, PRELUDE_TEXT);
        let declared = Arc::new(declare(&parsed.module));
        let data = ModuleData {
            text: PRELUDE_TEXT.into(),
            module: Arc::new(parsed.module),
            declared,
            uses: Vec::new(),
            checked: None,
        };
        let bare = Prelude { file: Prelude::FILE, data };
        let program = Program::new(Arc::new(bare.clone()));
        let mut checked = check_module(&program, Prelude::FILE);
        checked.findings.splice(0..0, parsed.findings);
        let data = ModuleData { checked: Some(Arc::new(checked)), ..bare.data };
        Arc::new(Prelude { data, ..bare })
    }

    /// A declaration of the prelude.
    pub fn def(&self, name: &str) -> Option<DefId> {
        self.def_of(Symbol::new(name))
    }

    /// A declaration of the prelude.
    pub fn def_of(&self, name: Symbol) -> Option<DefId> {
        let names: &FxHashMap<Symbol, u32> = &self.data.declared.names;
        names.get(&name).map(|&index| DefId { file: self.file, index })
    }

    /// A record the compiler itself relies on; a test holds that every one it names is there.
    pub fn record(&self, name: &str) -> DefId {
        self.def(name).unwrap_or(DefId { file: self.file, index: 0 })
    }
}

#[cfg(test)]
mod tests {
    use super::Prelude;

    #[test]
    fn the_prelude_is_sound() {
        let prelude = Prelude::load();
        let findings = &prelude.data.checked.as_ref().unwrap().findings;
        assert!(findings.is_empty(), "{findings:#?}");
    }
}
