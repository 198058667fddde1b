//! Guillotine list packing: pieces in a fixed order, each into the free rectangle that suits it best,
//! which is then cut through (as surveyed by Lodi, Martello and Vigo 2002). Fast for any size.

use super::guillotine::Rect;
use crate::grid::Ticks;

/// A piece to place, kerf included.
#[derive(Clone, Copy, Debug)]
pub(super) struct Item {
    pub demand: usize,
    pub length: Ticks,
    pub width: Ticks,
}

/// A placed piece, kerf included.
#[derive(Clone, Copy, Debug)]
pub(super) struct Placed {
    pub demand: usize,
    pub rect: Rect,
    pub turned: bool,
}

/// Sheets filled by list packing.
#[derive(Clone, Debug, Default)]
pub(super) struct Packed {
    pub sheets: Vec<(Vec<Placed>, Vec<Rect>)>,
}

/// Order of the list.
#[derive(Clone, Copy)]
enum Order {
    Area,
    LongSide,
    Width,
}

/// Which way a free rectangle is cut through after a piece is put in its corner.
#[derive(Clone, Copy)]
enum Through {
    /// So that the larger of the two remainders is as large as it can be.
    KeepLarge,
    /// Always along the sheet: rows.
    Rows,
}

/// Pieces beyond which only one order is tried.
const MANY: usize = 2_000;

/// The best of a few orders and ways of cutting through. Every item must fit the sheet.
pub(super) fn pack(sheet: (Ticks, Ticks), items: &[Item], turn: bool) -> Packed {
    let all = [
        (Order::Area, Through::KeepLarge),
        (Order::Width, Through::Rows),
        (Order::LongSide, Through::KeepLarge),
        (Order::Area, Through::Rows),
        (Order::Width, Through::KeepLarge),
        (Order::LongSide, Through::Rows),
    ];
    let tries = if items.len() > MANY { &all[..2] } else { &all[..] };
    let mut best: Option<Packed> = None;
    for &(order, through) in tries {
        let packed = pack_once(sheet, items, turn, order, through);
        if best.as_ref().is_none_or(|b| packed.sheets.len() < b.sheets.len()) {
            best = Some(packed);
        }
    }
    best.unwrap_or_default()
}

fn pack_once(sheet: (Ticks, Ticks), items: &[Item], turn: bool, order: Order, through: Through) -> Packed {
    let mut list: Vec<Item> = items.to_vec();
    let size = |i: &Item| match order {
        Order::Area => i.length * (i.width / 1024).max(1),
        Order::LongSide => i.length.max(i.width),
        Order::Width => i.width,
    };
    list.sort_by_key(|i| (std::cmp::Reverse(size(i)), std::cmp::Reverse(i.length), i.demand));
    let mut packed = Packed::default();
    let mut open: Vec<(usize, Rect)> = Vec::new();
    for item in &list {
        let ways: &[bool] = if turn && item.length != item.width { &[false, true] } else { &[false] };
        let mut best: Option<(Ticks, usize, bool)> = None;
        for (at, (_, free)) in open.iter().enumerate() {
            for &turned in ways {
                let (along, across) = sides(item, turned);
                if along <= free.along && across <= free.across {
                    let slack = (free.along - along).min(free.across - across);
                    if best.is_none_or(|b| slack < b.0) {
                        best = Some((slack, at, turned));
                    }
                }
            }
            if matches!(best, Some((0, ..))) {
                break;
            }
        }
        let (at, turned) = match best {
            Some((_, at, turned)) => (at, turned),
            None => {
                packed.sheets.push(Default::default());
                let whole = Rect { x: 0, y: 0, along: sheet.0, across: sheet.1 };
                open.push((packed.sheets.len() - 1, whole));
                let flat = item.length <= sheet.0 && item.width <= sheet.1;
                (open.len() - 1, !flat)
            }
        };
        let (index, free) = open.swap_remove(at);
        let (along, across) = sides(item, turned);
        let rect = Rect { x: free.x, y: free.y, along, across };
        packed.sheets[index].0.push(Placed { demand: item.demand, rect, turned });
        open.extend(remainders(free, along, across, through).map(|r| (index, r)));
    }
    for (index, free) in open {
        packed.sheets[index].1.push(free);
    }
    packed
}

fn sides(item: &Item, turned: bool) -> (Ticks, Ticks) {
    if turned { (item.width, item.length) } else { (item.length, item.width) }
}

/// The two rectangles left of `free` when a corner piece is cut out edge to edge.
fn remainders(free: Rect, along: Ticks, across: Ticks, through: Through) -> impl Iterator<Item = Rect> {
    let (right, above) = (free.along - along, free.across - across);
    let rows = match through {
        Through::Rows => true,
        Through::KeepLarge => {
            (free.along * (above / 1024)).max(right * (across / 1024))
                >= (free.across * (right / 1024)).max(above * (along / 1024))
        }
    };
    let (beside, over) = if rows { (across, free.along) } else { (free.across, along) };
    [
        Rect { x: free.x + along, y: free.y, along: right, across: beside },
        Rect { x: free.x, y: free.y + across, along: over, across: above },
    ]
    .into_iter()
    .filter(|r| r.along > 0 && r.across > 0)
}

/// Cuts a single corner piece out of a rectangle and gives what is left of it.
pub(super) fn cut_corner(free: Rect, along: Ticks, across: Ticks) -> impl Iterator<Item = Rect> {
    remainders(free, along, across, Through::KeepLarge)
}
