//! Names beside a drawing, each with a leader to what it names; leaders never cross one another or a name.
//!
//! Every leader runs level from its target to the edge of the drawing, at a height no other has, then slants through
//! a free corridor to its name. Since targets and names are in one order, top to bottom, the slants cannot cross. A
//! target that lies flat is left upright first, the outermost at the level nearest to it.

use wythe_source::Span;

use super::scene::{Anchor, Fill, Form, Frame, Group, Ink, Role, Spot, Text, Weight, pen, spot};
use super::text::{LEADING, width, wrap};

/// Size of a name.
pub(super) const HEAD: f64 = 2.9;
/// Size of what is said under it.
pub(super) const DETAIL: f64 = 2.5;
/// Size of an install number.
const BADGE: f64 = 2.3;
/// Least distance between two leaders.
const APART: f64 = 1.4;
/// Least distance between two names.
const GAP: f64 = 1.7;

/// Which side of the drawing the names are on.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Side {
    Left,
    Right,
}

/// How a leader leaves its target.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) enum Reach {
    /// Level, from a place of this x, anywhere in this range of heights.
    Level { x: f64, upper: f64, lower: f64 },
    /// Upright from the spot to the height of the leader.
    Upright { at: Spot },
}

/// A name with its leader.
#[derive(Clone, Debug)]
pub(super) struct Note {
    /// The install number.
    pub badge: Option<String>,
    /// The name.
    pub head: String,
    /// What is said under it.
    pub details: Vec<String>,
    /// Its target.
    pub reach: Reach,
    /// Names are in this order from the top; the usual key is the height of the target.
    pub order: f64,
    /// Names the group.
    pub id: String,
    /// Where it comes from.
    pub origin: Option<Span>,
}

/// A column of names.
#[derive(Clone, Debug)]
pub(super) struct Column {
    /// Which side it is on.
    pub side: Side,
    /// Where the drawing ends and the corridor begins.
    pub free: f64,
    /// Where the names begin.
    pub text: f64,
    /// How wide a name may be.
    pub room: f64,
    /// Nothing above this.
    pub top: f64,
    /// Nothing below this.
    pub bottom: f64,
    /// Heights no leader may run at.
    pub reserved: Vec<(f64, f64)>,
}

struct Block {
    note: Note,
    head: Vec<String>,
    details: Vec<String>,
    height: f64,
}

/// Lays out the names of a column; the groups and the room they take.
pub(super) fn lay_out(column: &Column, mut notes: Vec<Note>) -> Vec<Group> {
    notes.sort_by(|a, b| a.order.total_cmp(&b.order));
    let blocks: Vec<Block> = notes.into_iter().map(|n| block(n, column.room)).collect();
    let wanted: Vec<f64> = blocks.iter().map(|b| middle(&b.note) - PORT).collect();
    let heights: Vec<f64> = blocks.iter().map(|b| b.height + GAP).collect();
    let tops = spread(&wanted, &heights, column.top, column.bottom);
    let levels = levels(column, &blocks, &tops);
    blocks.iter().zip(tops).zip(levels).map(|((b, top), level)| draw(column, b, top, level)).collect()
}

/// From the top of a block to where its leader meets it.
const PORT: f64 = HEAD * 0.62;

/// Where a name would best stand: at the height of its order where the target reaches it.
fn middle(note: &Note) -> f64 {
    match note.reach {
        Reach::Level { upper, lower, .. } => note.order.clamp(upper, lower.max(upper)),
        Reach::Upright { .. } => note.order,
    }
}

fn block(note: Note, room: f64) -> Block {
    let room = room - badge_width(&note);
    let mut head = wrap(&note.head, HEAD, true, room);
    head.truncate(3);
    let mut details: Vec<String> = note.details.iter().flat_map(|d| wrap(d, DETAIL, false, room)).collect();
    details.truncate(5);
    let height = head.len() as f64 * HEAD * LEADING + details.len() as f64 * DETAIL * LEADING;
    Block { note, head, details, height }
}

fn badge_width(note: &Note) -> f64 {
    note.badge.as_ref().map_or(0.0, |b| width(b, BADGE, true) + 3.0)
}

/// Places in one line, each as near to where it is wanted as the others let it: least squares with an order
/// (pool adjacent violators; Barlow and others 1972), then pushed inside the limits, the lower one first.
pub(super) fn spread(wanted: &[f64], sizes: &[f64], low: f64, high: f64) -> Vec<f64> {
    let mut before = 0.0;
    let mut pools: Vec<(f64, usize)> = Vec::new();
    let mut sums = Vec::with_capacity(wanted.len());
    for (w, size) in wanted.iter().zip(sizes) {
        sums.push(before);
        let mut pool = (w - before, 1);
        while let Some(&(value, count)) = pools.last() {
            if value < pool.0 {
                break;
            }
            pools.pop();
            let all = count + pool.1;
            pool = ((value * count as f64 + pool.0 * pool.1 as f64) / all as f64, all);
        }
        pools.push(pool);
        before += size;
    }
    let last = high - before;
    let flat = pools.into_iter().flat_map(|(value, count)| std::iter::repeat_n(value, count));
    flat.zip(sums).map(|(v, s)| v.max(low).min(last.max(low)) + s).collect()
}

