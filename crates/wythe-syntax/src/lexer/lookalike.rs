//! Characters that word processors put in place of the ones the language writes.

/// What the language writes for a character, where that is known.
pub(super) fn plain(c: char) -> Option<&'static str> {
    Some(match c {
        '\u{2018}' | '\u{2019}' | '\u{2032}' | '\u{00b4}' | '`' => "'",
        '\u{201c}' | '\u{201d}' | '\u{201e}' | '\u{2033}' => "\"",
        '\u{2010}'..='\u{2015}' | '\u{2212}' => "-",
        '\u{00d7}' => " x ",
        '\u{00f7}' => "/",
        '\u{00b1}' => "+-",
        '\u{2264}' => "<=",
        '\u{2265}' => ">=",
        '\u{2260}' => "!=",
        '\u{2192}' => "->",
        '\u{00a0}' | '\u{2007}' | '\u{2009}' | '\u{202f}' | '\u{3000}' => " ",
        '\u{2026}' => "..",
        '\u{00bd}' => "-1/2",
        '\u{00bc}' => "-1/4",
        '\u{00be}' => "-3/4",
        '\u{215b}' => "-1/8",
        '\u{215c}' => "-3/8",
        '\u{215d}' => "-5/8",
        '\u{215e}' => "-7/8",
        '\u{00b2}' => "2",
        '\u{00b3}' => "3",
        '&' => " and ",
        '|' => " or ",
        '!' => " not ",
        '#' => "//",
        _ => return None,
    })
}
