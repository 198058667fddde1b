//! Net quantities of every piece of work, by element, and the thermal bands of a wall.
//!
//! Net means what lies in place: no waste, no lapped double, no whole sheets. Rules, so that nothing counts twice:
//!
//! - **Corners** are cut on the miter. Each wall takes its own length on the face the layer lies on; a layer's own
//!   thickness is not taken off. Tails and trenches are as long as their middle line.
//! - **A corner's vertical joint** counts with the wall that comes first in the walk.
//! - **Openings** are taken off every area they cut, once even where two overlap, and off the edges they interrupt.
//! - **Piers** are taken off the floor. What two surfaces share (a lap, its tape) belongs to their joint alone.
//! - **A seat** of a beam pocket takes the layers of the head; where the pocket is open at the top the seat stands in
//!   for the head above it, and nothing is added.
//!
//! Start at [`quantities`]; each [`QuantityLine`] says how its figure was reached.

mod band;
mod edge;
mod fastener;
mod ground;
mod joint;
mod line;
mod measure;
mod opening;
mod surface;
mod work;

#[cfg(test)]
mod tests;

pub use band::{Band, Films, WallAverage, bare_band, wall_average, wall_bands};
pub use line::{Lack, Quantities, QuantityLine, Role, Total, Unmeasured, WorkOf};
pub use measure::{How, Measure, Term};

use crate::geometry::{Basis, Plan};
use crate::{AssemblyId, Face, Foundation, Joint, SurfaceKind, Work};
use line::Book;
use surface::Surface;
use wythe_source::Symbol;

/// Every piece of work of a foundation, measured: walls, openings, piers, ground and joints, in this order.
pub fn quantities(f: &Foundation, basis: Basis) -> Quantities {
    let plan = Plan::of(f, basis);
    let mut book = Book::default();
    for (index, wall) in f.walls.iter().enumerate() {
        each_face(f, wall.assembly, |id, face| {
            if let Some(surface) = Surface::of_wall(f, &plan, index, face.name.as_str()) {
                let of = WorkOf::Assembly(id);
                book.face(wall.name, SurfaceKind::Wall, of, face, |i| work::measure(&surface, face, i));
                opening::seats(f, &mut book, index, of, face);
            }
        });
    }
    for opening in &f.openings {
        each_face(f, opening.assembly, |id, face| {
            let of = WorkOf::Assembly(id);
            book.face(opening.name, SurfaceKind::Opening, of, face, |i| opening::measure(f, opening, face, i));
        });
    }
    for pier in &f.piers {
        each_face(f, pier.assembly, |id, face| {
            let surface = Surface::of_pier(pier);
            let of = WorkOf::Assembly(id);
            book.face(pier.name, SurfaceKind::Pier, of, face, |i| work::measure(&surface, face, i));
        });
    }
    let floor = ground::Floor::of(f, &plan);
    each_face(f, f.ground.assembly, |id, face| {
        let of = WorkOf::Assembly(id);
        book.face(Symbol::new("ground"), SurfaceKind::Ground, of, face, |i| floor.measure(face, i));
    });
    for (number, joint) in f.joints.iter().enumerate() {
        joint::measure(f, &plan, &mut book, number, joint);
    }
    book.close()
}

fn each_face(f: &Foundation, assembly: Option<AssemblyId>, mut act: impl FnMut(AssemblyId, &Face)) {
    let Some(id) = assembly else { return };
    let Some(assembly) = f.assemblies.get(id.0 as usize) else { return };
    for face in &assembly.faces {
        act(id, face);
    }
}

/// The work that put a layer in place, the newest before work number `before`.
pub(crate) fn placing(face: &Face, layer: Symbol, before: usize) -> Option<&Work> {
    let earlier = face.works.get(..before).unwrap_or(&face.works);
    earlier.iter().rev().find(|w| w.act.places() && w.layer == layer)
}

impl Quantities {
    /// The work a line measures.
    pub fn work<'a>(&self, f: &'a Foundation, line: &QuantityLine) -> Option<&'a Work> {
        let face: &Face = match line.of {
            WorkOf::Assembly(id) => f.assemblies.get(id.0 as usize)?.faces.iter().find(|x| x.name == line.face)?,
            WorkOf::Joint(number) => {
                let joint: &Joint = f.joints.get(number)?;
                &joint.face
            }
        };
        face.works.get(line.work)
    }
}
