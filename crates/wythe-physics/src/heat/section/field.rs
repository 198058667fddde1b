//! Questions to a solved section: the temperature at a point, the coldest surface in a window, the
//! heat through a band.

use uom::si::f64::{Length, LinearPowerDensity, ThermodynamicTemperature};
use uom::si::linear_power_density::watt_per_meter;

use super::shape::{Cell, Side};
use super::solve::{SectionSolution, couple};
use crate::admit;
use crate::error::{PhysicsError, Result};
use crate::quantity::kelvin;

impl SectionSolution {
    /// Temperature at a point in or on the solids: the mean of the cells that meet at the nearest
    /// mesh corner, weighted by conductivity, with each air weighted by its film.
    ///
    /// # Errors
    /// A point with no solid near it.
    pub fn temperature_at(&self, x: Length, y: Length) -> Result<ThermodynamicTemperature> {
        let nearest = |lines: &[f64], at: f64| {
            lines
                .iter()
                .enumerate()
                .min_by(|a, b| (a.1 - at).abs().total_cmp(&(b.1 - at).abs()))
                .map_or(0, |(index, _)| index)
        };
        let x = admit::finite("x of the point", x.value)?;
        let y = admit::finite("y of the point", y.value)?;
        let (ci, cj) = (nearest(&self.lines.x, x), nearest(&self.lines.y, y));
        let (nx, ny) = (self.lines.x.len() - 1, self.lines.y.len() - 1);
        let mut weight = 0.0;
        let mut sum = 0.0;
        let mut held = None;
        let mut solid = false;
        let mut air = |environment: usize, upright: bool, depth: f64| {
            let (t, upright_film, level_film) = self.films[environment];
            let film = if upright { upright_film } else { level_film };
            if film > 0.0 {
                weight += depth / film;
                sum += t * depth / film;
            } else {
                held = Some(t);
            }
        };
        // The film acts on the faces that touch the corner.
        for (di, dj) in [(0, 0), (1, 0), (0, 1), (1, 1)] {
            let (i, j) = (ci + di, cj + dj);
            let inside = i >= 1 && i <= nx && j >= 1 && j <= ny;
            if !inside {
                continue;
            }
            let (i, j) = (i - 1, j - 1);
            if !matches!(self.grid[j * nx + i], Cell::Solid(_)) {
                continue;
            }
            let dx = self.lines.x[i + 1] - self.lines.x[i];
            let dy = self.lines.y[j + 1] - self.lines.y[j];
            // The neighbors across the corner, sideways and up or down.
            let beside =
                if di == 0 { (i + 1 < nx).then(|| j * nx + i + 1) } else { i.checked_sub(1).map(|i| j * nx + i) };
            let over =
                if dj == 0 { (j + 1 < ny).then(|| (j + 1) * nx + i) } else { j.checked_sub(1).map(|j| j * nx + i) };
            match beside.map(|c| self.grid[c]) {
                Some(Cell::Air(e)) => air(e, true, 0.5 * dy),
                None => {
                    if let Side::Faces(e) = self.outer[if di == 0 { 1 } else { 0 }] {
                        air(e, true, 0.5 * dy);
                    }
                }
                _ => {}
            }
            match over.map(|c| self.grid[c]) {
                Some(Cell::Air(e)) => air(e, false, 0.5 * dx),
                None => {
                    if let Side::Faces(e) = self.outer[if dj == 0 { 3 } else { 2 }] {
                        air(e, false, 0.5 * dx);
                    }
                }
                _ => {}
            }
        }
        for (di, dj) in [(0, 0), (1, 0), (0, 1), (1, 1)] {
            let (i, j) = (ci + di, cj + dj);
            if i < 1 || i > nx || j < 1 || j > ny {
                continue;
            }
            let (i, j) = (i - 1, j - 1);
            if let Cell::Solid(lambda) = self.grid[j * nx + i] {
                solid = true;
                let dx = self.lines.x[i + 1] - self.lines.x[i];
                let dy = self.lines.y[j + 1] - self.lines.y[j];
                // Conductance from the cell's center to the corner through a quarter cell.
                let w = lambda * 0.5 * (dx / dy + dy / dx);
                weight += w;
                sum += w * self.temperatures[j * nx + i];
            }
        }
        if !solid {
            return Err(PhysicsError::Contradiction {
                what: "point of the section".into(),
                why: "lies in no solid".into(),
            });
        }
        Ok(kelvin(held.unwrap_or(sum / weight)))
    }

    /// Heat from an environment into the upright faces whose middle lies between two heights, per
    /// metre of section length: the share of one band of a wall.
    ///
    /// # Errors
    /// An environment that does not exist.
    pub fn heat_between(&self, environment: usize, low: Length, high: Length) -> Result<LinearPowerDensity> {
        let Some(&(air, _, _)) = self.films.get(environment) else {
            return Err(PhysicsError::Contradiction {
                what: format!("environment {environment}").into(),
                why: "is not defined for this section".into(),
            });
        };
        let (faces, _) = couple(&self.lines, &self.grid, &self.films, self.outer);
        let heat = faces
            .iter()
            .filter(|face| {
                let middle = 0.5 * (face.low + face.high);
                face.upright && face.environment == environment && middle >= low.value && middle < high.value
            })
            .map(|face| face.conductance * (air - self.temperatures[face.cell]))
            .sum();
        Ok(LinearPowerDensity::new::<watt_per_meter>(heat))
    }

    /// Coldest surface facing an environment within a window of the section: the band, the sill or
    /// the foot of the wall.
    ///
    /// # Errors
    /// A window that holds no surface of that environment.
    pub fn coldest_within(
        &self,
        environment: usize,
        left: Length,
        right: Length,
        bottom: Length,
        top: Length,
    ) -> Result<ThermodynamicTemperature> {
        let (faces, _) = couple(&self.lines, &self.grid, &self.films, self.outer);
        faces
            .iter()
            .filter(|face| {
                let middle = 0.5 * (face.low + face.high);
                let (x, y) = if face.upright { (face.at, middle) } else { (middle, face.at) };
                face.environment == environment
                    && (left.value..=right.value).contains(&x)
                    && (bottom.value..=top.value).contains(&y)
            })
            .map(|face| {
                let air = self.films[face.environment].0;
                let heat = face.conductance * (air - self.temperatures[face.cell]);
                if face.film_conductance.is_finite() { air - heat / face.film_conductance } else { air }
            })
            .min_by(f64::total_cmp)
            .map(kelvin)
            .ok_or(PhysicsError::Contradiction {
                what: "window of the section".into(),
                why: "holds no surface of that environment".into(),
            })
    }
}
