//! The names beside a section: which column each belongs to, and what it says.

use wythe_model::Levels;
use wythe_source::Span;
use wythe_units::UnitSystem;

use super::super::leader::{Column, Note, Reach, Side, lay_out};
use super::super::scene::Group;
use super::super::words;
use super::body::Mark;
use wythe_model::Foundation;

/// Ranges of height on paper.
pub(crate) type Heights = Vec<(f64, f64)>;

/// Where the columns stand.
pub(crate) struct Columns {
    /// Where the drawing ends on the left.
    pub left: f64,
    /// Where it ends on the right.
    pub right: f64,
    /// The surface of the soil on the left and on the right.
    pub soil: (f64, f64),
    /// Heights kept free on the left and on the right.
    pub reserved: (Heights, Heights),
    /// How wide a name may be.
    pub room: f64,
}

/// From the end of the drawing to the names.
pub(crate) const CORRIDOR: f64 = 8.0;
/// Room above a soil line for its level.
const LEVEL_ROOM: f64 = 6.5;
/// Room under a soil line for its marks.
const SOIL_ROOM: f64 = 5.0;

/// Something to name that is no piece of work.
pub(crate) struct Part {
    pub head: String,
    pub details: Vec<String>,
    pub reach: Reach,
    pub side: Side,
    pub id: &'static str,
    pub origin: Option<Span>,
    pub badge: Option<String>,
}

/// The names of the work and of the other parts.
pub(crate) fn names(
    f: &Foundation,
    levels: &Levels,
    system: UnitSystem,
    columns: &Columns,
    marks: &[Mark<'_>],
    parts: Vec<Part>,
) -> Vec<Group> {
    let mut notes: Vec<(Side, Note)> = marks.iter().map(|m| (m.side, note(f, levels, system, m))).collect();
    notes.extend(parts.into_iter().map(|p| {
        let order = match p.reach {
            Reach::Level { upper, lower, .. } => (upper + lower) / 2.0,
            Reach::Upright { at } => at.y,
        };
        let Part { badge, head, details, reach, side, id, origin } = p;
        (side, Note { badge, head, details, reach, order, id: id.to_owned(), origin })
    }));
    let mut out = Vec::new();
    for side in [Side::Left, Side::Right] {
        let (soil, reserved) = match side {
            Side::Left => (columns.soil.0, &columns.reserved.0),
            Side::Right => (columns.soil.1, &columns.reserved.1),
        };
        let (free, text) = match side {
            Side::Left => (columns.left, columns.left - CORRIDOR),
            Side::Right => (columns.right, columns.right + CORRIDOR),
        };
        let column = |top: f64, bottom: f64| Column {
            side,
            free,
            text,
            room: columns.room,
            top,
            bottom,
            reserved: reserved.clone(),
        };
        let here = notes.iter().filter(|(s, _)| *s == side).map(|(_, n)| n.clone());
        let (mut above, mut below) = (Vec::new(), Vec::new());
        for mut note in here {
            match &mut note.reach {
                // What stands above the soil for a stretch worth pointing at is named there.
                Reach::Level { upper, lower, .. } if *upper < soil - 2.0 => {
                    *lower = lower.min(soil - 1.5).max(*upper);
                    note.order = note.order.min(*lower);
                    above.push(note);
                }
                Reach::Level { upper, lower, .. } => {
                    *upper = upper.max(soil + SOIL_ROOM - 3.0).min(*lower);
                    note.order = note.order.max(*upper);
                    below.push(note);
                }
                Reach::Upright { .. } => below.push(note),
            }
        }
        let outer_first = |a: &f64, b: &f64| if side == Side::Right { b.total_cmp(a) } else { a.total_cmp(b) };
        let mut flat: Vec<usize> =
            (0..below.len()).filter(|i| matches!(below[*i].reach, Reach::Upright { .. })).collect();
        flat.sort_by(|a, b| outer_first(&x_of(&below[*a]), &x_of(&below[*b])));
        let count = flat.len();
        for (row, i) in flat.into_iter().enumerate() {
            below[i].order = soil + SOIL_ROOM - 1.0 + row as f64 * 2.0;
        }
        // What else lies below goes under the flat ones' leaders.
        let clear = soil + SOIL_ROOM - 1.0 + count as f64 * 2.0;
        for note in &mut below {
            if let Reach::Level { upper, lower, .. } = &mut note.reach
                && count > 0
            {
                *upper = upper.max(clear.min(*lower));
                note.order = note.order.max(clear);
            }
        }
        out.extend(lay_out(&column(f64::NEG_INFINITY, soil - LEVEL_ROOM), above));
        out.extend(lay_out(&column(soil + SOIL_ROOM - 1.5, f64::INFINITY), below));
    }
    out
}

fn x_of(note: &Note) -> f64 {
    match note.reach {
        Reach::Level { x, .. } => x,
        Reach::Upright { at } => at.x,
    }
}

fn note(f: &Foundation, levels: &Levels, system: UnitSystem, mark: &Mark<'_>) -> Note {
    let event = &mark.event;
    let details = words::details(event.work, levels, system);
    let phase = words::phase(f, event.work).map(|p| format!("phase {p}"));
    let said = [Some(details).filter(|d| !d.is_empty()), phase].into_iter().flatten().collect::<Vec<_>>().join("; ");
    Note {
        badge: Some(event.badge()),
        head: words::headline(event.work),
        details: vec![said],
        reach: mark.reach,
        order: mark.order,
        id: event.badge(),
        origin: Some(event.work.origin),
    }
}
