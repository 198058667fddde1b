//! Nominal units: currencies and counting units, equal only to themselves.

use std::sync::{LazyLock, RwLock};

use rustc_hash::FxHashMap;
use wythe_source::Symbol;

/// A unit that is a thing of its own: a currency, or a counting unit such as `sheet`.
///
/// Two are the same when scope (where it was declared) and name are the same, across modules.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Nominal(u32);

#[derive(Clone, Copy)]
struct Entry {
    scope: Symbol,
    name: Symbol,
    currency: bool,
}

#[derive(Default)]
struct Table {
    numbers: FxHashMap<(Symbol, Symbol), u32>,
    entries: Vec<Entry>,
}

static TABLE: LazyLock<RwLock<Table>> = LazyLock::new(RwLock::default);

/// Scope of the currencies; no module can be called so.
const CURRENCY_SCOPE: &str = "<currency>";
/// Scope of the counting units that need no declaration.
const BUILT_IN_SCOPE: &str = "<built in>";

impl Nominal {
    /// The counting unit declared as `name` in `scope` (the module that declares it).
    pub fn new(scope: Symbol, name: Symbol) -> Nominal {
        let key = (scope, name);
        {
            let table = TABLE.read().unwrap_or_else(|poisoned| poisoned.into_inner());
            if let Some(&number) = table.numbers.get(&key) {
                return Nominal(number);
            }
        }
        let mut table = TABLE.write().unwrap_or_else(|poisoned| poisoned.into_inner());
        if let Some(&number) = table.numbers.get(&key) {
            return Nominal(number);
        }
        // Numbers start at one: zero marks an empty place in a dimension.
        let number = table.entries.len() as u32 + 1;
        table.entries.push(Entry { scope, name, currency: scope.as_str() == CURRENCY_SCOPE });
        table.numbers.insert(key, number);
        Nominal(number)
    }

    /// The currency with an ISO 4217 code.
    pub fn currency(code: Symbol) -> Nominal {
        Nominal::new(Symbol::new(CURRENCY_SCOPE), code)
    }

    /// A counting unit of the language itself, such as `pc`.
    pub fn built_in(name: Symbol) -> Nominal {
        Nominal::new(Symbol::new(BUILT_IN_SCOPE), name)
    }

    /// The name as written after a number.
    pub fn name(self) -> Symbol {
        self.entry().map_or_else(|| Symbol::new("?"), |entry| entry.name)
    }

    /// Where it was declared.
    pub fn scope(self) -> Symbol {
        self.entry().map_or_else(|| Symbol::new(""), |entry| entry.scope)
    }

    /// Whether it is money.
    pub fn is_currency(self) -> bool {
        self.entry().is_some_and(|entry| entry.currency)
    }

    pub(crate) fn id(self) -> u32 {
        self.0
    }

    pub(crate) fn from_id(id: u32) -> Nominal {
        Nominal(id)
    }

    fn entry(self) -> Option<Entry> {
        let table = TABLE.read().unwrap_or_else(|poisoned| poisoned.into_inner());
        let index = (self.0 as usize).checked_sub(1)?;
        table.entries.get(index).copied()
    }
}

impl std::fmt::Debug for Nominal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", self.name())
    }
}
