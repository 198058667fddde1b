//! The parts of the building: project, site, storey, walls with openings, piers, pads, beams, the crawl space.

use std::collections::BTreeMap;
use std::sync::Arc;

use uom::si::area::square_meter;
use uom::si::f64::{Area, Length, Volume};
use uom::si::length::meter;
use uom::si::volume::cubic_meter;
use wythe_bill::Job;
use wythe_model::geometry::{Footprint, Plan, opening_rects, strips};
use wythe_model::quantity::{wall_average, wall_bands};
use wythe_model::{Foundation, MeasuredFace, Product, Wall};
use wythe_source::Symbol;

use super::IfcOptions;
use super::guid::guid;
use super::shape::{Frame, axis, bodies, extrusion, point};
use super::step::{Line, Lines, list, real, text};

/// A figure of a set of quantities.
pub(super) enum Figure {
    Length(&'static str, Length),
    Area(&'static str, Area),
    Volume(&'static str, Volume),
    Count(&'static str, u64),
}

/// The model under way.
pub(super) struct Model<'a> {
    pub(super) job: &'a Job,
    pub(super) house: usize,
    pub(super) f: Arc<Foundation>,
    pub(super) plan: Plan,
    pub(super) lines: Lines,
    pub(super) frame: Frame,
    options: &'a IfcOptions,
    storey: Line,
    /// What stands in the storey.
    pub(super) parts: Vec<Line>,
    /// Materials by name, and what is made of each.
    materials: BTreeMap<&'static str, (String, Vec<Line>)>,
}

impl<'a> Model<'a> {
    pub(super) fn new(job: &'a Job, house: usize, options: &'a IfcOptions) -> Option<Model<'a>> {
        let f = job.houses.get(house)?.clone();
        let plan = job.plans.get(house)?.clone();
        let mut lines = Lines::default();
        let zero = Length::default();
        let origin = point(&mut lines, &[zero, zero, zero]);
        let up = lines.add("IFCDIRECTION", "(0.,0.,1.)");
        let world = lines.add("IFCAXIS2PLACEMENT3D", &format!("{origin},$,$"));
        let context = lines.add("IFCGEOMETRICREPRESENTATIONCONTEXT", &format!("$,'Model',3,1.E-05,{world},$"));
        let sub = |lines: &mut Lines, name: &str, view: &str| {
            lines.add(
                "IFCGEOMETRICREPRESENTATIONSUBCONTEXT",
                &format!("'{name}','Model',*,*,*,*,{context},$,.{view}.,$"),
            )
        };
        let (body, line) = (sub(&mut lines, "Body", "MODEL_VIEW"), sub(&mut lines, "Axis", "GRAPH_VIEW"));
        let units: Vec<Line> = [
            "LENGTHUNIT.,$,.METRE",
            "AREAUNIT.,$,.SQUARE_METRE",
            "VOLUMEUNIT.,$,.CUBIC_METRE",
            "PLANEANGLEUNIT.,$,.RADIAN",
        ]
        .iter()
        .map(|unit| lines.add("IFCSIUNIT", &format!("*,.{unit}.")))
        .collect();
        let units = lines.add("IFCUNITASSIGNMENT", &list(&units));
        let path = |what: &str| text(&guid(&format!("{}/{what}", f.name)));
        let name = text(f.name.as_str());
        let project = lines.add(
            "IFCPROJECT",
            &format!("{},$,{name},'Closed crawl-space foundation. Not a structural model: nothing here is sized.',$,$,$,({context}),{units}", path("project")),
        );
        let placement = lines.add("IFCLOCALPLACEMENT", &format!("$,{world}"));
        let site = lines.add(
            "IFCSITE",
            &format!("{},$,{},$,$,{placement},$,$,.ELEMENT.,$,$,$,$,$", path("site"), text(f.site.name.as_str())),
        );
        let building =
            lines.add("IFCBUILDING", &format!("{},$,{name},$,$,{placement},$,$,.ELEMENT.,$,$,$", path("building")));
        let storey = lines.add(
            "IFCBUILDINGSTOREY",
            &format!(
                "{},$,'Foundation','Heights are above the datum of the plans',$,{placement},$,$,.ELEMENT.,0.",
                path("storey")
            ),
        );
        for (what, whole, part) in [("site", project, site), ("building", site, building), ("storey", building, storey)]
        {
            lines.add("IFCRELAGGREGATES", &format!("{},$,$,$,{whole},({part})", path(&format!("whole/{what}"))));
        }
        let frame = Frame { body, axis: line, placement, up };
        Some(Model {
            job,
            house,
            f,
            plan,
            lines,
            frame,
            options,
            storey,
            parts: Vec::new(),
            materials: BTreeMap::new(),
        })
    }

    /// The identifier of a part, as written.
    pub(super) fn id(&self, path: &str) -> String {
        text(&guid(&format!("{}/{path}", self.f.name)))
    }

    /// Everything of the building.
    pub(super) fn structure(&mut self) {
        let f = self.f.clone();
        for (index, wall) in f.walls.iter().enumerate() {
            self.wall(index, wall);
        }
        for pier in &f.piers {
            let print = Footprint::from(pier);
            let solids: Vec<Line> =
                extrusion(&mut self.lines, self.frame, &print.outline().points, pier.ground, pier.top)
                    .into_iter()
                    .collect();
            let shape = bodies(&mut self.lines, self.frame, &solids);
            let column = self.part("IFCCOLUMN", "pier", pier.name, "pier", &shape, Some("COLUMN"));
            let height = pier.top - pier.ground;
            self.quantities(
                column,
                pier.name,
                "pier",
                "Qto_ColumnBaseQuantities",
                &[
                    Figure::Length("Length", height),
                    Figure::Area("CrossSectionArea", print.area()),
                    Figure::Area("OuterSurfaceArea", print.perimeter() * height),
                    Figure::Volume("GrossVolume", print.area() * height),
                ],
            );
            let structure =
                pier.assembly.and_then(|id| f.assemblies.get(id.0 as usize)).and_then(|a| a.structure.clone());
            self.made_of(structure.as_deref(), column);
            self.pier_layers(pier, column);
        }
        for pad in &f.pads {
            let print = Footprint::from(pad);
            // A pad lies with its top at the crawl floor.
            let top = f.walls.first().and_then(|w| w.stretches.first()).map_or(Length::default(), |s| s.levels.ground);
            let solids: Vec<Line> =
                extrusion(&mut self.lines, self.frame, &print.outline().points, top - pad.thickness, top)
                    .into_iter()
                    .collect();
            let shape = bodies(&mut self.lines, self.frame, &solids);
            let footing = self.part("IFCFOOTING", "pad", pad.name, "pad", &shape, Some("PAD_FOOTING"));
            self.quantities(
                footing,
                pad.name,
                "pad",
                "Qto_FootingBaseQuantities",
                &[
                    Figure::Length("Length", pad.width),
                    Figure::Length("Width", pad.depth),
                    Figure::Length("Height", pad.thickness),
                    Figure::Volume("GrossVolume", print.area() * pad.thickness),
                ],
            );
        }
        for beam in &f.beams {
            let top = f.walls.first().and_then(|w| w.stretches.first()).map_or(Length::default(), |s| s.levels.sill);
            let shape = axis(&mut self.lines, self.frame, beam.from, beam.to, top - beam.drop);
            self.part("IFCBEAM", "beam", beam.name, "recorded, not sized", &shape, Some("BEAM"));
        }
        self.space();
    }

    fn wall(&mut self, index: usize, wall: &Wall) {
        let f = self.f.clone();
        let drawn = self.plan.walls[index].clone();
        let (outside, inside) = (drawn.outside, drawn.inside);
        let mut solids = Vec::new();
        let (mut volume, mut highest) = (Volume::default(), Length::default());
        for strip in strips(wall, &drawn.center) {
            let outline = stretch(&drawn.center, &outside, &inside, strip.from, strip.to);
            let (low, high) = (strip.levels.footing, strip.levels.top);
            solids.extend(extrusion(&mut self.lines, self.frame, &outline, low, high));
            let area = wythe_model::geometry::Outline { points: outline }.area();
            volume += area * (high - low);
            highest = highest.max(high - low);
        }
        let shape = bodies(&mut self.lines, self.frame, &solids);
        let what = if wall.existing { "existing wall" } else { "foundation wall" };
        let line = self.part("IFCWALL", "wall", wall.name, what, &shape, Some("SOLIDWALL"));
        let bands = wall_bands(&f, index, self.plan_basis());
        let face: Area = bands.iter().map(|b| b.area).fold(Area::default(), |a, b| a + b);
        let mut figures = vec![
            Figure::Length("Length", outside.length()),
            Figure::Length("Height", highest),
            Figure::Area("NetSideArea", face),
            Figure::Volume("GrossVolume", volume),
        ];
        figures.extend(drawn.thickness.map(|t| Figure::Length("Width", t)));
        self.quantities(line, wall.name, "wall", "Qto_WallBaseQuantities", &figures);
        let mut values = vec![("IsExternal", "IFCBOOLEAN(.T.)".to_owned())];
        if let Some(average) = wall_average(&bands, self.options.films).filter(|a| a.u.value.is_finite()) {
            values.push(("ThermalTransmittance", format!("IFCTHERMALTRANSMITTANCEMEASURE({})", real(average.u.value))));
        }
        self.properties(line, wall.name, "wall", "Pset_WallCommon", &values);
        let structure = wall.assembly.and_then(|id| f.assemblies.get(id.0 as usize)).and_then(|a| a.structure.clone());
        self.made_of(structure.as_deref(), line);
        for found in opening_rects(&f, index) {
            let Some(opening) = f.openings.get(found.opening) else { continue };
            let rect = found.rect;
            let outline = stretch(&drawn.outside, &outside, &inside, rect.from, rect.to);
            let solids: Vec<Line> =
                extrusion(&mut self.lines, self.frame, &outline, rect.low, rect.high).into_iter().collect();
            let shape = bodies(&mut self.lines, self.frame, &solids);
            let id = self.id(&format!("opening/{}", opening.name));
            let hole = self.lines.add(
                "IFCOPENINGELEMENT",
                &format!(
                    "{id},$,{},$,{},{},{shape},$,.OPENING.",
                    text(opening.name.as_str()),
                    text(opening.kind.name()),
                    self.frame.placement
                ),
            );
            let id = self.id(&format!("opening/{}/in", opening.name));
            self.lines.add("IFCRELVOIDSELEMENT", &format!("{id},$,$,$,{line},{hole}"));
            let mut figures = vec![
                Figure::Length("Width", opening.width),
                Figure::Length("Height", opening.height),
                Figure::Area("Area", opening.width * opening.height),
            ];
            figures.extend(drawn.thickness.map(|t| Figure::Length("Depth", t)));
            self.quantities(hole, opening.name, "opening", "Qto_OpeningElementBaseQuantities", &figures);
        }
        self.wall_layers(index, wall, line);
    }

    fn space(&mut self) {
        let outline = self.plan.outline(MeasuredFace::Inside);
        let stretches = self.f.walls.iter().flat_map(|w| &w.stretches);
        let low = stretches.clone().map(|s| s.levels.ground).reduce(Length::max);
        let high = stretches.map(|s| s.levels.sill).reduce(Length::min);
        let (Some(low), Some(high)) = (low, high) else { return };
        let solids: Vec<Line> =
            extrusion(&mut self.lines, self.frame, &outline.points, low, high).into_iter().collect();
        if solids.is_empty() {
            return;
        }
        let shape = bodies(&mut self.lines, self.frame, &solids);
        let id = self.id("space");
        let space = self.lines.add(
            "IFCSPACE",
            &format!("{id},$,'Crawl space',$,$,{},{shape},$,.ELEMENT.,.INTERNAL.,$", self.frame.placement),
        );
        let id = self.id("whole/space");
        self.lines.add("IFCRELAGGREGATES", &format!("{id},$,$,$,{},({space})", self.storey));
        let (area, around) = (outline.area(), outline.perimeter());
        self.quantities(
            space,
            Symbol::new("space"),
            "space",
            "Qto_SpaceBaseQuantities",
            &[
                Figure::Length("Height", high - low),
                Figure::Length("NetPerimeter", around),
                Figure::Area("NetFloorArea", area),
                Figure::Volume("GrossVolume", area * (high - low)),
                Figure::Count("Piers", self.f.piers.len() as u64),
            ],
        );
        self.ground_layers(&outline.points, low, space);
    }

    /// A part that stands in the storey.
    pub(super) fn part(
        &mut self,
        entity: &str,
        sort: &str,
        name: Symbol,
        what: &str,
        shape: &str,
        kind: Option<&str>,
    ) -> Line {
        let id = self.id(&format!("{sort}/{name}"));
        let kind = kind.map_or("$".to_owned(), |k| format!(".{k}."));
        let line = self.lines.add(
            entity,
            &format!(
                "{id},$,{},$,{},{},{shape},{},{kind}",
                text(name.as_str()),
                text(what),
                self.frame.placement,
                text(name.as_str())
            ),
        );
        self.parts.push(line);
        line
    }

    /// A set of quantities of a part.
    pub(super) fn quantities(&mut self, part: Line, name: Symbol, sort: &str, set: &str, figures: &[Figure]) {
        let mut all = Vec::new();
        for figure in figures {
            let (entity, name, value) = match figure {
                Figure::Length(n, v) => ("IFCQUANTITYLENGTH", n, v.get::<meter>()),
                Figure::Area(n, v) => ("IFCQUANTITYAREA", n, v.get::<square_meter>()),
                Figure::Volume(n, v) => ("IFCQUANTITYVOLUME", n, v.get::<cubic_meter>()),
                Figure::Count(n, v) => ("IFCQUANTITYCOUNT", n, *v as f64),
            };
            if value.is_finite() && value >= 0.0 {
                all.push(self.lines.add(entity, &format!("'{name}',$,$,{},$", real(value))));
            }
        }
        if all.is_empty() {
            return;
        }
        let (id, rel) = (self.id(&format!("{sort}/{name}/{set}")), self.id(&format!("{sort}/{name}/{set}/of")));
        let set = self.lines.add("IFCELEMENTQUANTITY", &format!("{id},$,'{set}',$,$,{}", list(&all)));
        self.lines.add("IFCRELDEFINESBYPROPERTIES", &format!("{rel},$,$,$,({part}),{set}"));
    }

    /// A set of properties of a part, each value as written.
    pub(super) fn properties(&mut self, part: Line, name: Symbol, sort: &str, set: &str, values: &[(&str, String)]) {
        let all: Vec<Line> = values
            .iter()
            .map(|(name, value)| self.lines.add("IFCPROPERTYSINGLEVALUE", &format!("'{name}',$,{value},$")))
            .collect();
        let (id, rel) = (self.id(&format!("{sort}/{name}/{set}")), self.id(&format!("{sort}/{name}/{set}/of")));
        let set = self.lines.add("IFCPROPERTYSET", &format!("{id},$,'{set}',$,{}", list(&all)));
        self.lines.add("IFCRELDEFINESBYPROPERTIES", &format!("{rel},$,$,$,({part}),{set}"));
    }

    /// Says what a part is made of.
    pub(super) fn made_of(&mut self, product: Option<&Product>, part: Line) {
        let Some(product) = product else { return };
        let class = product.class.name().to_lowercase();
        self.materials.entry(product.name.as_str()).or_insert((class, Vec::new())).1.push(part);
    }

    pub(super) fn plan_basis(&self) -> wythe_model::geometry::Basis {
        self.job.terms.basis
    }

    /// The file, with what is known of the whole at its end.
    pub(super) fn finish(mut self) -> String {
        for (name, (class, parts)) in std::mem::take(&mut self.materials) {
            let material = self.lines.add("IFCMATERIAL", &format!("{},$,{}", text(name), text(&class)));
            let id = self.id(&format!("material/{name}"));
            self.lines.add("IFCRELASSOCIATESMATERIAL", &format!("{id},$,$,$,{},{material}", list(&parts)));
        }
        if !self.parts.is_empty() {
            let id = self.id("contains");
            let parts = list(&self.parts);
            self.lines.add("IFCRELCONTAINEDINSPATIALSTRUCTURE", &format!("{id},$,$,$,{parts},{}", self.storey));
        }
        let day = self.options.day.map_or_else(|| "2000-01-01".to_owned(), |d| d.to_string());
        self.lines.file(&format!("{}.ifc", self.f.name), &format!("{day}T00:00:00"))
    }
}

/// The outline in plan of a stretch of wall between two of its faces, told along one of its lines.
pub(super) fn stretch(
    along: &wythe_model::geometry::WallLine,
    outer: &wythe_model::geometry::WallLine,
    inner: &wythe_model::geometry::WallLine,
    from: Length,
    to: Length,
) -> Vec<wythe_model::Point> {
    let hair = wythe_model::geometry::hair();
    // The ends of the wall are cut on the miter; steps between are square.
    let at = |line: &wythe_model::geometry::WallLine, s: Length| {
        let s = if (s - along.from).abs() < hair {
            line.from
        } else if (s - along.to).abs() < hair {
            line.to
        } else {
            s
        };
        let run = line.to - line.from;
        let share = if run.abs() > hair { ((s - line.from) / run).value } else { 0.0 };
        wythe_model::Point {
            x: line.start.x + (line.end.x - line.start.x) * share,
            y: line.start.y + (line.end.y - line.start.y) * share,
        }
    };
    vec![at(outer, from), at(outer, to), at(inner, to), at(inner, from)]
}
