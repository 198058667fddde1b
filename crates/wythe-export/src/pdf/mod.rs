//! Drawings as PDF, one page each, the page as large as the sheet: printed at its own size, or imported by a drafting
//! program, a millimeter on paper is a millimeter.

mod font;
mod page;

use pdf_writer::{Finish as _, Name, Pdf as Writer, Rect, Ref, TextStr};
use wythe_render::drawing::{Drawing, Theme};

use font::Face;

/// A finished file.
#[derive(Clone, Debug)]
pub struct Pdf {
    /// Its bytes.
    pub bytes: Vec<u8>,
    /// Letters that the fonts every reader has do not hold, and that stand there as `?`.
    pub replaced: usize,
}

/// Points of a millimeter.
const POINT: f64 = 72.0 / 25.4;

/// The drawings as one file, a page each.
pub fn pdf(title: &str, drawings: &[Drawing], theme: Theme) -> Pdf {
    let mut writer = Writer::new();
    let mut next = 1;
    let mut reference = || {
        next += 1;
        Ref::new(next - 1)
    };
    let (catalog, tree, info) = (reference(), reference(), reference());
    let fonts = Face::ALL.map(|face| (face, reference()));
    let pages: Vec<(Ref, Ref)> = drawings.iter().map(|_| (reference(), reference())).collect();
    writer.catalog(catalog).pages(tree).lang(TextStr("en"));
    writer.pages(tree).kids(pages.iter().map(|(page, _)| *page)).count(pages.len() as i32);
    writer.document_info(info).title(TextStr(title)).creator(TextStr("Wythe"));
    for (face, at) in fonts {
        let mut font = writer.type1_font(at);
        font.base_font(Name(face.name())).encoding_predefined(Name(b"WinAnsiEncoding"));
    }
    let mut replaced = 0;
    for (drawing, (page, content)) in drawings.iter().zip(&pages) {
        let (bytes, lost) = page::content(drawing, theme);
        replaced += lost;
        writer.stream(*content, &bytes);
        let mut written = writer.page(*page);
        written.parent(tree).contents(*content);
        written.media_box(Rect::new(0.0, 0.0, (drawing.width * POINT) as f32, (drawing.height * POINT) as f32));
        let mut resources = written.resources();
        let mut named = resources.fonts();
        for (face, at) in fonts {
            named.pair(Name(face.key()), at);
        }
        named.finish();
        resources.finish();
        written.finish();
    }
    Pdf { bytes: writer.finish(), replaced }
}

#[cfg(test)]
mod tests {
    use wythe_model::fixture::unit_4;
    use wythe_render::drawing::{PlanOptions, plan};

    use super::*;

    #[test]
    fn the_page_is_as_large_as_the_sheet_and_its_texts_can_be_read() {
        let drawing = plan(&unit_4(), &PlanOptions::default());
        let made = pdf("Plan", std::slice::from_ref(&drawing), Theme::Print);
        let text = String::from_utf8_lossy(&made.bytes);
        let wide = (drawing.width * POINT) as f32;
        assert!(text.contains(&format!("/MediaBox [0 0 {wide}")), "{}", drawing.width);
        assert!(text.contains("/Count 1"));
        assert!(text.contains("(N) Tj"));
        assert_eq!(made.replaced, 0);
    }
}
