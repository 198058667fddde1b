//! What every plot shares: its size, inks and letters, and the frame in which a page shows it.

use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{FontFamily, RGBColor};

use crate::model::Plot;

/// Text and axes.
pub(super) const INK: RGBColor = RGBColor(0x1d, 0x25, 0x29);
/// Words that may stand back.
pub(super) const QUIET: RGBColor = RGBColor(0x4a, 0x52, 0x56);
/// Lines of the grid.
pub(super) const FAINT: RGBColor = RGBColor(0xc9, 0xce, 0xd1);
/// The height of letters.
pub(super) const LETTER: f64 = 11.0;
/// The fonts asked for, those of the drawings.
const FAMILY: &str = "Arial, Helvetica, 'Liberation Sans', 'DejaVu Sans', sans-serif";

/// A plot could not be drawn; writing to memory does not fail, so this is a figure past all measure.
pub(super) type Drawn = Result<(), Box<dyn std::error::Error>>;

/// Letters of a size, in an ink, set where `across` and `down` say.
pub(super) fn letters(size: f64, ink: RGBColor, across: HPos, down: VPos) -> TextStyle<'static> {
    // The library would keep the size in whole numbers only; the unit of the plot is small enough for that.
    let font = FontDesc::new(FontFamily::Name(FAMILY), size * FONT_SCALE, FontStyle::Normal);
    let mut style = TextStyle::from(font).pos(Pos::new(across, down));
    style.color = ink.to_backend_color();
    style
}

/// The library takes the height of a letter for its font's size over this.
const FONT_SCALE: f64 = 1.24;

/// How wide a text is at most, in letters of a size: as wide as in the widest of the fonts asked for.
pub(super) fn width(text: &str, size: f64) -> f64 {
    let em = |c: char| match c {
        'i' | 'j' | 'l' | '.' | ',' | ':' | '\'' | '|' => 0.34,
        'f' | 't' | 'r' | ' ' | '(' | ')' | '-' | '/' => 0.42,
        'm' | 'w' | 'M' | 'W' | '%' => 0.98,
        c if c.is_uppercase() => 0.74,
        _ => 0.65,
    };
    text.chars().map(em).sum::<f64>() * size
}

/// The plot with its size, its name and its words for those who cannot see it.
pub(super) fn framed(id: &str, title: &str, description: &str, size: (u32, u32), body: &str) -> Plot {
    let id: String = id.chars().map(|c| if c.is_ascii_alphanumeric() || c == '-' { c } else { '_' }).collect();
    let start = body.find("<svg").and_then(|at| body[at..].find('>').map(|end| at + end + 1)).unwrap_or(0);
    let inner = body.get(start..).unwrap_or("");
    let (wide, high) = size;
    let svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" id=\"{id}\" viewBox=\"0 0 {wide} {high}\" width=\"{wide}\" \
         height=\"{high}\" role=\"img\" aria-labelledby=\"{id}-title {id}-words\">\n<title id=\"{id}-title\">{}</title>\n\
         <desc id=\"{id}-words\">{}</desc>{inner}",
        escaped(title),
        escaped(description),
    );
    Plot { title: title.to_owned(), description: description.to_owned(), svg }
}

/// Text between marks of XML.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

/// A step of an axis that gives three to six lines: 1, 2 or 5 and a power of ten.
pub(super) fn step(span: f64) -> f64 {
    if !(span.is_finite() && span > 0.0) {
        return 1.0;
    }
    let power = 10_f64.powf((span / 6.0).log10().floor());
    [1.0, 2.0, 5.0, 10.0].iter().map(|s| s * power).find(|s| span / s <= 6.0).unwrap_or(power * 10.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn axes_have_few_lines() {
        for span in [0.03, 0.7, 1.0, 4.9, 38.0, 99.0, 1234.0] {
            let lines = span / step(span);
            assert!((2.0..=6.0).contains(&lines), "{span}: {lines}");
        }
        assert!(step(f64::NAN) > 0.0 && step(0.0) > 0.0);
    }

    #[test]
    fn words_are_escaped() {
        let plot = framed("a b", "<script>", "x & y", (2, 1), "<svg width=\"2\">\n</svg>\n");
        let svg = roxmltree::Document::parse(&plot.svg).unwrap();
        assert_eq!(svg.root_element().attribute("id"), Some("a_b"));
        assert!(plot.svg.contains("&lt;script&gt;"));
    }
}
