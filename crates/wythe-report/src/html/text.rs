//! Text in a page: escaped, words from right to left kept apart, names that are too long broken at their joints.

use maud::{Markup, html};

use crate::words::{clean, stretches};

/// Words longer than this are broken where a line ends.
const LONG: usize = 26;

/// Text of unknown origin.
pub(crate) fn text(text: &str) -> Markup {
    let cleaned = clean(text);
    html! {
        @for stretch in stretches(&cleaned) {
            @if stretch.turned { bdi dir="rtl" { (words(stretch.text)) } } @else { (words(stretch.text)) }
        }
    }
}

/// Words, those too long for a line in an element that may break anywhere.
fn words(text: &str) -> Markup {
    let long = |word: &str| word.chars().count() > LONG;
    if !text.split(' ').any(long) {
        return html! { (text) };
    }
    html! {
        @for word in text.split_inclusive(' ') {
            @if long(word) { span class="long" { (word) } } @else { (word) }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::text;

    #[test]
    fn nothing_in_a_text_is_taken_for_markup() {
        let shown = text("<script>alert(\"1\")</script> & 'x'").into_string();
        assert!(!shown.contains("<script") && shown.contains("&lt;script&gt;"), "{shown}");
    }

    #[test]
    fn long_names_may_break_and_turned_words_stand_apart() {
        let shown = text(&"a_very_long_name_".repeat(9)).into_string();
        assert!(shown.starts_with("<span class=\"long\">"), "{shown}");
        let shown = text("wall \u{5e7}\u{5d9}\u{5e8} 12").into_string();
        assert_eq!(shown, "wall <bdi dir=\"rtl\">\u{5e7}\u{5d9}\u{5e8} </bdi>12");
    }
}
