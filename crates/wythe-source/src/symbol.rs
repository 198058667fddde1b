//! Interned names: a name is compared and hashed as one address.
//!
//! The table is shared by the process, because a name means the same text in every file; each
//! thread keeps a front table so that files lexed side by side do not wait for one another.

use std::cell::RefCell;
use std::fmt;
use std::hash::{Hash, Hasher};
use std::sync::{LazyLock, Mutex};

use rustc_hash::FxHashMap;

/// A name. Equal names are one entry of the table, so comparison never reads the text and the text is at hand.
#[derive(Clone, Copy)]
pub struct Symbol(&'static Entry);

/// The text of a name, once in the process.
struct Entry(Box<str>);

type Table = FxHashMap<&'static str, &'static Entry>;

static TABLE: LazyLock<Mutex<Table>> = LazyLock::new(Mutex::default);

thread_local! {
    static FRONT: RefCell<Table> = RefCell::default();
}

impl Symbol {
    /// The symbol of a text. Texts live as long as the process: names are few and repeat.
    pub fn new(text: &str) -> Symbol {
        FRONT.with_borrow_mut(|front| {
            if let Some(&entry) = front.get(text) {
                return Symbol(entry);
            }
            let entry = intern(text);
            front.insert(&entry.0, entry);
            Symbol(entry)
        })
    }

    /// The text of the name.
    pub fn as_str(self) -> &'static str {
        &self.0.0
    }
}

fn intern(text: &str) -> &'static Entry {
    let mut table = TABLE.lock().unwrap_or_else(|poisoned| poisoned.into_inner());
    if let Some(&entry) = table.get(text) {
        return entry;
    }
    let entry: &'static Entry = Box::leak(Box::new(Entry(text.into())));
    table.insert(&entry.0, entry);
    entry
}

impl PartialEq for Symbol {
    fn eq(&self, other: &Self) -> bool {
        std::ptr::eq(self.0, other.0)
    }
}

impl Eq for Symbol {}

/// By place in memory, which is as good as the text: a text has one entry.
impl Hash for Symbol {
    fn hash<H: Hasher>(&self, state: &mut H) {
        std::ptr::hash(self.0, state);
    }
}

impl From<&str> for Symbol {
    fn from(text: &str) -> Self {
        Symbol::new(text)
    }
}

/// Order is the order of the texts, so that sorted output does not depend on who interned first.
impl Ord for Symbol {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        if self == other { std::cmp::Ordering::Equal } else { self.as_str().cmp(other.as_str()) }
    }
}

impl PartialOrd for Symbol {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl fmt::Display for Symbol {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.as_str())
    }
}

impl fmt::Debug for Symbol {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`{}`", self.as_str())
    }
}

#[cfg(test)]
mod tests {
    use super::Symbol;

    #[test]
    fn the_same_text_is_the_same_symbol_on_every_thread() {
        let here = Symbol::new("stem_wall");
        let there = std::thread::spawn(|| Symbol::new("stem_wall")).join().unwrap();
        assert_eq!(here, there);
        assert_eq!(here.as_str(), "stem_wall");
        assert_ne!(here, Symbol::new("pier_skirt"));
    }

    #[test]
    fn symbols_sort_by_their_text() {
        let mut names = [Symbol::new("zz_last"), Symbol::new("aa_first")];
        names.sort();
        assert_eq!(names[0].as_str(), "aa_first");
    }
}
