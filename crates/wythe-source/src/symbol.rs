//! Interned names: a name is compared and hashed as one number.
//!
//! The table is shared by the process, because a name means the same text in every file; each
//! thread keeps a front table so that files lexed side by side do not wait for one another.

use std::cell::RefCell;
use std::fmt;
use std::sync::{LazyLock, RwLock};

use rustc_hash::FxHashMap;

/// A name. Equal names are equal numbers, so comparison never reads the text.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Symbol(u32);

#[derive(Default)]
struct Table {
    numbers: FxHashMap<&'static str, u32>,
    texts: Vec<&'static str>,
}

static TABLE: LazyLock<RwLock<Table>> = LazyLock::new(RwLock::default);

thread_local! {
    static FRONT: RefCell<FxHashMap<&'static str, u32>> = RefCell::default();
}

impl Symbol {
    /// The symbol of a text. Texts live as long as the process: names are few and repeat.
    pub fn new(text: &str) -> Symbol {
        FRONT.with_borrow_mut(|front| {
            if let Some(&number) = front.get(text) {
                return Symbol(number);
            }
            let (text, number) = intern(text);
            front.insert(text, number);
            Symbol(number)
        })
    }

    /// The text of the name.
    pub fn as_str(self) -> &'static str {
        let table = TABLE.read().unwrap_or_else(|poisoned| poisoned.into_inner());
        table.texts.get(self.0 as usize).copied().unwrap_or("")
    }
}

fn intern(text: &str) -> (&'static str, u32) {
    let mut table = TABLE.write().unwrap_or_else(|poisoned| poisoned.into_inner());
    if let Some((&text, &number)) = table.numbers.get_key_value(text) {
        return (text, number);
    }
    let text: &'static str = Box::leak(text.to_owned().into_boxed_str());
    let number = table.texts.len() as u32;
    table.texts.push(text);
    table.numbers.insert(text, number);
    (text, number)
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
