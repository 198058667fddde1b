//! The product that was probably meant.

/// The catalog's name at the least edit distance, if that is small against its length.
pub(super) fn nearest<'a>(name: &str, known: impl Iterator<Item = &'a str>) -> Option<String> {
    if name.chars().count() > 80 {
        return None;
    }
    known
        .map(|k| (edit_distance(name, k), k))
        .min()
        .filter(|(d, k)| *d <= (k.chars().count() / 4).max(1))
        .map(|(_, k)| k.to_owned())
}

fn edit_distance(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, ca) in a.chars().enumerate() {
        let mut diagonal = row[0];
        row[0] = i + 1;
        for (j, cb) in b.iter().enumerate() {
            let cost = diagonal + usize::from(ca != *cb);
            diagonal = row[j + 1];
            row[j + 1] = cost.min(row[j] + 1).min(diagonal + 1);
        }
    }
    row[b.len()]
}
