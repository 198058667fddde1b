//! Lengths and areas of the outline and the walls.

use std::sync::Arc;

use uom::si::f64::{Area, Length};
use wythe_model::geometry::{Basis, Plan, Turn, opening_rects};
use wythe_model::{Beam, Foundation, MeasuredFace, OpeningKind, Wall};

/// Length of the outline on the face of measurement.
pub(super) fn perimeter(f: &Arc<Foundation>) -> Length {
    Plan::of(f, Basis::Design).perimeter(f.measured)
}

/// Area inside the outline on the face of measurement.
pub(super) fn floor_area(f: &Arc<Foundation>) -> Area {
    Plan::of(f, Basis::Design).area(f.measured)
}

/// Area inside the masonry; nothing where no wall says how thick it is.
pub(super) fn inside_area(f: &Arc<Foundation>) -> Option<Area> {
    Some(Plan::of(f, Basis::Design).area(MeasuredFace::Inside))
}

/// From footing to top over every stretch, on the face of measurement, openings not deducted.
pub(super) fn gross_area(wall: &Wall) -> Area {
    let parts = wall.stretches.iter().map(|s| (s.to - s.from) * (s.levels.top - s.levels.footing));
    parts.fold(Area::default(), |sum, a| sum + a)
}

/// The same with openings deducted.
pub(super) fn net_area(f: &Arc<Foundation>, number: usize, wall: &Wall) -> Area {
    let openings = opening_rects(f, number);
    openings.iter().fold(gross_area(wall), |area, o| area - o.rect.area())
}

/// Clear height from a beam's underside to the ground.
pub(super) fn beam_clearance(f: &Arc<Foundation>, beam: &Beam) -> Option<Length> {
    let levels = f.walls.first()?.stretches.first()?.levels;
    Some(levels.sill - beam.drop - levels.ground)
}

/// Whether the house stands around a corner: the walk turns away from the inside there.
pub(super) fn turns_inward(f: &Arc<Foundation>, wall: usize) -> bool {
    Plan::of(f, Basis::Design).corners.get(wall).is_some_and(|c| c.turn == Turn::Reentrant)
}

/// Distance along the two walls of a corner to the nearest edge of the nearest vent in them.
pub(super) fn corner_to_vent(f: &Arc<Foundation>, wall: usize) -> Option<Length> {
    let count = f.walls.len();
    let before = (wall + count.max(1) - 1) % count.max(1);
    let vents = f.openings.iter().filter(|o| o.kind == OpeningKind::Vent);
    let distances = vents.filter_map(|o| {
        let from_start = o.at;
        let from_end = f.walls.get(o.wall?)?.length - o.at - o.width;
        match o.wall? {
            w if w == wall => Some(from_start),
            w if w == before => Some(from_end),
            _ => None,
        }
    });
    distances.reduce(Length::min)
}
