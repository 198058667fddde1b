//! Layers as coverings: every coating, sheet and board with an extent, where it lies and how much of it there is.

use uom::si::f64::{Area, Length};
use wythe_model::geometry::{Footprint, strips};
use wythe_model::quantity::{Measure, Role};
use wythe_model::{Act, Assembly, Class, Face, MeasuredFace, Pier, Point, Wall, Work};
use wythe_source::Symbol;

use super::element::{Figure, Model, stretch};
use super::shape::{bodies, extrusion};
use super::step::{Line, list, text};

/// A film is drawn no thinner than this, so that programs still find a body.
fn least() -> Length {
    Length::new::<uom::si::length::millimeter>(0.1)
}

impl Model<'_> {
    fn assembly(&self, id: Option<wythe_model::AssemblyId>) -> Option<std::sync::Arc<Assembly>> {
        self.f.assemblies.get(id?.0 as usize).cloned()
    }

    pub(super) fn wall_layers(&mut self, index: usize, wall: &Wall, on: Line) {
        let Some(assembly) = self.assembly(wall.assembly) else { return };
        let mut coverings = Vec::new();
        for face in &assembly.faces {
            let (side, out) = match face.name.as_str() {
                "outside" => (MeasuredFace::Outside, -1.0),
                "inside" => (MeasuredFace::Inside, 1.0),
                _ => continue,
            };
            let mut depth = Length::default();
            for (number, work) in placed(face) {
                let Some(extent) = work.extent else { continue };
                let thick = thickness(work);
                let lines = [depth, depth + thick].map(|d| self.plan.line(index, side, d * out));
                let [Some(near), Some(far)] = lines else { continue };
                let mut solids = Vec::new();
                for strip in strips(wall, &near) {
                    let (low, high) = extent.on(&strip.levels);
                    let outline: Vec<Point> = stretch(&near, &near, &far, strip.from, strip.to);
                    solids.extend(extrusion(&mut self.lines, self.frame, &outline, low, high));
                }
                depth += thick;
                coverings.extend(self.covering(wall.name, face, number, work, &solids));
            }
        }
        self.covers(wall.name, on, &coverings);
    }

    pub(super) fn pier_layers(&mut self, pier: &Pier, on: Line) {
        let Some(assembly) = self.assembly(pier.assembly) else { return };
        let mut coverings = Vec::new();
        for face in assembly.faces.iter().filter(|f| f.name.as_str() == "face") {
            let mut grown = Length::default();
            for (number, work) in placed(face) {
                let Some(extent) = work.extent else { continue };
                let (low, high) = extent.on(&pier.levels());
                let thick = thickness(work);
                let print = Footprint::from(pier);
                let ring = |by: Length| Footprint {
                    at: print.at,
                    width: print.width + by * 2.0,
                    depth: print.depth + by * 2.0,
                };
                let (near, far) = (ring(grown).outline().points, ring(grown + thick).outline().points);
                let mut solids = Vec::new();
                for side in 0..near.len().min(far.len()) {
                    let next = (side + 1) % near.len();
                    let outline = [near[side], near[next], far[next], far[side]];
                    solids.extend(extrusion(&mut self.lines, self.frame, &outline, low, high));
                }
                grown += thick;
                coverings.extend(self.covering(pier.name, face, number, work, &solids));
            }
        }
        self.covers(pier.name, on, &coverings);
    }

    pub(super) fn ground_layers(&mut self, outline: &[Point], floor: Length, space: Line) {
        let Some(assembly) = self.assembly(self.f.ground.assembly) else { return };
        let ground = Symbol::new("ground");
        let mut coverings = Vec::new();
        for face in &assembly.faces {
            let mut up = floor;
            for (number, work) in placed(face) {
                let thick = thickness(work);
                let solids: Vec<Line> =
                    extrusion(&mut self.lines, self.frame, outline, up, up + thick).into_iter().collect();
                // What is taken up again lies in no one's way.
                if !work.product.as_ref().is_some_and(|p| p.sacrificial) {
                    up += thick;
                }
                coverings.extend(self.covering(ground, face, number, work, &solids));
            }
        }
        if !coverings.is_empty() {
            let id = self.id("ground/covers");
            self.lines.add("IFCRELCOVERSSPACES", &format!("{id},$,$,$,{space},{}", list(&coverings)));
        }
    }

    fn covering(&mut self, element: Symbol, face: &Face, number: usize, work: &Work, solids: &[Line]) -> Option<Line> {
        let product = work.product.clone()?;
        let kind = match product.class {
            Class::Board => "INSULATION",
            Class::Coating | Class::Membrane => "MEMBRANE",
            _ => "NOTDEFINED",
        };
        let name = Symbol::new(&format!("{element}.{}.{}", face.name, work.layer));
        let shape = bodies(&mut self.lines, self.frame, solids);
        // Two layers of one name on one face are told apart by the number of the work.
        let sort = format!("layer/{number}");
        let line =
            self.part("IFCCOVERING", &sort, name, &format!("{} {}", work.act.word(), product.name), &shape, Some(kind));
        let mine = self.job.lines.iter().filter(|l| {
            l.house == self.house
                && l.element == element
                && l.face == face.name
                && l.work == number
                && l.role == Role::Surface
        });
        let area = |m: &Measure| if let Measure::Area(a) = m { *a } else { Area::default() };
        let net = mine.map(|l| area(&l.net)).fold(Area::default(), |a, b| a + b);
        let mut figures = vec![Figure::Length("Width", product.thickness.unwrap_or_default())];
        if net > Area::default() {
            figures.push(Figure::Area("NetArea", net));
        }
        self.quantities(line, name, &sort, "Qto_CoveringBaseQuantities", &figures);
        let mut values = vec![
            ("Product", format!("IFCLABEL({})", text(product.name.as_str()))),
            ("Face", format!("IFCLABEL({})", text(face.name.as_str()))),
            ("InstallNumber", format!("IFCINTEGER({})", number + 1)),
        ];
        if let Some(phase) = work.phase {
            values.push(("Phase", format!("IFCLABEL({})", text(phase.name.as_str()))));
        }
        if let Some(r) = product.layer_resistance().filter(|r| r.value.is_finite()) {
            values.push(("ThermalResistance", format!("IFCREAL({})", super::step::real(r.value))));
        }
        self.properties(line, name, &sort, "Wythe_Layer", &values);
        self.made_of(Some(&product), line);
        Some(line)
    }

    fn covers(&mut self, element: Symbol, on: Line, coverings: &[Line]) {
        if !coverings.is_empty() {
            let id = self.id(&format!("{element}/covers"));
            self.lines.add("IFCRELCOVERSBLDGELEMENTS", &format!("{id},$,$,$,{on},{}", list(coverings)));
        }
    }
}

/// The works of a face that put a layer in place which covers it.
fn placed(face: &Face) -> impl Iterator<Item = (usize, &Work)> {
    let covers = |w: &&Work| matches!(w.act, Act::Coat | Act::Hang | Act::Lay | Act::Set) && w.product.is_some();
    face.works.iter().enumerate().filter(move |(_, w)| covers(w))
}

fn thickness(work: &Work) -> Length {
    work.product.as_ref().and_then(|p| p.thickness).unwrap_or_default().max(least())
}
