//! Files for other programs: a workbook for the estimator (XLSX), a building model for the architect (IFC 4), and
//! drawings true to scale (PDF).
//!
//! May import the building, its bill and what `wythe-render` draws and tabulates; it reads no file, knows no clock and
//! writes to memory only, so that the same plans give the same bytes. Start at [`workbook`], [`ifc`] and [`pdf`].

mod ifc;
mod pdf;
mod workbook;

pub use ifc::{IfcOptions, ifc};
pub use pdf::{Pdf, pdf};
pub use workbook::{WorkbookError, workbook};