/// The height each leader runs at: near its name, on its target, apart from the one above, clear of what is reserved.
fn levels(column: &Column, blocks: &[Block], tops: &[f64]) -> Vec<f64> {
    let mut floor = f64::NEG_INFINITY;
    // What the targets below still need above them.
    let mut ceilings = vec![f64::INFINITY; blocks.len()];
    let mut ceiling = f64::INFINITY;
    for (i, b) in blocks.iter().enumerate().rev() {
        if let Reach::Level { upper, lower, .. } = b.note.reach {
            ceiling = (ceiling - APART).min(lower);
            if ceiling < upper {
                ceiling = ceiling.max(upper);
            }
        } else {
            ceiling -= APART;
        }
        ceilings[i] = ceiling;
    }
    let mut out = Vec::with_capacity(blocks.len());
    for ((b, top), ceiling) in blocks.iter().zip(tops).zip(ceilings) {
        let port = top + PORT;
        let mut at = match b.note.reach {
            Reach::Level { upper, lower, .. } => port.max(upper).min(lower).min(ceiling),
            Reach::Upright { .. } => b.note.order,
        };
        at = at.max(floor);
        // Past what is reserved: up where there is room for it, else down.
        for _ in 0..column.reserved.len() {
            let Some(&(from, to)) = column.reserved.iter().find(|(from, to)| at > *from && at < *to) else { break };
            let up = matches!(b.note.reach, Reach::Level { upper, .. } if from >= upper) && from >= floor;
            at = if up { from } else { to };
        }
        floor = at + APART;
        out.push(at);
    }
    out
}

fn draw(column: &Column, block: &Block, top: f64, level: f64) -> Group {
    let note = &block.note;
    let mut group = Group::new(Role::Leader, format!("name-{}", note.id));
    group.origin = note.origin;
    let sign = if column.side == Side::Right { 1.0 } else { -1.0 };
    let port = spot(column.text - sign * 1.0, top + PORT);
    let target = match note.reach {
        Reach::Level { x, .. } => spot(x, level),
        Reach::Upright { at } => at,
    };
    let mut leader = vec![target];
    if matches!(note.reach, Reach::Upright { .. }) {
        leader.push(spot(target.x, level));
    }
    leader.extend([spot(column.free, level), spot(port.x - sign * 1.2, port.y), port]);
    group.line(leader, pen(Ink::Fine, Weight::Thin));
    group.shape(Form::Circle(target, 0.55), Fill::Full(Ink::Line), None);

    let anchor = if column.side == Side::Right { Anchor::Start } else { Anchor::End };
    let mut x = column.text;
    let mut base = top + HEAD * 0.95;
    if let Some(badge) = &note.badge {
        let wide = width(badge, BADGE, true) + 1.8;
        let frame = Frame::between(spot(x, top + PORT - 1.75), spot(x + sign * wide, top + PORT + 1.75));
        group.shape(Form::Area(frame.corners()), Fill::Full(Ink::Paper), Some(pen(Ink::Line, Weight::Thin)));
        let at = spot((frame.left + frame.right) / 2.0, top + PORT + BADGE * 0.36);
        group.text(Text::new(at, BADGE, badge.clone()).bold().anchor(Anchor::Middle));
        x += sign * (wide + 1.2);
    }
    for line in &block.head {
        group.text(Text::new(spot(x, base), HEAD, line.clone()).bold().anchor(anchor));
        base += HEAD * LEADING;
    }
    base -= (HEAD - DETAIL) * 0.5;
    for line in &block.details {
        group.text(Text::new(spot(x, base), DETAIL, line.clone()).ink(Ink::Quiet).anchor(anchor));
        base += DETAIL * LEADING;
    }
    group
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_spread_as_little_as_can_be() {
        let at = spread(&[10.0, 10.0, 40.0], &[8.0, 8.0, 8.0], 0.0, 100.0);
        assert_eq!(at, [6.0, 14.0, 40.0]);
        let low = spread(&[90.0, 95.0, 96.0], &[8.0, 8.0, 8.0], f64::NEG_INFINITY, 100.0);
        assert_eq!(low, [76.0, 84.0, 92.0]);
    }

    #[test]
    fn leaders_keep_their_order_and_stay_out_of_what_is_reserved() {
        let note = |i: u32| Note {
            badge: Some(format!("I{i}")),
            head: "Hang wall liner".to_owned(),
            details: vec!["10 mil, every 24\"".to_owned()],
            reach: Reach::Level { x: 0.0, upper: 10.0, lower: 60.0 },
            order: f64::from(i),
            id: format!("{i}"),
            origin: None,
        };
        let column = Column {
            side: Side::Right,
            free: 20.0,
            text: 30.0,
            room: 60.0,
            top: f64::NEG_INFINITY,
            bottom: 62.0,
            reserved: vec![(30.0, 34.0)],
        };
        let groups = lay_out(&column, (0..12).map(note).collect());
        let levels: Vec<f64> = groups
            .iter()
            .filter_map(|g| match g.items.first() {
                Some(super::super::scene::Item::Shape(s)) => match &s.form {
                    Form::Line(spots) => Some(spots[0].y),
                    _ => None,
                },
                _ => None,
            })
            .collect();
        assert_eq!(levels.len(), 12);
        assert!(levels.windows(2).all(|w| w[1] - w[0] >= 1.0), "{levels:?}");
        assert!(levels.iter().all(|l| !(30.0 < *l && *l < 34.0)));
    }
}
