//! Where a figure comes from in the text: the places a change of it may stand.

use wythe_model::Foundation;
use wythe_model::quantity::WorkOf;
use wythe_source::Span;

use crate::{Job, TakeoffLine};

/// The places a line of the takeoff depends on, the nearest first: the element, its openings, its build-up (by its
/// name, where it is declared), the work, the product.
pub fn causes(job: &Job, line: &TakeoffLine) -> Vec<Span> {
    let Some(f) = job.houses.get(line.house) else { return Vec::new() };
    let mut out = Vec::new();
    element(f, line, &mut out);
    if let WorkOf::Assembly(id) = line.of
        && let Some(assembly) = f.assemblies.get(id.0 as usize)
    {
        out.push(assembly.origin);
        out.extend(assembly.structure_origin);
    }
    if let WorkOf::Joint(number) = line.of
        && let Some(joint) = f.joints.get(number)
    {
        out.push(joint.origin);
    }
    out.push(line.origin);
    out.extend(line.product.iter().map(|p| p.origin));
    // A corner moves with the walls beside it, and the floor with all of them.
    let count = f.walls.len();
    let beside =
        f.walls.iter().position(|w| w.name == line.element).map(|at| [(at + 1) % count, (at + count - 1) % count]);
    let moving = f.walls.iter().enumerate().filter(|(i, _)| beside.is_none_or(|b| b.contains(i)));
    out.extend(moving.flat_map(|(_, w)| [w.length_origin].into_iter().chain(w.stretches.iter().map(|s| s.origin))));
    out
}

fn element(f: &Foundation, line: &TakeoffLine, out: &mut Vec<Span>) {
    if let Some(index) = f.walls.iter().position(|w| w.name == line.element) {
        let wall = &f.walls[index];
        out.extend([wall.origin, wall.length_origin]);
        out.extend(wall.stretches.iter().map(|s| s.origin));
        out.extend(f.openings.iter().filter(|o| o.wall == Some(index)).flat_map(opening));
    } else if let Some(o) = f.openings.iter().find(|o| o.name == line.element) {
        out.extend(opening(o));
    } else if let Some(pier) = f.piers.iter().find(|p| p.name == line.element) {
        out.push(pier.origin);
    } else {
        out.push(f.ground.origin);
        out.extend(f.piers.iter().map(|p| p.origin));
    }
}

fn opening(o: &wythe_model::Opening) -> [Span; 3] {
    [o.origin, o.at_origin, o.size_origin]
}
