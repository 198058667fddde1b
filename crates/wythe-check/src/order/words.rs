//! How findings speak of works and layers.

use wythe_model::{Act, EdgeName, Relation, Work};
use wythe_source::Symbol;

use crate::Inches;

/// What has been done to a layer: `fastened`, `hung`.
pub(crate) const fn done(act: Act) -> &'static str {
    match act {
        Act::Coat => "coated",
        Act::Drain | Act::Lay => "laid",
        Act::Fill => "filled",
        Act::Hang => "hung",
        Act::Set => "set",
        Act::Fasten => "fastened",
        Act::Cap => "capped",
        Act::Tape => "taped",
        Act::Seal => "sealed",
        Act::Lap => "lapped",
        Act::Remove => "taken away",
    }
}

/// The line of a work, as short as it can be told: `tape foil_tape over heads of board_anchor`.
pub(crate) fn line(work: &Work) -> String {
    let mut out = format!("{} {}", work.act.word(), work.layer);
    if work.act == Act::Fasten {
        if let Some(product) = &work.product {
            out.push_str(" with ");
            out.push_str(product.name.as_str());
        }
    } else if let Some(product) = work.product.as_deref().filter(|p| p.name != work.layer) {
        out = format!("{} {} as {}", work.act.word(), product.name, work.layer);
    }
    if let Some(place) = work.place {
        let relation = match place.relation {
            Relation::Along => "along",
            Relation::Over => "over",
            Relation::Under => "under",
            Relation::Into => "into",
        };
        out.push_str(&format!(" {relation} {}", edge(place.edge)));
        if let Some(of) = place.of {
            out.push_str(&format!(" of {of}"));
        }
    }
    if let Some(every) = work.every {
        out.push_str(&format!(" every {}", Inches(every)));
    }
    out
}

/// The words for an edge.
pub(crate) fn edge(edge: EdgeName) -> &'static str {
    match edge {
        EdgeName::TopEdge => "top edge",
        EdgeName::BottomEdge => "bottom edge",
        EdgeName::EndEdges => "end edges",
        EdgeName::Joints => "joints",
        EdgeName::Heads => "heads",
        EdgeName::Laps => "laps",
        EdgeName::Cuts => "cuts",
        EdgeName::Perimeter => "perimeter",
        EdgeName::Head => "head",
        EdgeName::Footing => "footing",
        EdgeName::Layer(name) => name.as_str(),
    }
}

/// The name most like another, if one is near enough to be a slip of the pen.
pub(crate) fn nearest(name: Symbol, known: impl Iterator<Item = Symbol>) -> Option<Symbol> {
    let wanted = name.as_str();
    let limit = (wanted.chars().count() / 3).max(1);
    known.map(|k| (distance(wanted, k.as_str(), limit), k)).filter(|(d, _)| *d <= limit).min().map(|(_, k)| k)
}

/// How many letters must change, up to one more than a limit.
fn distance(a: &str, b: &str, limit: usize) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    if a.chars().count().abs_diff(b.len()) > limit {
        return limit + 1;
    }
    for (i, from) in a.chars().enumerate() {
        let mut diagonal = row[0];
        row[0] = i + 1;
        for (j, to) in b.iter().enumerate() {
            let change = diagonal + usize::from(from != *to);
            diagonal = row[j + 1];
            row[j + 1] = change.min(row[j] + 1).min(diagonal + 1);
        }
    }
    row[b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_of_the_pen_is_near_and_another_word_is_not() {
        let known = ["wall_liner", "board", "ground_liner"].map(Symbol::new);
        assert_eq!(nearest(Symbol::new("wall_linner"), known.into_iter()), Some(Symbol::new("wall_liner")));
        assert_eq!(nearest(Symbol::new("bord"), known.into_iter()), Some(Symbol::new("board")));
        assert_eq!(nearest(Symbol::new("urethane"), known.into_iter()), None);
    }
}
