//! `extent_empty`, `extent_inverted`, `extent_off_wall`: extents that do not fit the parts built so.

use wythe_findings::{Code, Finding, codes};
use wythe_model::{Extent, Level, Levels, SurfaceKind};
use wythe_source::Symbol;

use super::context::Context;
use crate::levels::{hair, range_of, rank, say};
use crate::{Inches, place};

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    if !matches!(context.assembly.kind, SurfaceKind::Wall | SurfaceKind::Pier) {
        return;
    }
    for work in context.works() {
        let Some(extent) = &work.extent else { continue };
        for (code, fault) in [
            (codes::EXTENT_EMPTY, empty as Fault),
            (codes::EXTENT_INVERTED, inverted),
            (codes::EXTENT_OFF_WALL, off_wall),
        ] {
            let (mut places, mut label): (Vec<Symbol>, Option<String>) = (Vec::new(), None);
            for (name, levels) in parts(context) {
                if let Some(text) = fault(extent, &levels, context.assembly.kind) {
                    label.get_or_insert(text);
                    if places.last() != Some(&name) {
                        places.push(name);
                    }
                }
            }
            let Some(label) = label else { continue };
            let finding = Finding::new(code, work.origin, title(code, work.layer, extent))
                .label(format!("on {}: {label}", place::list(&places)))
                .mend(mend(code));
            out.push(context.placed(finding));
        }
    }
}

type Fault = fn(&Extent, &Levels, SurfaceKind) -> Option<String>;

fn title(code: Code, layer: Symbol, extent: &Extent) -> String {
    let (from, to) = (say(extent.from), say(extent.to));
    if code == codes::EXTENT_EMPTY {
        format!("`{layer}` from {from} to {to} covers nothing")
    } else if code == codes::EXTENT_INVERTED {
        format!("`{layer}` from {from} to {to} is upside down")
    } else {
        format!("`{layer}` from {from} to {to} runs past the wall")
    }
}

fn mend(code: Code) -> &'static str {
    if code == codes::EXTENT_EMPTY {
        "move one of the two ends"
    } else if code == codes::EXTENT_INVERTED {
        "another build-up for so low a part, or a smaller offset"
    } else {
        "end the layer at the top of the masonry or at the footing"
    }
}

/// Every part built with the assembly, with its levels.
fn parts<'a>(context: &'a Context) -> impl Iterator<Item = (Symbol, Levels)> + 'a {
    let (f, id) = (context.foundation, context.id);
    let walls = f.walls.iter().filter(move |w| w.assembly == Some(id));
    let stretches = walls.flat_map(|w| w.stretches.iter().map(|s| (w.name, s.levels)));
    let piers = f.piers.iter().filter(move |p| p.assembly == Some(id)).map(|p| (p.name, p.levels()));
    stretches.chain(piers)
}

fn empty(extent: &Extent, levels: &Levels, _: SurfaceKind) -> Option<String> {
    let range = range_of(extent, levels);
    (range.height() < hair()).then(|| format!("both ends lie at {} above the datum", Inches(range.low)))
}

/// The level named higher by nature lies lower here: the offsets have crossed over.
fn inverted(extent: &Extent, levels: &Levels, _: SurfaceKind) -> Option<String> {
    let (from, to) = (rank(extent.from.from)?, rank(extent.to.from)?);
    let (high, low) = if from >= to { (extent.from, extent.to) } else { (extent.to, extent.from) };
    let by = levels.height_of(low) - levels.height_of(high);
    (from != to && by > hair()).then(|| format!("{} lies {} below {}", say(high), Inches(by), say(low)))
}

fn off_wall(extent: &Extent, levels: &Levels, kind: SurfaceKind) -> Option<String> {
    let range = range_of(extent, levels);
    let ceiling =
        levels.height_of(wythe_model::Elevation { from: Level::Sill, offset: Default::default() }).max(levels.top);
    if range.high > ceiling + hair() {
        return Some(format!("{} above the masonry", Inches(range.high - ceiling)));
    }
    let over = levels.footing - range.low;
    (kind == SurfaceKind::Wall && over > hair()).then(|| format!("{} below the footing", Inches(over)))
}
