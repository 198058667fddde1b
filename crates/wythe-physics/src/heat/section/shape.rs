//! A section as rectangles of solid and of air, painted one over the other.

use uom::si::f64::{Length, ThermalConductivity, ThermodynamicTemperature};

use crate::admit;
use crate::error::{PhysicsError, Result};
use crate::quantity::ThermalInsulance;

/// Air at a boundary: inside, outside, or a held surface where the films are zero.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Environment {
    /// Air temperature.
    pub temperature: ThermodynamicTemperature,
    /// Film at upright faces.
    pub upright_film: ThermalInsulance,
    /// Film at level faces; add the resistance of a thin finish here.
    pub level_film: ThermalInsulance,
}

/// What fills a rectangle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fill {
    /// Solid of a conductivity.
    Solid(ThermalConductivity),
    /// Air of the environment with this index in [`Section::environments`].
    Air(usize),
    /// Left out of the section: its faces pass no heat.
    Cut,
}

/// An upright rectangle with its fill; x to the right, y up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rectangle {
    /// Left edge.
    pub left: Length,
    /// Right edge.
    pub right: Length,
    /// Lower edge.
    pub bottom: Length,
    /// Upper edge.
    pub top: Length,
    /// What fills it.
    pub fill: Fill,
}

/// Boundary condition of an outer side of the section.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// No heat passes: a line of symmetry, or far away.
    Adiabatic,
    /// Faces the environment with this index.
    Faces(usize),
}

/// A section: later rectangles cover earlier ones.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// The painted rectangles; the first should cover the whole.
    pub rectangles: Vec<Rectangle>,
    /// The air at boundaries.
    pub environments: Vec<Environment>,
    /// Left side.
    pub left: Side,
    /// Right side.
    pub right: Side,
    /// Lower side.
    pub bottom: Side,
    /// Upper side.
    pub top: Side,
}

/// The fill at a point after painting, in plain numbers for the solver.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Cell {
    Solid(f64),
    Air(usize),
    Cut,
}

impl Section {
    /// Refuses rectangles with no area, conductivities that are not positive, and references to
    /// environments that do not exist.
    pub(crate) fn admit(&self) -> Result<()> {
        if self.rectangles.is_empty() {
            return Err(PhysicsError::Empty { what: "section".into() });
        }
        for (index, r) in self.rectangles.iter().enumerate() {
            let name = |part: &str| format!("{part} of rectangle {}", index + 1);
            for edge in [r.left, r.right, r.bottom, r.top] {
                admit::finite(name("edge"), edge.value)?;
            }
            admit::positive(name("width"), r.right.value - r.left.value, "m")?;
            admit::positive(name("height"), r.top.value - r.bottom.value, "m")?;
            match r.fill {
                Fill::Solid(lambda) => {
                    admit::positive(name("conductivity"), lambda.value, "W/(m·K)")?;
                }
                Fill::Air(environment) => self.admit_environment(environment)?,
                Fill::Cut => {}
            }
        }
        for side in [self.left, self.right, self.bottom, self.top] {
            if let Side::Faces(environment) = side {
                self.admit_environment(environment)?;
            }
        }
        for (index, e) in self.environments.iter().enumerate() {
            let name = |part: &str| format!("{part} of environment {}", index + 1);
            admit::within(name("temperature"), e.temperature.value, 150.0, 500.0, "K")?;
            admit::not_negative(name("upright film"), e.upright_film.value, "m²·K/W")?;
            admit::not_negative(name("level film"), e.level_film.value, "m²·K/W")?;
        }
        Ok(())
    }

    fn admit_environment(&self, index: usize) -> Result<()> {
        if index < self.environments.len() {
            Ok(())
        } else {
            Err(PhysicsError::Contradiction {
                what: format!("environment {index}").into(),
                why: "is not defined for this section".into(),
            })
        }
    }

    /// What fills a point: the last rectangle over it.
    pub(crate) fn cell_at(&self, x: f64, y: f64) -> Cell {
        self.rectangles
            .iter()
            .rev()
            .find(|r| (r.left.value..r.right.value).contains(&x) && (r.bottom.value..r.top.value).contains(&y))
            .map_or(Cell::Cut, |r| match r.fill {
                Fill::Solid(lambda) => Cell::Solid(lambda.value),
                Fill::Air(environment) => Cell::Air(environment),
                Fill::Cut => Cell::Cut,
            })
    }
}
