//! Sheet patterns: how each sheet of board is cut, with the pieces numbered as in the cut list.

use wythe_model::Length;
use wythe_units::UnitSystem;

use super::finish::{Surround, finish};
use super::hatch::{Hatch, fill};
use super::scale::{fitting, on_paper};
use super::scene::{Anchor, Drawing, Fill, Form, Frame, Group, Ink, Role, Text, Weight, pen, spot};
use super::text::{clean, width};
use super::words;

/// A sheet and what is cut from it.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetPattern {
    /// What it is called, such as `Sheet 3, foil board`.
    pub name: String,
    /// How many sheets are cut like this.
    pub count: usize,
    /// Length of the sheet.
    pub length: Length,
    /// Width of the sheet.
    pub width: Length,
    /// The pieces.
    pub pieces: Vec<PatternPiece>,
    /// What is left over.
    pub offcuts: Vec<PatternOffcut>,
}

/// A piece on a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct PatternPiece {
    /// Its number in the cut list.
    pub mark: String,
    /// Where it goes, such as `south, 8' from the start`.
    pub place: String,
    /// Its rectangle.
    pub on: Cutout,
}

/// What is left over of a sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PatternOffcut {
    /// Whether it is kept for later.
    pub kept: bool,
    /// Its rectangle.
    pub on: Cutout,
}

/// A rectangle on a sheet, from its lower left corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cutout {
    /// From the left end.
    pub x: Length,
    /// From the lower edge.
    pub y: Length,
    /// Size along the sheet.
    pub along: Length,
    /// Size across the sheet.
    pub across: Length,
}

/// How sheet patterns are drawn.
#[derive(Clone, Copy, Debug, Default)]
pub struct PatternOptions {
    /// The system of units.
    pub system: UnitSystem,
}

/// Room for one sheet across; two stand in a row.
const ROOM: f64 = 88.0;
const GUTTER: f64 = 8.0;

/// The patterns of all sheets, two in a row.
pub fn sheet_patterns(patterns: &[SheetPattern], options: &PatternOptions) -> Drawing {
    let system = options.system;
    let pairs: Vec<(Length, f64)> = patterns.iter().map(|p| (p.length, ROOM)).collect();
    let scale = fitting(system, 20, 960, &pairs);
    let mut groups = Vec::new();
    let mut y = 0.0;
    for row in patterns.chunks(2) {
        let mut deepest = y;
        for (i, pattern) in row.iter().enumerate() {
            let (group, bottom) = one(pattern, i as f64 * (ROOM + GUTTER), y, scale, system);
            groups.push(group);
            deepest = bottom.max(deepest);
        }
        y = deepest + 7.0;
    }
    let sheets: usize = patterns.iter().map(|p| p.count).sum();
    let pieces: usize = patterns.iter().map(|p| p.count * p.pieces.len()).sum();
    let mut remarks =
        vec!["Lightly hatched: offcut to keep. Cross-hatched: waste. Numbers are those of the cut list.".to_owned()];
    if patterns.is_empty() {
        remarks = vec!["Nothing is cut from sheets.".to_owned()];
    }
    let surround = Surround {
        id: "sheets".to_owned(),
        title: "Sheet patterns".to_owned(),
        subtitle: format!("{}, {}", some(sheets, "sheet"), some(pieces, "piece")),
        description: format!(
            "How {} {} cut into {pieces} numbered {}.",
            some(sheets, "sheet"),
            if sheets == 1 { "is" } else { "are" },
            if pieces == 1 { "piece" } else { "pieces" }
        ),
        remarks,
        scale: (!patterns.is_empty()).then_some(scale),
        system,
    };
    finish(surround, groups)
}

/// So many, in words.
fn some(count: usize, what: &str) -> String {
    if count == 1 { format!("1 {what}") } else { format!("{count} {what}s") }
}

