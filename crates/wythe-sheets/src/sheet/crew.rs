//! The crew sheet: two pages, large type, one wall a row, the steps of each visit in order, and where work stops.

use wythe_render::drawing::words as plain;
use wythe_source::Symbol;

use super::page;
use crate::House;
use crate::gate::cautions;
use crate::page::{Block, Page, Size};
use crate::small::key_plan;
use crate::words::say;

pub(super) fn crew(house: &House<'_>) -> Page {
    let w = house.words;
    let mut out = page(house, say!(w, "crew-title"), 2, Size::Large);
    out.blocks.extend(key_plan(house, None).map(|d| Block::Drawing(Box::new(d))));
    out.blocks.push(Block::Heading(say!(w, "crew-walls")));
    out.blocks.push(walls(house));
    out.blocks.extend(piers(house));
    out.blocks.push(Block::Text(say!(w, "crew-stops")));
    out.blocks.extend(steps(house));
    let mut care = vec![say!(w, "care-head")];
    care.extend(cautions(house));
    out.blocks.push(Block::Care(care));
    out
}

/// One wall a row: how long and high inside, where the board lands, which pieces, how many fasteners.
fn walls(house: &House<'_>) -> Block {
    let (w, telling) = (house.words, house.telling());
    let f = house.f();
    let counts: Vec<Vec<(Symbol, u64)>> = f.walls.iter().map(|wall| house.fasteners(wall.name)).collect();
    let mut fasteners: Vec<Symbol> = Vec::new();
    for (name, _) in counts.iter().flatten() {
        if !fasteners.contains(name) {
            fasteners.push(*name);
        }
    }
    let mut heads = vec![
        say!(w, "crew-wall"),
        say!(w, "crew-length"),
        say!(w, "crew-height"),
        say!(w, "crew-board-top"),
        say!(w, "crew-pieces"),
    ];
    heads.extend(fasteners.iter().map(|name| plain::name(*name)));
    let rows = f.walls.iter().enumerate().map(|(index, wall)| {
        let heights: Vec<String> = house.heights(index).into_iter().map(|h| telling.length(h)).collect();
        let board = crate::ask::board_of(house, index).map_or_else(String::new, |(_, high, levels)| {
            let down = levels.top - high;
            if down.abs() < wythe_model::geometry::hair() { say!(w, "crew-at-top") } else { telling.span(down) }
        });
        let name = plain::name(wall.name);
        let name = if wall.existing { say!(w, "crew-existing", name = name) } else { name };
        let pieces = ranges(&house.piece_marks(wall.name));
        let mut row = vec![name, telling.length(house.inside(index)), heights.join(" / "), board, pieces];
        let mine = |name: &Symbol| {
            counts[index].iter().find(|(n, _)| n == name).map_or_else(String::new, |(_, n)| n.to_string())
        };
        row.extend(fasteners.iter().map(mine));
        row
    });
    Block::Table(heads, rows.collect())
}

fn piers(house: &House<'_>) -> Option<Block> {
    let (w, f) = (house.words, house.f());
    if f.piers.is_empty() {
        return None;
    }
    let names: Vec<_> = f.piers.iter().map(|p| p.name).collect();
    let per: Vec<u64> = names.iter().map(|n| house.fasteners(*n).iter().map(|(_, n)| n).sum()).collect();
    let (low, high) = (per.iter().min().copied().unwrap_or(0), per.iter().max().copied().unwrap_or(0));
    let pins = if low == high { low.to_string() } else { format!("{low}–{high}") };
    Some(Block::Text(say!(w, "crew-piers", count = names.len(), names = house.telling().names(&names), pins = pins)))
}

/// The steps of each visit; works of others are named only where an inspection stands at their end.
fn steps(house: &House<'_>) -> Vec<Block> {
    let w = house.words;
    let mut out = Vec::new();
    let mut number = 1;
    for (name, phase) in house.phases() {
        if house.visit.is_some_and(|only| only != name) {
            continue;
        }
        let visits = house.visits(name);
        if visits.is_empty() && phase.hold.is_none() {
            continue;
        }
        out.push(Block::Heading(say!(w, "crew-visit", name = plain::name(name))));
        if !phase.needs.is_empty() {
            let needs: Vec<String> = phase.needs.iter().map(|need| crate::ask::need(house, need.as_str())).collect();
            out.push(Block::Text(needs.join(" ")));
        }
        for visit in visits {
            let steps = visit.steps(house);
            let count = steps.len();
            out.push(Block::Steps(visit.place(house), number, steps));
            number += count;
        }
        if let Some(hold) = &phase.hold {
            out.push(Block::Warning(vec![say!(w, "crew-stop", hold = hold.to_string())]));
        }
    }
    out
}

/// Numbers as people say them: `1–3, 7`.
pub(super) fn ranges(marks: &[String]) -> String {
    let mut numbers: Vec<u64> = marks.iter().filter_map(|m| m.parse().ok()).collect();
    if numbers.len() != marks.len() {
        return marks.join(", ");
    }
    numbers.sort_unstable();
    let mut out: Vec<String> = Vec::new();
    let mut at = 0;
    while at < numbers.len() {
        let mut end = at;
        while numbers.get(end + 1).is_some_and(|n| *n == numbers[end] + 1) {
            end += 1;
        }
        out.push(if end > at { format!("{}–{}", numbers[at], numbers[end]) } else { numbers[at].to_string() });
        at = end + 1;
    }
    out.join(", ")
}
