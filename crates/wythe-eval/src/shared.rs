//! What evaluators working side by side on one program have in common: library lines worked out once for all houses.

use std::sync::{Arc, PoisonError, RwLock};

use rustc_hash::FxHashMap;
use wythe_findings::Finding;
use wythe_model::Assembly;
use wythe_sema::DefId;

use crate::Value;

/// Values and assemblies known so far, each with the findings made on the way, which whoever takes it makes again.
///
/// It belongs to one state of a program, and is thrown away with it.
#[derive(Debug, Default)]
pub struct Shared {
    values: RwLock<FxHashMap<DefId, Known>>,
    assemblies: RwLock<FxHashMap<DefId, Vec<Filled>>>,
}

/// A value and the findings made on the way to it.
type Known = (Value, Arc<[Finding]>);

/// A build-up's arguments and what comes of them.
#[derive(Clone, Debug)]
pub(crate) struct Filled {
    /// The arguments.
    pub args: Vec<Value>,
    /// The assembly.
    pub assembly: Arc<Assembly>,
    /// The findings made on the way.
    pub findings: Arc<[Finding]>,
}

impl Shared {
    pub(crate) fn value(&self, def: DefId) -> Option<Known> {
        self.values.read().unwrap_or_else(PoisonError::into_inner).get(&def).cloned()
    }

    pub(crate) fn put_value(&self, def: DefId, value: Value, findings: &[Finding]) {
        self.values.write().unwrap_or_else(PoisonError::into_inner).insert(def, (value, findings.into()));
    }

    pub(crate) fn assembly(&self, def: DefId, args: &[Value]) -> Option<Filled> {
        let known = self.assemblies.read().unwrap_or_else(PoisonError::into_inner);
        known.get(&def)?.iter().find(|f| f.args == args).cloned()
    }

    /// Keeps an assembly, or gives the one that another evaluator has kept meanwhile.
    pub(crate) fn keep(&self, def: DefId, filled: Filled) -> Filled {
        let mut known = self.assemblies.write().unwrap_or_else(PoisonError::into_inner);
        let all = known.entry(def).or_default();
        if let Some(first) = all.iter().find(|f| f.args == filled.args) {
            return first.clone();
        }
        all.push(filled.clone());
        filled
    }
}
