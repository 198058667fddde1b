//! "Did you mean": the closest of a list of names.

/// The closest name to a word, if one is close enough to be a slip of the finger or of memory.
pub fn closest<'a>(word: &str, names: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let limit = (word.chars().count() / 3).max(1);
    names
        .into_iter()
        .map(|name| (distance(word, name), name))
        .filter(|(d, name)| *d <= limit || (word.len() >= 4 && (name.starts_with(word) || name.ends_with(word))))
        .min_by_key(|(d, name)| (*d, name.len(), *name))
        .map(|(_, name)| name)
}

/// Edits between two words, a swap of neighbours counting as one.
fn distance(a: &str, b: &str) -> usize {
    strsim::osa_distance(a, b)
}

#[cfg(test)]
mod tests {
    use super::closest;

    #[test]
    fn a_slip_is_seen_through_and_a_stranger_is_not() {
        let names = ["footing", "ground", "grade", "top"];
        assert_eq!(closest("gorund", names), Some("ground"));
        assert_eq!(closest("heigth", ["height", "width"]), Some("height"));
        assert_eq!(closest("zebra", names), None);
    }
}
