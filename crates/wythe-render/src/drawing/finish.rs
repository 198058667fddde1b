//! The sheet round a drawing: title above, scale bar and remarks below, margins, and everything moved onto it.

use wythe_units::UnitSystem;

use super::scale;
use super::scene::{Drawing, Group, Ink, Item, Role, Text, bounds, shift, spot};
use super::text::{LEADING, wrap};

/// Margin of the sheet.
const MARGIN: f64 = 5.0;
/// Size of the title.
const TITLE: f64 = 4.4;
/// Size of what is under it, and of remarks.
pub(super) const REMARK: f64 = 2.5;
/// The least width of a sheet.
const LEAST: f64 = 90.0;

/// What stands round a drawing.
pub(super) struct Surround {
    pub id: String,
    pub title: String,
    pub subtitle: String,
    pub description: String,
    pub remarks: Vec<String>,
    pub scale: Option<u32>,
    pub system: UnitSystem,
}

/// Puts groups on a sheet of their own.
pub(super) fn finish(surround: Surround, mut groups: Vec<Group>) -> Drawing {
    let room = bounds(&groups).unwrap_or(super::scene::Frame { left: 0.0, top: 0.0, right: LEAST, bottom: 10.0 });
    let width = (room.right - room.left).max(LEAST);

    let mut head = Group::new(Role::Sheet, "title");
    let mut y = MARGIN + TITLE * 0.9;
    head.text(Text::new(spot(MARGIN, y), TITLE, surround.title.clone()).bold().within(width));
    let mut subtitle = surround.subtitle.clone();
    if let Some(s) = surround.scale {
        let words = format!("Scale {}", scale::words_for(s, surround.system));
        subtitle = if subtitle.is_empty() { words } else { format!("{subtitle}. {words}") };
    }
    y += 1.2;
    for line in wrap(&subtitle, REMARK, false, width) {
        y += REMARK * LEADING;
        head.text(Text::new(spot(MARGIN, y), REMARK, line).ink(Ink::Quiet));
    }
    let top = y + 5.0;
    for group in &mut groups {
        shift(&mut group.items, MARGIN - room.left, top - room.top);
    }

    let mut y = top + (room.bottom - room.top) + 5.0;
    let mut foot = Vec::new();
    if let Some(s) = surround.scale {
        let (bar, taken) = scale::bar(MARGIN + 1.0, y, s, surround.system);
        y = taken.bottom + 3.0;
        foot.push(bar);
    }
    let mut remarks = Group::new(Role::Sheet, "remarks");
    for remark in &surround.remarks {
        for line in wrap(remark, REMARK, false, width) {
            remarks.text(Text::new(spot(MARGIN, y + REMARK * 0.8), REMARK, line).ink(Ink::Quiet));
            y += REMARK * LEADING;
        }
        y += 0.8;
    }
    foot.push(remarks);
    let all: Vec<Group> = std::iter::once(head).chain(groups).chain(foot).filter(|g| !g.items.is_empty()).collect();
    let right = bounds(&all).map_or(width, |b| b.right) + MARGIN;
    Drawing {
        id: surround.id,
        title: surround.title,
        description: surround.description,
        width: right.max(width + 2.0 * MARGIN),
        height: y + MARGIN,
        scale: surround.scale,
        groups: all,
    }
}

/// Moves a drawn part and wraps it in a group.
pub(super) fn moved(mut group: Group, dx: f64, dy: f64) -> Item {
    shift(&mut group.items, dx, dy);
    Item::Group(group)
}
