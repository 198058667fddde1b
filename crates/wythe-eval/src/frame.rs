//! Where an expression is worked out: its module, the values bound around it, the foundation examined.

use std::sync::Arc;

use wythe_model::Foundation;
use wythe_sema::{Checked, Program};
use wythe_source::{FileId, Symbol};
use wythe_syntax::ast::Module;

use crate::Value;

/// Where an expression is worked out.
#[derive(Clone)]
pub struct Frame<'p> {
    /// The file.
    pub file: FileId,
    /// Its tree.
    pub module: &'p Module,
    /// What is known of it.
    pub checked: &'p Checked,
    /// Its text.
    pub text: &'p str,
    /// The arguments, by number.
    pub params: Vec<Value>,
    /// Values bound on the way, innermost last.
    pub locals: Vec<(Symbol, Value)>,
    /// The foundation a rule looks at.
    pub whole: Option<Arc<Foundation>>,
}

impl<'p> Frame<'p> {
    /// A frame in a module with nothing bound; `None` where the module has not been checked.
    pub fn new(program: &'p Program, file: FileId) -> Option<Self> {
        let data = program.module(file)?;
        let checked = data.checked.as_deref()?;
        Some(Frame {
            file,
            module: &data.module,
            checked,
            text: &data.text,
            params: Vec::new(),
            locals: Vec::new(),
            whole: None,
        })
    }

    /// The innermost value of a name.
    pub fn local(&self, name: Symbol) -> Option<&Value> {
        self.locals.iter().rev().find(|(n, _)| *n == name).map(|(_, v)| v)
    }
}
