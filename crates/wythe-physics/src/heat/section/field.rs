//! Questions to a solved section: the temperature at a point, the coldest surface in a window, the
//! heat through a band.

use uom::si::f64::{Length, LinearPowerDensity, ThermodynamicTemperature};
use uom::si::linear_power_density::watt_per_meter;

use super::shape::Cell;
use super::solve::{Face, SectionSolution, couple};
use crate::admit;
use crate::error::{PhysicsError, Result};
use crate::quantity::kelvin;

impl SectionSolution {
    /// Temperature at a point in or on the solids, taken at the nearest mesh corner. On a surface it
    /// is that of the surface faces that meet there, found from their heat flow; inside, the mean of
    /// the cells that meet there, weighted by conductivity.
    ///
    /// # Errors
    /// A point with no solid near it.
    pub fn temperature_at(&self, x: Length, y: Length) -> Result<ThermodynamicTemperature> {
        let nearest = |lines: &[f64], at: f64| {
            lines
                .iter()
                .copied()
                .enumerate()
                .min_by(|a, b| (a.1 - at).abs().total_cmp(&(b.1 - at).abs()))
                .unwrap_or((0, 0.0))
        };
        let (ci, cx) = nearest(&self.lines.x, admit::finite("x of the point", x.value)?);
        let (cj, cy) = nearest(&self.lines.y, admit::finite("y of the point", y.value)?);
        let on_surface = self.surface_temperature(cx, cy);
        on_surface
            .or_else(|| self.inner_temperature(ci, cj))
            .map(kelvin)
            .ok_or(PhysicsError::Contradiction { what: "point of the section".into(), why: "lies in no solid".into() })
    }

    /// Kelvin at a mesh corner on a surface; none elsewhere. The nearer the middle of a face, the
    /// more it counts.
    fn surface_temperature(&self, x: f64, y: f64) -> Option<f64> {
        let (faces, _) = couple(&self.lines, &self.grid, &self.films, self.outer);
        let (mut weight, mut sum) = (0.0, 0.0);
        for face in &faces {
            let (across, along) = if face.upright { (x, y) } else { (y, x) };
            let near = |a: f64, b: f64| (a - b).abs() < 1e-9;
            if near(across, face.at) && (near(along, face.low) || near(along, face.high)) {
                let w = 1.0 / (face.high - face.low);
                weight += w;
                sum += w * self.face_temperature(face);
            }
        }
        (weight > 0.0).then(|| sum / weight)
    }

    /// Kelvin at a mesh corner inside the solids.
    fn inner_temperature(&self, ci: usize, cj: usize) -> Option<f64> {
        let (nx, ny) = (self.lines.x.len() - 1, self.lines.y.len() - 1);
        let (mut weight, mut sum) = (0.0, 0.0);
        for i in ci.saturating_sub(1)..(ci + 1).min(nx) {
            for j in cj.saturating_sub(1)..(cj + 1).min(ny) {
                if let Cell::Solid(lambda) = self.grid[j * nx + i] {
                    let dx = self.lines.x[i + 1] - self.lines.x[i];
                    let dy = self.lines.y[j + 1] - self.lines.y[j];
                    // Conductance from the cell's center to the corner through a quarter cell.
                    let w = lambda * 0.5 * (dx / dy + dy / dx);
                    weight += w;
                    sum += w * self.temperatures[j * nx + i];
                }
            }
        }
        (weight > 0.0).then(|| sum / weight)
    }

    /// Kelvin on a face, from the heat that passes its film.
    fn face_temperature(&self, face: &Face) -> f64 {
        let air = self.films[face.environment].0;
        if !face.film_conductance.is_finite() {
            return air;
        }
        let heat = face.conductance * (air - self.temperatures[face.cell]);
        air - heat / face.film_conductance
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
            .map(|face| self.face_temperature(face))
            .min_by(f64::total_cmp)
            .map(kelvin)
            .ok_or(PhysicsError::Contradiction {
                what: "window of the section".into(),
                why: "holds no surface of that environment".into(),
            })
    }
}
