//! One sheet of board and how it is cut: numbered pieces, and the offcuts to keep.

use wythe_render::drawing::{Anchor, Cutout, Dash, Drawing, Fill, Frame, Ink, Pen, SheetPattern, Text, Weight};

use super::{Canvas, bold, mm, spot, thin};
use crate::House;
use crate::words::say;

/// How a sheet is cut, under a title.
pub(crate) fn sheet_cut(house: &House<'_>, pattern: &SheetPattern, title: &str) -> Drawing {
    let (w, telling) = (house.words, house.telling());
    let per = 120.0 / pattern.length.value.max(0.1);
    let sheet = Frame { left: 0.0, top: 0.0, right: mm(pattern.length, per), bottom: mm(pattern.width, per) };
    let on = |c: &Cutout| Frame {
        left: mm(c.x, per),
        right: mm(c.x + c.along, per),
        top: sheet.bottom - mm(c.y + c.across, per),
        bottom: sheet.bottom - mm(c.y, per),
    };
    let mut canvas = Canvas::new();
    let mut below: Vec<String> = Vec::new();
    for offcut in &pattern.offcuts {
        let frame = on(&offcut.on);
        let dash = Pen { ink: Ink::Fine, weight: Weight::Thin, dash: Dash::Hidden };
        canvas.rect(frame, Fill::None, dash);
        canvas.hatch(frame, if offcut.kept { 5.0 } else { 1.6 });
        let size = format!("{} x {}", telling.length(offcut.on.along), telling.length(offcut.on.across));
        let words = if offcut.kept { say!(w, "drawn-keep", size = size.clone()) } else { say!(w, "drawn-waste") };
        if !named(&mut canvas, frame, &[&words]) && offcut.kept {
            below.push(words);
        }
    }
    for piece in &pattern.pieces {
        let frame = on(&piece.on);
        canvas.rect(frame, Fill::Full(Ink::Paper), thin());
        let size = format!("{} x {}", telling.length(piece.on.across), telling.length(piece.on.along));
        if !named(&mut canvas, frame, &[&piece.mark, &size]) {
            // Where only the number fits, its size is said below.
            named(&mut canvas, frame, &[&piece.mark]);
            below.push(format!("{}: {size}", piece.mark));
        }
    }
    canvas.rect(sheet, Fill::None, bold());
    let mut line = sheet.bottom + 6.0;
    for words in below {
        canvas.text(spot(0.0, line), 3.6, &words, Anchor::Start);
        line += 4.8;
    }
    canvas.finish("sheet", title.to_owned(), title.to_owned())
}

/// Puts lines in the middle of a frame where they fit; says whether they do.
fn named(canvas: &mut Canvas, frame: Frame, lines: &[&str]) -> bool {
    let size = 4.0;
    let center = spot((frame.left + frame.right) / 2.0, (frame.top + frame.bottom) / 2.0);
    let first = center.y - (lines.len() as f64 - 1.0) * size * 0.6 + size * 0.36;
    let mut texts: Vec<Text> = Vec::new();
    for (i, words) in lines.iter().enumerate() {
        let mut text = canvas.words(spot(center.x, first + i as f64 * size * 1.25), size, words, Anchor::Middle);
        text.bold = i == 0;
        text.cleared = true;
        texts.push(text);
    }
    let fits = texts.iter().all(|t| {
        let f = t.frame();
        f.left > frame.left + 0.4 && f.right < frame.right - 0.4 && f.top > frame.top && f.bottom < frame.bottom
    });
    if fits {
        texts.into_iter().for_each(|t| canvas.put(t));
    }
    fits
}
