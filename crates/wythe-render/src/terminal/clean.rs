//! Text of unknown origin made fit for a terminal: nothing in it can move the cursor, recolor or reorder.

use std::borrow::Cow;

/// The text with control and direction characters replaced by others of the same length in bytes,
/// so that places in it stay where they are. Tabs and line ends are kept.
pub fn clean(text: &str) -> Cow<'_, str> {
    // Almost every text is clean already, and a byte tells.
    let harmless = |b: &u8| matches!(b, b' '..=b'~' | b'\t' | b'\n');
    if text.as_bytes().iter().all(harmless) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len());
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        out.push(match c {
            '\t' | '\n' => c,
            '\r' if chars.peek() == Some(&'\n') => c,
            c if (c as u32) < 0x20 || c == '\u{7f}' => '?',
            '\u{80}'..='\u{9f}' => '\u{bf}',
            c if turns_direction(c) || matches!(c, '\u{2028}' | '\u{2029}' | '\u{feff}') => '\u{fffd}',
            c => c,
        });
    }
    Cow::Owned(out)
}

/// Clean text of a length fit to be read; what is beyond is left out, and three dots say so.
pub(super) fn clipped(text: &str, limit: usize) -> Cow<'_, str> {
    match text.char_indices().nth(limit) {
        None => clean(text),
        Some((end, _)) => Cow::Owned(clean(&text[..end]).into_owned() + "…"),
    }
}

/// Characters that change the direction in which text is shown (Unicode Standard Annex 9, table 4), so that a
/// line could be shown as other than it is.
const fn turns_direction(c: char) -> bool {
    matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

#[cfg(test)]
mod tests {
    use super::{clean, clipped};

    #[test]
    fn nothing_reaches_the_terminal_as_a_command_and_no_place_moves() {
        let dirty = "a\u{1b}[2Jb\u{9b}31m\u{202e}c\r\nd\re\u{7}\u{7f}\u{0}\u{85}\u{2028}\tf °½ 😀";
        let cleaned = clean(dirty);
        assert_eq!(cleaned.len(), dirty.len());
        assert_eq!(cleaned, "a?[2Jb¿31m\u{fffd}c\r\nd?e???¿\u{fffd}\tf °½ 😀");
        for (at, c) in dirty.char_indices() {
            assert!(cleaned.is_char_boundary(at), "{c:?} moved");
        }
    }

    #[test]
    fn text_beyond_reading_is_cut_between_characters() {
        assert_eq!(clipped("½½½", 3), "½½½");
        assert_eq!(clipped("½½½½", 3), "½½½…");
    }

    #[test]
    fn clean_text_is_kept() {
        assert!(matches!(clean("wall south runs east 42'\n"), std::borrow::Cow::Borrowed(_)));
        assert_eq!(clean("52 °F"), "52 °F");
    }
}
