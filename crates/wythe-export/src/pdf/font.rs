//! The fonts every reader of PDF has, how wide their letters are, and text in their encoding.
//!
//! Widths are those of the Adobe Core 14 font metrics, Helvetica and Helvetica-Bold, in thousandths of the size.

/// A font.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Face {
    /// Helvetica.
    Plain,
    /// Helvetica-Bold.
    Bold,
}

impl Face {
    pub(super) const ALL: [Face; 2] = [Face::Plain, Face::Bold];

    /// Its name for readers.
    pub(super) const fn name(self) -> &'static [u8] {
        match self {
            Face::Plain => b"Helvetica",
            Face::Bold => b"Helvetica-Bold",
        }
    }

    /// Its name on a page.
    pub(super) const fn key(self) -> &'static [u8] {
        match self {
            Face::Plain => b"F1",
            Face::Bold => b"F2",
        }
    }
}

#[rustfmt::skip]
const PLAIN: [u16; 95] = [
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556,
    556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833,
    722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556,
    556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334,
    260, 334, 584,
];

#[rustfmt::skip]
const BOLD: [u16; 95] = [
    278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556,
    556, 556, 556, 333, 333, 584, 584, 584, 611, 975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833,
    722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556, 333, 556, 611, 556, 611,
    556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611, 611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389,
    280, 389, 584,
];

/// How wide encoded text is, as a share of its size. Letters outside ASCII are taken as wide as most letters.
pub(super) fn width(bytes: &[u8], face: Face) -> f64 {
    let table = if face == Face::Bold { &BOLD } else { &PLAIN };
    let wide = |b: &u8| match b {
        32..=126 => table[usize::from(b - 32)],
        // Superscript figures, the degree, primes and quotes.
        0x91..=0x94 | 0xb0..=0xb3 | 0xb9 => 370,
        0x85 | 0x97 => 1000,
        _ => 556,
    };
    bytes.iter().map(|b| f64::from(wide(b))).sum::<f64>() / 1000.0
}

/// Text in the encoding WinAnsi (PDF 32000-1, annex D), and how many letters it has no sign for.
pub(super) fn encode(text: &str) -> (Vec<u8>, usize) {
    let mut lost = 0;
    let mut out = Vec::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            ' '..='~' => out.push(letter as u8),
            '\u{a0}'..='\u{ff}' => out.push(letter as u32 as u8),
            '€' => out.push(0x80),
            '…' => out.push(0x85),
            '‘' => out.push(0x91),
            '’' | '′' => out.push(0x92),
            '“' => out.push(0x93),
            '”' | '″' => out.push(0x94),
            '•' => out.push(0x95),
            '–' => out.push(0x96),
            '—' => out.push(0x97),
            '™' => out.push(0x99),
            '≥' => out.extend(b">="),
            '≤' => out.extend(b"<="),
            // Marks that only set the direction of text.
            '\u{200e}' | '\u{200f}' | '\u{2066}'..='\u{2069}' => {}
            _ => {
                lost += 1;
                out.push(b'?');
            }
        }
    }
    (out, lost)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_fonts_lack_is_counted() {
        assert_eq!(encode("12 ft² ≥ 3"), (b"12 ft\xb2 >= 3".to_vec(), 0));
        assert_eq!(encode("\u{2068}שלום\u{2069}"), (b"????".to_vec(), 4));
        assert!((width(b"A", Face::Plain) - 0.667).abs() < 1e-12);
        assert!((width(b"a", Face::Bold) - 0.556).abs() < 1e-12);
    }
}
