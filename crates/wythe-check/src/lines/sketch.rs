//! A section in plain characters: outside layers, masonry, inside layers and the ground sheet, those that carry the line
//! in capitals, and the place of the break.

use std::fmt::Write as _;

use wythe_model::{Control, Length};
use wythe_source::Symbol;

use super::house::House;
use super::section::{Section, carries};
use super::wall_break::level;
use crate::levels::{Range, hair};
use crate::order::history::Life;

/// A column of the drawing: a letter and where the layer lies.
struct Column {
    letter: char,
    name: Symbol,
    range: Range,
}

/// Draws a section, with the line of a control in capitals and a remark at an elevation.
pub(crate) fn sketch(house: &House, section: &Section, control: Control, at: Length, remark: &str) -> String {
    let mut letters = ('a'..='z').filter(|c| *c != 'x');
    let mut side = |faces: &[&str]| -> Vec<Column> {
        let histories = section.faces.iter().filter(|h| faces.contains(&h.face.name.as_str()));
        let lives = histories.flat_map(|h| &h.lives).filter(|l| l.stays() && l.range.height() > hair());
        let column = |l: &Life| {
            let letter = letters.next()?;
            let carries = l.product.is_some_and(|p| carries(p, control, house.asked)) && !l.is_sacrificial();
            let letter = if carries { letter.to_ascii_uppercase() } else { letter };
            Some(Column { letter, name: l.name, range: l.range })
        };
        lives.map_while(column).collect()
    };
    let (outside, inside) = (side(&["outside"]), side(&["inside", "face"]));
    let head = section
        .faces
        .iter()
        .flat_map(|h| &h.lives)
        .find(|l| l.stays() && l.range.height() <= hair() && (l.range.high - section.levels.top).abs() < hair());
    let mut marks: Vec<Length> =
        vec![section.levels.top, section.levels.grade, section.levels.ground, section.levels.footing, at];
    marks.extend(outside.iter().chain(&inside).flat_map(|c| [c.range.low, c.range.high]));
    marks.sort_by(|a, b| b.value.total_cmp(&a.value));
    marks.dedup_by(|a, b| (*a - *b).abs() < hair());
    let labels: Vec<String> = marks.iter().map(|m| level(section, *m)).collect();
    let width = labels.iter().map(|l| l.len()).max().unwrap_or(0);
    let ground = match control {
        Control::Vapor | Control::Air => house.ground_layer(control),
        _ => None,
    };
    let mut out = String::new();
    if let Some(head) = head {
        let _ = writeln!(out, "{:width$}  {:o$}====  head: {}", "", "", head.name, o = outside.len());
    }
    for (i, (mark, label)) in marks.iter().zip(&labels).enumerate() {
        let below =
            marks.get(i + 1).map_or(Range { low: *mark, high: *mark }, |next| Range { low: *next, high: *mark });
        let draw = |columns: &[Column]| -> String {
            columns.iter().map(|c| if c.range.meets(below) { c.letter } else { ' ' }).collect()
        };
        let solid = below.height() > hair() && below.low + hair() >= section.levels.footing.min(section.levels.ground);
        let wall = if solid { "####" } else { "----" };
        let row =
            format!("{label:>width$}  {}{wall}{}", draw(&outside).chars().rev().collect::<String>(), draw(&inside));
        let _ = write!(out, "{}", row.trim_end());
        if let Some((sheet, _)) = ground.filter(|_| (*mark - section.levels.ground).abs() < hair()) {
            let _ = write!(out, "_____ {sheet}");
        }
        if (*mark - at).abs() < hair() {
            let _ = write!(out, "  <-- {remark}");
        }
        out.push('\n');
    }
    let legend: Vec<String> = outside.iter().chain(&inside).map(|c| format!("{} {}", c.letter, c.name)).collect();
    if !legend.is_empty() {
        let _ = writeln!(out, "{}", legend.join(", "));
    }
    if outside.iter().chain(&inside).any(|c| c.letter.is_ascii_uppercase()) {
        let _ = writeln!(out, "capitals: carries the {} line", control.name().replace('_', " "));
    }
    out
}
