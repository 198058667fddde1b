//! The code packs that come with Wythe, embedded from `codes/`.

include!(concat!(env!("OUT_DIR"), "/packs.rs"));

/// The folder built-in packs are shown in: no file of a repository can stand there.
pub(crate) const FOLDER: &str = "wythe:codes";

/// The name and text of every pack that comes with Wythe, in order of name.
pub fn built_in_packs() -> impl Iterator<Item = (&'static str, &'static str)> {
    PACKS.iter().copied()
}

/// The text of a pack that comes with Wythe.
pub(crate) fn pack(name: &str) -> Option<&'static str> {
    PACKS.binary_search_by_key(&name, |(name, _)| name).ok().map(|at| PACKS[at].1)
}
