//! The results of a foundation: outline, walls with their heat, layers with the source of each figure, control
//! lines and rules.

use uom::si::f64::{Area, Ratio};
use uom::si::ratio::ratio;
use wythe_model::geometry::{Basis, Plan};
use wythe_model::quantity::{Band, Films, bare_band, wall_average, wall_bands};
use wythe_model::{Foundation, MeasuredFace};

use super::{Cell, Document, Shower, Table};

/// How a foundation stands, as its judge found it.
#[derive(Clone, Debug, Default)]
pub struct Standing {
    /// Errors, warnings and remarks.
    pub found: [usize; 3],
    /// Each control line: its name, and in how many sections it is proven, broken, or neither.
    pub lines: Vec<(&'static str, [u64; 3])>,
    /// Each rule: name, what it asks, its source, and in how many cases it holds, is broken, or is not known.
    pub rules: Vec<(String, String, String, [u64; 3])>,
}

/// The results of a foundation.
pub fn results(f: &Foundation, standing: &Standing, films: Films, show: &Shower<'_>) -> Document {
    let mut out = Document::new("results", format!("Results of {}", f.name));
    let [errors, warnings, remarks] = standing.found;
    out.complete = errors == 0;
    out.remarks.push(format!("Found by `wythe check`: errors {errors}, warnings {warnings}, remarks {remarks}."));
    out.remarks.push("Resistances are of the layers in series; U has the still-air film inside and, above grade, the wind film outside; fasteners are not counted. Nothing here sizes structure; local code and licensed practice come first.".into());
    out.tables.push(outline(f, show));
    out.tables.push(walls(f, films, show));
    out.tables.push(layers(f, show));
    out.tables.push(lines(standing));
    if !standing.rules.is_empty() {
        out.tables.push(rules(standing));
    }
    out
}

fn outline(f: &Foundation, show: &Shower<'_>) -> Table {
    let plan = Plan::of(f, Basis::Design);
    let mut table = Table::new("outline", "Outline", &[("what", ""), ("value", ">"), ("how", "")]);
    let face = format!("on the {} of the masonry, as drawn", f.measured.word());
    table.row(vec![Cell::text("perimeter"), show.length(plan.perimeter(f.measured)), Cell::text(face.clone())]);
    table.row(vec![Cell::text("floor area"), show.area(plan.area(f.measured)), Cell::text(face)]);
    let inside = Cell::text("inside the masonry, piers not deducted");
    table.row(vec![Cell::text("crawl floor"), show.area(plan.area(MeasuredFace::Inside)), inside]);
    for (what, count) in
        [("walls", f.walls.len()), ("openings", f.openings.len()), ("piers", f.piers.len()), ("beams", f.beams.len())]
    {
        table.row(vec![Cell::text(what), Cell::Count(count as u64), Cell::Empty]);
    }
    table
}

fn walls(f: &Foundation, films: Films, show: &Shower<'_>) -> Table {
    let mut table = Table::new(
        "walls",
        "Walls",
        &[
            ("wall", "wall"),
            ("length", ">length"),
            ("inside", ">inside"),
            ("height", ">height"),
            ("area", ">inside area"),
            ("r_board", ">R, board"),
            ("bare", ">bare band"),
            ("r_bare", ">R, bare"),
            ("share", ">loss of it"),
            ("u", ">U, whole"),
            ("built_with", "built with"),
        ],
    );
    let plan = Plan::of(f, Basis::Design);
    for (number, wall) in f.walls.iter().enumerate() {
        let bands = wall_bands(f, number, Basis::Design);
        let average = wall_average(&bands, films);
        let least = |bare: bool| bands.iter().filter(|b| b.bare == bare).map(|b| b.r_total).reduce(|a, b| a.min(b));
        let share = average.as_ref().map(|a| {
            let bare = bands.iter().zip(&a.loss_shares).filter(|(b, _)| b.bare).map(|(_, s)| s.get::<ratio>());
            Ratio::new::<ratio>(bare.sum())
        });
        let area = bands.iter().map(|b| b.area).fold(Area::default(), |sum, a| sum + a);
        let height = wall.stretches.iter().map(|s| s.levels.top - s.levels.footing).reduce(|a, b| a.max(b));
        let built = wall.assembly.map_or("", |id| f.assembly(id).name.as_str());
        table.row(vec![
            Cell::text(wall.name.as_str()),
            show.length(wall.length),
            plan.walls.get(number).map_or(Cell::Empty, |w| show.length(w.inside.length())),
            height.map_or(Cell::Empty, |h| show.length(h)),
            show.area(area),
            least(false).map_or(Cell::Empty, |r| show.resistance(r)),
            bare_band(&bands).map_or(Cell::Empty, |b| show.length(b)),
            least(true).map_or(Cell::Empty, |r| show.resistance(r)),
            share.map_or(Cell::Empty, |s| show.share(s)),
            average.map_or(Cell::Empty, |a| show.transmittance(a.u)),
            Cell::text(built),
        ]);
    }
    table
}

/// The layers of each sort of wall, once a sort: the first wall built with it stands for all.
fn layers(f: &Foundation, show: &Shower<'_>) -> Table {
    let columns =
        [("built_with", "built with"), ("band", "band"), ("layer", "layer"), ("r", ">R"), ("source", "source")];
    let mut table = Table::new("layers", "Layers, from outside to inside", &columns);
    let mut seen = Vec::new();
    for (number, wall) in f.walls.iter().enumerate() {
        let Some(id) = wall.assembly.filter(|id| !seen.contains(id)) else { continue };
        seen.push(id);
        let assembly = f.assembly(id);
        // A layer goes by its own name, the structure by its product's.
        let works = assembly.faces.iter().flat_map(|face| &face.works).filter(|w| w.act.places());
        let placed = works.filter_map(|w| Some((w.layer, w.product.as_ref()?)));
        let known: Vec<_> = assembly.structure.iter().map(|p| (p.name, p)).chain(placed).collect();
        for bare in [true, false] {
            let bands = wall_bands(f, number, Basis::Design);
            let Some(band) = bands.iter().find(|b: &&Band| b.bare == bare) else { continue };
            let name = if bare { "bare" } else { "board" };
            for (layer, r) in &band.layers {
                let source =
                    known.iter().find(|(name, _)| name == layer).and_then(|(_, p)| p.source.as_deref()).unwrap_or("");
                table.row(vec![
                    Cell::text(assembly.name.as_str()),
                    Cell::text(name),
                    Cell::text(layer.as_str()),
                    show.resistance(*r),
                    Cell::text(source),
                ]);
            }
        }
    }
    table
}

fn lines(standing: &Standing) -> Table {
    let columns = [("line", "line"), ("proven", ">proven"), ("broken", ">broken"), ("other", ">not asked or unsaid")];
    let mut table = Table::new("lines", "Control lines, by section", &columns);
    for (name, counts) in &standing.lines {
        let mut row = vec![Cell::text(*name)];
        row.extend(counts.map(Cell::Count));
        table.row(row);
    }
    table
}

fn rules(standing: &Standing) -> Table {
    let columns = [
        ("rule", "rule"),
        ("asks", "asks"),
        ("holds", ">holds"),
        ("broken", ">broken"),
        ("unknown", ">not known"),
        ("source", "source"),
    ];
    let mut table = Table::new("rules", "Rules, by case", &columns);
    for (name, title, source, counts) in &standing.rules {
        let mut row = vec![Cell::text(name.as_str()), Cell::text(title.as_str())];
        row.extend(counts.map(Cell::Count));
        row.push(Cell::text(source.as_str()));
        table.row(row);
    }
    table
}