fn one(pattern: &SheetPattern, x: f64, y: f64, scale: u32, system: UnitSystem) -> (Group, f64) {
    let mm = |l: Length| on_paper(l, scale);
    let name = clean(&pattern.name);
    let mut group = Group::new(Role::Panel, format!("sheet-{name}")).titled(name.clone());
    let times = if pattern.count > 1 { format!(" (cut {} like this)", pattern.count) } else { String::new() };
    group.text(Text::new(spot(x, y + 3.0), 2.9, format!("{name}{times}")).bold().within(ROOM));
    let size = format!("{} x {}", words::length(pattern.width, system), words::length(pattern.length, system));
    group.text(Text::new(spot(x, y + 6.4), 2.5, size).ink(Ink::Quiet));
    let top = y + 8.0;
    let sheet = Frame { left: x, top, right: x + mm(pattern.length), bottom: top + mm(pattern.width) };
    let on = |c: &Cutout| Frame {
        left: sheet.left + mm(c.x),
        top: sheet.bottom - mm(c.y) - mm(c.across),
        right: sheet.left + mm(c.x) + mm(c.along),
        bottom: sheet.bottom - mm(c.y),
    };
    for offcut in &pattern.offcuts {
        let corners = on(&offcut.on).corners();
        fill(&mut group, if offcut.kept { Hatch::Offcut } else { Hatch::Waste }, &corners);
        group.shape(Form::Area(corners), Fill::None, Some(pen(Ink::Fine, Weight::Hair)));
    }
    let mut squeezed = Vec::new();
    for piece in &pattern.pieces {
        let frame = on(&piece.on);
        let mark = clean(&piece.mark);
        let size = format!("{} x {}", words::length(piece.on.across, system), words::length(piece.on.along, system));
        let mut part = Group::new(Role::Piece, format!("piece-{mark}"))
            .titled(format!("Piece {mark}, {size}, {}", clean(&piece.place)));
        part.shape(Form::Area(frame.corners()), Fill::Wash(Ink::Board), Some(pen(Ink::Line, Weight::Medium)));
        let (wide, tall) = (frame.right - frame.left - 1.0, frame.bottom - frame.top - 0.6);
        let middle = spot((frame.left + frame.right) / 2.0, (frame.top + frame.bottom) / 2.0);
        let fits = |text: &str, size: f64, bold: bool| width(text, size, bold) <= wide;
        if tall >= 7.0 && fits(&mark, 3.2, true) && fits(&size, 2.4, false) {
            part.text(Text::new(spot(middle.x, middle.y - 0.2), 3.2, mark).bold().anchor(Anchor::Middle));
            part.text(Text::new(spot(middle.x, middle.y + 3.0), 2.4, size).anchor(Anchor::Middle));
        } else if tall >= 3.0 && fits(&format!("{mark}: {size}"), 2.4, true) {
            let text = Text::new(spot(middle.x, middle.y + 0.9), 2.4, format!("{mark}: {size}")).bold();
            part.text(text.anchor(Anchor::Middle));
        } else if wide >= 3.0 && width(&format!("{mark}: {size}"), 2.4, true) <= tall {
            let text = Text::new(spot(middle.x + 0.9, middle.y), 2.4, format!("{mark}: {size}")).bold().turned();
            part.text(text.anchor(Anchor::Middle));
        } else if tall >= 2.3 && fits(&mark, 2.2, true) {
            part.text(Text::new(spot(middle.x, middle.y + 0.8), 2.2, mark.clone()).bold().anchor(Anchor::Middle));
            squeezed.push(format!("{mark}: {size}"));
        } else {
            squeezed.push(format!("{mark}: {size}"));
        }
        group.items.push(super::scene::Item::Group(part));
    }
    group.shape(Form::Area(sheet.corners()), Fill::None, Some(pen(Ink::Line, Weight::Bold)));
    let mut bottom = sheet.bottom + 1.5;
    if !squeezed.is_empty() {
        for line in super::text::wrap(&squeezed.join("; "), 2.4, false, ROOM) {
            group.text(Text::new(spot(x, bottom + 2.2), 2.4, line));
            bottom += 2.4 * super::text::LEADING;
        }
    }
    (group, bottom)
}
