//! A glance at the head of a file, without reading it: which files it uses, and whether it waives anything.
//!
//! It only decides what is let go early. Whatever it says, the findings are the same.

/// The paths in the `use` lines that open a file, as written.
pub(crate) fn used_paths(text: &str) -> impl Iterator<Item = &str> {
    let lines = text.lines().map(str::trim_start);
    let head = lines.take_while(|line| line.is_empty() || line.starts_with("//") || line.starts_with("use"));
    head.filter_map(|line| line.strip_prefix("use")?.split('"').nth(1))
}

/// Whether a file may hold a waiver, which can bear on a file that does not use it.
pub(crate) fn may_waive(text: &str) -> bool {
    text.contains("waiver")
}

#[cfg(test)]
mod tests {
    use super::{may_waive, used_paths};

    const TEXT: &str = "/// A house.\n\nuse \"../library/products.wythe\": board\nuse code upland\nuse \"a.wythe\"\n\nlet x = \"b.wythe\"\n";

    #[test]
    fn the_head_tells_what_is_used() {
        assert_eq!(used_paths(TEXT).collect::<Vec<_>>(), ["../library/products.wythe", "a.wythe"]);
        assert!(!may_waive(TEXT));
        assert!(may_waive("waiver of a in b { }"));
    }
}
