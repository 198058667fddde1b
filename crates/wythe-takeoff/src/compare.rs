//! Two bills, or any two keyed lists, laid side by side: what is new, gone and changed.

use std::collections::BTreeMap;

/// One difference between an old and a new list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Change<K, V> {
    /// Only in the new one.
    Added {
        /// Which.
        key: K,
        /// As it is.
        new: V,
    },
    /// Only in the old one.
    Removed {
        /// Which.
        key: K,
        /// As it was.
        old: V,
    },
    /// In both and not the same.
    Changed {
        /// Which.
        key: K,
        /// As it was.
        old: V,
        /// As it is.
        new: V,
    },
}

impl<K, V> Change<K, V> {
    /// What the change is of.
    pub fn key(&self) -> &K {
        match self {
            Self::Added { key, .. } | Self::Removed { key, .. } | Self::Changed { key, .. } => key,
        }
    }
}

/// All differences, in the order of the keys. `same` says when two values count as equal, so that
/// rounding is no change.
pub fn changes<K: Ord + Clone, V: Clone>(
    old: &BTreeMap<K, V>,
    new: &BTreeMap<K, V>,
    same: impl Fn(&V, &V) -> bool,
) -> Vec<Change<K, V>> {
    let mut found: Vec<Change<K, V>> = old
        .iter()
        .filter_map(|(key, was)| match new.get(key) {
            None => Some(Change::Removed { key: key.clone(), old: was.clone() }),
            Some(is) if !same(was, is) => Some(Change::Changed { key: key.clone(), old: was.clone(), new: is.clone() }),
            Some(_) => None,
        })
        .collect();
    let added = new.iter().filter(|(key, _)| !old.contains_key(key));
    found.extend(added.map(|(key, is)| Change::Added { key: key.clone(), new: is.clone() }));
    found.sort_by(|a, b| a.key().cmp(b.key()));
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn bill(list: &[(u8, i32)]) -> BTreeMap<u8, i32> {
        list.iter().copied().collect()
    }

    #[test]
    fn each_kind_of_change_once_in_key_order() {
        let found = changes(&bill(&[(1, 10), (2, 20), (3, 30)]), &bill(&[(0, 5), (1, 10), (3, 31)]), |a, b| a == b);
        assert_eq!(
            found,
            [
                Change::Added { key: 0, new: 5 },
                Change::Removed { key: 2, old: 20 },
                Change::Changed { key: 3, old: 30, new: 31 },
            ]
        );
    }

    proptest! {
        #[test]
        fn applying_the_changes_to_the_old_gives_the_new(
            old in prop::collection::btree_map(0_u8..20, 0_i32..5, 0..15),
            new in prop::collection::btree_map(0_u8..20, 0_i32..5, 0..15),
        ) {
            let mut made = old.clone();
            for change in changes(&old, &new, |a, b| a == b) {
                match change {
                    Change::Added { key, new } | Change::Changed { key, new, .. } => {
                        made.insert(key, new);
                    }
                    Change::Removed { key, .. } => {
                        made.remove(&key);
                    }
                }
            }
            prop_assert_eq!(made, new);
        }
    }
}
