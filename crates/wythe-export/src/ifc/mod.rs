//! A foundation as a building model: IFC 4 (ISO 16739-1), in a STEP file (ISO 10303-21).
//!
//! Walls, piers, pads, beams and the crawl space stand as bodies; openings are cut from the walls; every layer with an
//! extent is a covering of its own with its thickness, material and quantities. Lengths are meters, heights above the
//! foundation's datum. Names are those of the plans, and every part keeps its identifier from one run to the next.

mod element;
mod guid;
mod layer;
mod shape;
mod step;

use jiff::civil::Date;
use wythe_bill::Job;
use wythe_model::quantity::Films;

use element::Model;

/// What the file says beside the building.
#[derive(Clone, Copy, Debug)]
pub struct IfcOptions {
    /// The day in the file's head; without one, a fixed day.
    pub day: Option<Date>,
    /// Surface films for the U-values of walls.
    pub films: Films,
}

/// A house of a job as an IFC file; nothing where there is no such house.
pub fn ifc(job: &Job, house: usize, options: &IfcOptions) -> Option<String> {
    let mut model = Model::new(job, house, options)?;
    model.structure();
    Some(model.finish())
}
