//! Assembles the heat balance of every cell and solves for the temperatures.

use rsparse::cholsol;
use rsparse::data::Trpl;
use uom::si::f64::{LinearPowerDensity, ThermodynamicTemperature};
use uom::si::linear_power_density::watt_per_meter;

use super::mesh::{Fineness, Lines, divide};
use super::shape::{Cell, Section, Side};
use crate::admit;
use crate::error::{PhysicsError, Result};
use crate::quantity::kelvin;

/// Temperatures and heat flows of a solved section.
#[derive(Debug, Clone)]
pub struct SectionSolution {
    /// Heat from each environment into the section per metre of its length; the sum is zero but
    /// for rounding.
    pub heat_from: Vec<LinearPowerDensity>,
    /// Heat that enters through upright faces alone, by environment.
    pub heat_upright: Vec<LinearPowerDensity>,
    /// Coldest surface facing each environment; none where it touches no solid.
    pub coldest_surface: Vec<Option<ThermodynamicTemperature>>,
    /// Number of cells in the mesh.
    pub cells: usize,
    pub(super) lines: Lines,
    pub(super) grid: Vec<Cell>,
    /// Kelvin; not a number outside the solids.
    pub(super) temperatures: Vec<f64>,
    pub(super) films: Vec<(f64, f64, f64)>,
    pub(super) outer: [Side; 4],
}

/// A face of a solid cell against air.
pub(super) struct Face {
    pub(super) cell: usize,
    pub(super) environment: usize,
    /// W/(m·K): from the cell's center to the air.
    pub(super) conductance: f64,
    /// W/(m·K): from the face to the air; infinite for a held surface.
    pub(super) film_conductance: f64,
    pub(super) upright: bool,
    /// Position of the face along y for upright faces, x for level faces.
    pub(super) at: f64,
    pub(super) low: f64,
    pub(super) high: f64,
}

/// Solves a section.
///
/// # Errors
/// An inadmissible section or mesh, a section with solids that touch no environment, or a failure
/// of the sparse solver.
pub fn solve(section: &Section, fineness: &Fineness) -> Result<SectionSolution> {
    section.admit()?;
    let lines = divide(section, fineness)?;
    let (nx, ny) = (lines.x.len() - 1, lines.y.len() - 1);
    let mut grid = Vec::with_capacity(nx * ny);
    for j in 0..ny {
        let y = 0.5 * (lines.y[j] + lines.y[j + 1]);
        for i in 0..nx {
            let x = 0.5 * (lines.x[i] + lines.x[i + 1]);
            grid.push(section.cell_at(x, y));
        }
    }
    let outer = [section.left, section.right, section.bottom, section.top];
    let films: Vec<(f64, f64, f64)> =
        section.environments.iter().map(|e| (e.temperature.value, e.upright_film.value, e.level_film.value)).collect();
    let (faces, links) = couple(&lines, &grid, &films, outer);
    let temperatures = temperatures(&grid, &faces, &links, &films)?;
    let mut heat_from = vec![0.0; films.len()];
    let mut heat_upright = vec![0.0; films.len()];
    let mut coldest: Vec<Option<f64>> = vec![None; films.len()];
    for face in &faces {
        let air = films[face.environment].0;
        let heat = face.conductance * (air - temperatures[face.cell]);
        heat_from[face.environment] += heat;
        if face.upright {
            heat_upright[face.environment] += heat;
        }
        let surface = if face.film_conductance.is_finite() { air - heat / face.film_conductance } else { air };
        let held = &mut coldest[face.environment];
        *held = Some(held.map_or(surface, |t| t.min(surface)));
    }
    for heat in &heat_from {
        admit::finite("heat flow of the section", *heat)?;
    }
    let per_metre = |values: Vec<f64>| values.into_iter().map(LinearPowerDensity::new::<watt_per_meter>).collect();
    Ok(SectionSolution {
        heat_from: per_metre(heat_from),
        heat_upright: per_metre(heat_upright),
        coldest_surface: coldest.into_iter().map(|t| t.map(kelvin)).collect(),
        cells: nx * ny,
        lines,
        grid,
        temperatures,
        films,
        outer,
    })
}

