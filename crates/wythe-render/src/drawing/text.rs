//! How wide a text is, at most; cutting and wrapping it to a width; making text from outside safe to show.
//!
//! A drawing does not know which font its reader has. The widths here are those of DejaVu Sans, the widest of the
//! sans-serif fonts named in the file (its hmtx table, read once and copied here in thousandths of the letter size);
//! what fits in them fits in the others. Signs outside the table are taken as wide as the widest of their kind.

use unicode_width::UnicodeWidthChar;

/// How far letters rise above their baseline, as a share of their size.
pub const RISE: f64 = 0.80;
/// How far letters fall below it.
pub const FALL: f64 = 0.24;
/// From one baseline to the next, as a share of the size.
pub const LEADING: f64 = 1.22;

/// The fonts asked for, in order; none is wider than the one measured.
pub const FAMILY: &str = "Arial, Helvetica, 'Liberation Sans', 'DejaVu Sans', sans-serif";

#[rustfmt::skip]
const PLAIN: [u16; 95] = [
    318, 401, 460, 838, 637, 951, 780, 275, 391, 391, 500, 838, 318, 361, 318, 337, 637, 637, 637, 637, 637, 637, 637,
    637, 637, 637, 337, 337, 838, 838, 838, 531, 1000, 685, 687, 699, 771, 632, 576, 775, 752, 295, 295, 656, 558, 863,
    749, 788, 604, 788, 695, 635, 611, 732, 685, 989, 686, 611, 686, 391, 337, 391, 838, 500, 500, 613, 635, 550, 635,
    616, 353, 635, 634, 278, 278, 580, 278, 975, 634, 612, 635, 635, 412, 521, 393, 634, 592, 818, 592, 592, 525, 637,
    337, 637, 838,
];

#[rustfmt::skip]
const BOLD: [u16; 95] = [
    349, 457, 521, 838, 696, 1002, 873, 307, 458, 458, 523, 838, 380, 416, 380, 366, 696, 696, 696, 696, 696, 696, 696,
    696, 696, 696, 400, 400, 838, 838, 838, 581, 1000, 774, 763, 734, 831, 684, 684, 821, 837, 373, 373, 775, 638, 996,
    837, 851, 733, 851, 771, 721, 683, 813, 774, 1104, 771, 725, 726, 458, 366, 458, 838, 500, 500, 675, 716, 593, 716,
    679, 436, 716, 712, 343, 343, 666, 343, 1042, 712, 688, 716, 716, 494, 596, 479, 712, 652, 924, 646, 652, 583, 712,
    366, 712, 838,
];

/// The width of one letter, in thousandths of its size.
fn advance(letter: char, bold: bool) -> u16 {
    let code = letter as usize;
    if (32..127).contains(&code) {
        return if bold { BOLD[code - 32] } else { PLAIN[code - 32] };
    }
    match letter {
        'Æ' | 'æ' | 'Œ' | 'œ' | 'Ŵ' | 'ŵ' | 'Ħ' | 'ŉ' | '©' | '®' | '¼'..='¾' => 1170,
        '\u{a0}'..='\u{17f}' | '\u{5d0}'..='\u{5ea}' => 860,
        '\u{180}'..='\u{24f}' => 1560,
        '\u{2010}'..='\u{2027}' | '\u{2032}'..='\u{2034}' => 1000,
        '\u{2030}' | '\u{2031}' => 1900,
        _ => match letter.width() {
            None | Some(0) => 0,
            Some(1) => 1400,
            Some(_) => 1500,
        },
    }
}

/// The most a text of this size is wide, in the unit of the size.
pub fn width(text: &str, size: f64, bold: bool) -> f64 {
    let thousandths: f64 = text.chars().map(|c| f64::from(advance(c, bold))).sum();
    thousandths / 1000.0 * size
}

/// The text cut to a width with an ellipsis; nothing where it fits as it is.
pub fn cut(text: &str, size: f64, bold: bool, room: f64) -> Option<String> {
    if width(text, size, bold) <= room {
        return None;
    }
    let isolated = text.starts_with(ISOLATE);
    let room = room - width("…", size, bold);
    let mut used = 0.0;
    let mut out = String::new();
    for letter in text.chars().filter(|c| *c != END_ISOLATE) {
        used += f64::from(advance(letter, bold)) / 1000.0 * size;
        if used > room {
            break;
        }
        out.push(letter);
    }
    let mut out = out.trim_end().to_owned();
    if isolated || out.contains(ISOLATE) {
        out.push(END_ISOLATE);
    }
    out.push('…');
    Some(out)
}

/// Broken into lines no wider than the room; a word that is wider than the room is cut.
pub fn wrap(text: &str, size: f64, bold: bool, room: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in text.split(' ').filter(|w| !w.is_empty()) {
        let longer = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
        if width(&longer, size, bold) <= room {
            line = longer;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        line = cut(word, size, bold, room).unwrap_or_else(|| word.to_owned());
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

const ISOLATE: char = '\u{2068}';
const END_ISOLATE: char = '\u{2069}';

/// Text from outside, made safe to show: no control signs, no marks that turn the direction of what stands round
/// it; where it holds letters that may read from right to left it is set apart, so that it turns nothing but itself.
pub fn clean(text: &str) -> String {
    let turns = |c: char| matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    let safe = |c: char| match c {
        c if c.is_control() || matches!(c, '\u{2028}' | '\u{2029}') => Some(' '),
        c if turns(c) || matches!(c, '\u{fffe}' | '\u{ffff}') => None,
        c => Some(c),
    };
    let plain: String = text.chars().filter_map(safe).collect();
    if plain.chars().any(|c| matches!(c, '\u{590}'..='\u{8ff}' | '\u{fb1d}'..='\u{fdff}' | '\u{fe70}'..='\u{feff}' | '\u{10800}'..='\u{10fff}' | '\u{1e800}'..='\u{1efff}')) {
        format!("{ISOLATE}{plain}{END_ISOLATE}")
    } else {
        plain
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wide_letters_are_wider_and_bold_is_wider_still() {
        assert!(width("WWW", 3.0, false) > width("iii", 3.0, false));
        assert!(width("wall", 3.0, true) > width("wall", 3.0, false));
        assert!((width("A", 1000.0, false) - 685.0).abs() < 0.5);
    }

    #[test]
    fn a_long_name_is_cut_to_its_room() {
        let name = "a_wall_with_a_name_that_nobody_would_want_to_say_twice";
        let short = cut(name, 3.0, false, 40.0).unwrap();
        assert!(short.ends_with('…') && width(&short, 3.0, false) <= 40.0);
        assert_eq!(cut("south", 3.0, false, 40.0), None);
    }

    #[test]
    fn lines_fit_their_room_and_lose_no_word() {
        let text = "tape foil tape over top edge of board during rough in";
        let lines = wrap(text, 2.6, false, 30.0);
        assert!(lines.len() > 1 && lines.iter().all(|l| width(l, 2.6, false) <= 30.0));
        assert_eq!(lines.join(" "), text);
    }

    #[test]
    fn text_from_outside_cannot_turn_its_neighbors() {
        assert_eq!(clean("a\u{202e}b\nc\u{0}"), "ab c ");
        assert_eq!(clean("שלום"), "\u{2068}שלום\u{2069}");
        assert_eq!(clean("<script>"), "<script>");
    }
}
