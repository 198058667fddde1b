//! Openings.

use uom::si::f64::{Area, Length};
use wythe_findings::{Finding, codes};
use wythe_model::{Opening, OpeningKind, Wall};
use wythe_syntax::ast::{Block, Item, StatementKind};

use crate::lower::fields;
use crate::lower::foundation::Assemblies;
use crate::{Evaluator, Frame};

pub(crate) fn openings<'p>(
    ev: &mut Evaluator<'p>,
    frame: &mut Frame<'p>,
    block: &Block,
    walls: &[Wall],
    assemblies: &mut Assemblies,
) -> Vec<Opening> {
    let mut out = Vec::new();
    for item in &block.items {
        let Item::Statement(statement) = item else { continue };
        let StatementKind::Opening { name, wall, at, block } = &statement.kind else { continue };
        let f = fields::read(ev, frame, Some(block), "OpeningBlock");
        let number = walls.iter().position(|w| w.name == wall.name);
        if number.is_none() {
            let all: Vec<_> = walls.iter().map(|w| w.name.as_str()).collect();
            let near = wythe_sema::closest(wall.name.as_str(), all.iter().copied());
            let mend =
                near.map_or_else(|| format!("the walls are {}", all.join(", ")), |n| format!("did you mean `{n}`?"));
            ev.findings.push(
                Finding::new(codes::NO_SUCH_PART, wall.span, format!("there is no wall `{}`", wall.name)).mend(mend),
            );
        }
        let at_origin = frame.module[*at].span;
        let at = fields::typed::<Length>(&ev.eval(frame, *at)).unwrap_or_default();
        // Whether the size makes sense is for the check of the geometry, which knows the wall.
        let (width, height) = f.size("size").unwrap_or_default();
        // The lower edge is told from the levels at the opening.
        let sill = number.and_then(|n| {
            let wall = &walls[n];
            let stretch = wall.stretches.iter().rev().find(|s| s.from <= at).or(wall.stretches.first())?;
            Some(stretch.levels.height_of(f.elevation("sill")?))
        });
        let kind = f.member(ev, "kind");
        out.push(Opening {
            name: name.name,
            origin: name.span,
            wall: number,
            at,
            at_origin,
            kind: kind
                .and_then(|k| OpeningKind::ALL.into_iter().find(|o| o.name() == k.as_str()))
                .unwrap_or(OpeningKind::Access),
            width,
            height,
            size_origin: f.span("size").unwrap_or(name.span),
            sill,
            free_area: f.typed::<Area>("free_area"),
            assembly: assemblies.number(f.get("build")),
            plugged: f.truth("plugged"),
            existing: f.truth("existing"),
        });
    }
    out
}
