//! Modules, names, types and dimensions.
//!
//! Imports `wythe-source`, `wythe-findings`, `wythe-units`, `wythe-syntax`, and the word lists of `wythe-model`.
//! Start at [`check_module`]; the words the language gives every file are declared in the language itself,
//! in `prelude/prelude.wythe`.

mod blocks;
mod checked;
mod checker;
mod declare;
mod layers;
mod prelude;
mod program;
mod signature;
mod suggest;
mod types;

pub use checked::{Builtin, Checked, Literal, Literals, PartKind, Res, Target};
pub use checker::check_module;
pub use declare::{Declared, declare};
pub use layers::{allowed_clauses, classes_for};
pub use prelude::{PRELUDE_PATH, PRELUDE_TEXT, Prelude};
pub use program::{DefId, ModuleData, Program};
pub use signature::{FieldType, ParamType, Signature};
pub use suggest::closest;
pub use types::{Loose, Type};