/// Finds every face between a solid and air, and every link between two solids (cell, cell,
/// W/(m·K)).
pub(super) fn couple(
    lines: &Lines,
    grid: &[Cell],
    films: &[(f64, f64, f64)],
    outer: [Side; 4],
) -> (Vec<Face>, Vec<(usize, usize, f64)>) {
    let (nx, ny) = (lines.x.len() - 1, lines.y.len() - 1);
    let mut faces = Vec::new();
    let mut links = Vec::new();
    for j in 0..ny {
        let dy = lines.y[j + 1] - lines.y[j];
        for i in 0..nx {
            let dx = lines.x[i + 1] - lines.x[i];
            let cell = j * nx + i;
            let Cell::Solid(lambda) = grid[cell] else {
                continue;
            };
            // Left, right, down, up: neighbor, half depth toward it, length of the face.
            let neighbors = [
                (i > 0).then(|| cell - 1),
                (i + 1 < nx).then(|| cell + 1),
                (j > 0).then(|| cell - nx),
                (j + 1 < ny).then(|| cell + nx),
            ];
            for (direction, neighbor) in neighbors.into_iter().enumerate() {
                let upright = direction < 2;
                let (half, length) = if upright { (0.5 * dx, dy) } else { (0.5 * dy, dx) };
                let facing = match neighbor {
                    None => match outer[direction] {
                        Side::Adiabatic => None,
                        Side::Faces(environment) => Some(environment),
                    },
                    Some(other) => match grid[other] {
                        Cell::Air(environment) => Some(environment),
                        Cell::Cut => None,
                        Cell::Solid(beyond) => {
                            if other > cell {
                                let far = if upright {
                                    0.5 * (lines.x[i + 2] - lines.x[i + 1])
                                } else {
                                    0.5 * (lines.y[j + 2] - lines.y[j + 1])
                                };
                                links.push((cell, other, length / (half / lambda + far / beyond)));
                            }
                            None
                        }
                    },
                };
                if let Some(environment) = facing {
                    let film = if upright { films[environment].1 } else { films[environment].2 };
                    let (at, low, high) = match direction {
                        0 => (lines.x[i], lines.y[j], lines.y[j + 1]),
                        1 => (lines.x[i + 1], lines.y[j], lines.y[j + 1]),
                        2 => (lines.y[j], lines.x[i], lines.x[i + 1]),
                        _ => (lines.y[j + 1], lines.x[i], lines.x[i + 1]),
                    };
                    faces.push(Face {
                        cell,
                        environment,
                        conductance: length / (half / lambda + film),
                        film_conductance: if film > 0.0 { length / film } else { f64::INFINITY },
                        upright,
                        at,
                        low,
                        high,
                    });
                }
            }
        }
    }
    (faces, links)
}

/// The solver's number for an ordering by minimum degree, which keeps the factor sparse.
const MINIMUM_DEGREE: i8 = 0;

/// Solves the balance of all solid cells; air and cut cells hold not-a-number.
fn temperatures(
    grid: &[Cell],
    faces: &[Face],
    links: &[(usize, usize, f64)],
    films: &[(f64, f64, f64)],
) -> Result<Vec<f64>> {
    let mut unknown = vec![usize::MAX; grid.len()];
    let mut count = 0;
    for (cell, fill) in grid.iter().enumerate() {
        if matches!(fill, Cell::Solid(_)) {
            unknown[cell] = count;
            count += 1;
        }
    }
    if count == 0 || faces.is_empty() {
        return Err(PhysicsError::Contradiction {
            what: "section".into(),
            why: "has no solid that faces an environment".into(),
        });
    }
    let mut diagonal = vec![0.0; count];
    let mut right = vec![0.0; count];
    let mut triplets = Trpl::new();
    // Temperatures relative to the first environment keep the digits for the differences.
    let base = films[faces[0].environment].0;
    for face in faces {
        let row = unknown[face.cell];
        diagonal[row] += face.conductance;
        right[row] += face.conductance * (films[face.environment].0 - base);
    }
    for &(a, b, conductance) in links {
        let (row, column) = (unknown[a], unknown[b]);
        diagonal[row] += conductance;
        diagonal[column] += conductance;
        triplets.append(row, column, -conductance);
        triplets.append(column, row, -conductance);
    }
    for (row, value) in diagonal.into_iter().enumerate() {
        triplets.append(row, row, value);
    }
    let mut solution = right;
    cholsol(&triplets.to_sprs(), &mut solution, MINIMUM_DEGREE).map_err(|error| PhysicsError::NoSolution {
        what: "two-dimensional section".into(),
        why: error.to_string().into(),
    })?;
    let mut out = vec![f64::NAN; grid.len()];
    for (cell, &row) in unknown.iter().enumerate() {
        if row != usize::MAX {
            out[cell] = admit::finite("temperature of the section", solution[row] + base)?;
        }
    }
    Ok(out)
}
