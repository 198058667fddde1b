//! Text of unknown origin made fit to be read: nothing in it turns the direction of a line or hides.

use wythe_render::terminal;

/// The text with control and direction characters replaced.
pub(crate) fn clean(text: &str) -> String {
    terminal::clean(text).into_owned()
}

/// The text on one line.
pub(crate) fn flowing(text: &str) -> String {
    terminal::clean(text).split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A name of the language in words: `wet_trades` is read "wet trades".
pub(crate) fn spoken(name: &str) -> String {
    clean(&name.replace('_', " "))
}

/// A list as it is spoken: "a, b and c".
pub(crate) fn listed(items: &[String]) -> String {
    match items {
        [] => String::new(),
        [one] => one.clone(),
        [head @ .., last] => format!("{} and {last}", head.join(", ")),
    }
}

/// Whether a character is written from right to left (blocks of the Unicode Standard, chapters 9 and 19).
pub(crate) const fn is_right_to_left(c: char) -> bool {
    matches!(c as u32, 0x0590..=0x08FF | 0xFB1D..=0xFDFF | 0xFE70..=0xFEFF | 0x10800..=0x10FFF | 0x1E800..=0x1EFFF)
}

/// A stretch of text, and whether it is written from right to left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Stretch<'a> {
    pub(crate) text: &'a str,
    pub(crate) turned: bool,
}

/// The text in stretches of one direction. Words from right to left that follow one another stay together.
pub(crate) fn stretches(text: &str) -> Vec<Stretch<'_>> {
    if text.is_ascii() {
        return vec![Stretch { text, turned: false }];
    }
    let (mut out, mut start, mut at): (Vec<Stretch<'_>>, usize, usize) = (Vec::new(), 0, 0);
    let mut turned = false;
    let mut push = |from: usize, to: usize, turned: bool| {
        if let Some(text) = text.get(from..to).filter(|t| !t.is_empty()) {
            out.push(Stretch { text, turned });
        }
    };
    for word in text.split_inclusive(' ') {
        let this = word.chars().any(is_right_to_left);
        if this != turned {
            push(start, at, turned);
            (start, turned) = (at, this);
        }
        at += word.len();
    }
    push(start, at, turned);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stretches_keep_every_letter_and_part_directions() {
        let text = "wall \u{5e7}\u{5d9}\u{5e8} \u{5de}\u{5d6}\u{5e8}\u{5d7} is open";
        let parts = stretches(text);
        assert_eq!(parts.iter().map(|s| s.text).collect::<String>(), text);
        assert_eq!(parts.iter().map(|s| s.turned).collect::<Vec<_>>(), [false, true, false]);
        assert_eq!(stretches("plain"), [Stretch { text: "plain", turned: false }]);
        assert!(stretches("").iter().all(|s| s.text.is_empty()));
    }

    #[test]
    fn what_turns_a_line_is_taken_out() {
        assert!(!clean("a\u{202e}b\u{2066}c").contains(['\u{202e}', '\u{2066}']));
        assert_eq!(flowing("a\n  b\tc"), "a b c");
        assert_eq!(listed(&["a".into(), "b".into(), "c".into()]), "a, b and c");
    }
}
