//! The heat of houses: parts of the loss, walls and their bands, layers with their sources, the ground, cold spots.

use wythe_assess::heat::{HeatReport, WallHeat};
use wythe_model::Interval;
use wythe_physics::heat::ground::crawl::GroundForm;

use super::figures::Figures;
use super::notes::{self, month};
use crate::tables::{Cell, Document, Shower, Table};

/// The heat of houses as a document.
pub fn heat_document(reports: &[HeatReport], show: &Shower<'_>) -> Document {
    let names: Vec<&str> = reports.iter().map(|r| r.foundation.as_str()).collect();
    let mut document = Document::new("heat", format!("Heat of {}", names.join(", ")));
    document.complete = reports.iter().all(|r| r.complete);
    if !document.complete {
        document.remarks.push("INCOMPLETE: the heat through some wall is not known; see the findings.".into());
    }
    let figures = Figures::new(show);
    for report in reports {
        document.remarks.extend(remarks(report, figures));
    }
    document.tables.push(parts(reports, figures));
    document.tables.push(walls(reports, figures));
    document.tables.push(bands(reports, figures));
    document.tables.push(layers(reports, figures));
    document.tables.push(paths(reports, figures));
    document.tables.push(ground(reports, figures));
    document.tables.push(section(reports, figures));
    document.tables.push(spots(reports, figures));
    let assumptions = reports.iter().map(|r| &r.assumptions);
    notes::add(&mut document, assumptions, reports.iter().flat_map(|r| &r.cautions));
    document
}

fn remarks(report: &HeatReport, figures: Figures<'_>) -> Vec<String> {
    let mut out = Vec::new();
    let name = report.foundation;
    out.push(format!(
        "{name}: {} of floor and {} of exposed wall inside; crawl floor {} below grade on the mean.",
        figures.area(report.envelope.floor).shown(),
        figures.length(report.envelope.perimeter).shown(),
        figures.length(report.envelope.depth).shown(),
    ));
    out.push(format!("{name}: {}.", report.ground.choice.reason));
    if let Some(season) = &report.season {
        let mut text = format!(
            "{name}: a season of {:.0} degree days (65 degF) takes {} through all that stands in outside air",
            season.degree_days * 1.8,
            figures.energy(season.above_grade).shown(),
        );
        if season.bare_bands.value > 0.0 {
            text += &format!("; the bare band costs {} of it", figures.energy(season.bare_bands).shown());
        }
        out.push(text + ".");
    }
    out
}

const fn form(form: GroundForm) -> &'static str {
    match form {
        GroundForm::SlabOnGround => "slab on ground, ISO 13370 7.1",
        GroundForm::SuspendedFloor => "suspended floor, ISO 13370 7.2",
        GroundForm::HeatedBasement => "heated basement, ISO 13370 7.3",
        GroundForm::UnheatedBasement => "unheated basement, ISO 13370 7.4",
    }
}

fn parts(reports: &[HeatReport], figures: Figures<'_>) -> Table {
    let mut table = Table::new(
        "parts",
        "Loss of the whole space by part, for a degree between inside and outside",
        &[("house", "house"), ("part", "part"), ("area", ">area"), ("loss", ">loss"), ("share", ">share")],
    );
    table.plots = true;
    for report in reports {
        for part in &report.parts {
            table.row(vec![
                Cell::text(report.foundation.as_str()),
                Cell::text(part.name),
                figures.area(part.area),
                figures.conductance(part.conductance),
                figures.share(part.share),
            ]);
        }
        table.row(vec![
            Cell::text(report.foundation.as_str()),
            Cell::text("all"),
            Cell::Empty,
            figures.conductance(report.total()),
            figures.share(wythe_model::Ratio::from(1.0)),
        ]);
    }
    table
}

fn walls(reports: &[HeatReport], figures: Figures<'_>) -> Table {
    let mut table = Table::new(
        "walls",
        "Walls over their bands, films included",
        &[
            ("house", "house"),
            ("wall", "wall"),
            ("area", ">area"),
            ("u", ">U with fasteners"),
            ("u_without", ">U without"),
            ("fasteners", ">through board"),
            ("fastener_share", ">of loss"),
            ("bare_area", ">bare band, of area"),
            ("bare_loss", ">of loss"),
            ("bare_extra", ">over insulated"),
            ("remark", "remark"),
        ],
    );
    for report in reports {
        for wall in &report.walls {
            table.row(wall_row(report, wall, figures));
        }
    }
    table
}

fn wall_row(report: &HeatReport, wall: &WallHeat, figures: Figures<'_>) -> Vec<Cell> {
    let known = !wall.bands.is_empty();
    let when = |cell: Cell| if known { cell } else { Cell::Empty };
    let count: u64 = wall.fasteners.iter().map(|b| b.count).sum();
    let share = wall.fasteners.iter().map(|b| b.loss_share).reduce(|a, b| a + b);
    let bare = wall.bare.as_ref();
    vec![
        Cell::text(report.foundation.as_str()),
        Cell::text(wall.name.as_str()),
        when(figures.area(wall.area)),
        when(figures.u_range(wall.transmittance)),
        when(figures.u(wall.without_fasteners)),
        if count > 0 { Cell::Count(count) } else { Cell::Empty },
        share.map_or(Cell::Empty, |s| figures.share(s)),
        bare.map_or(Cell::Empty, |b| figures.share(b.area_share)),
        bare.map_or(Cell::Empty, |b| figures.share(b.loss_share)),
        bare.map_or(Cell::Empty, |b| figures.conductance(b.extra)),
        Cell::text(match (wall.exposed, known) {
            (false, _) => "stands against old work; in no sum",
            (true, false) => "not known; in no sum",
            (true, true) => "",
        }),
    ]
}

fn bands(reports: &[HeatReport], figures: Figures<'_>) -> Table {
    let mut table = Table::new(
        "bands",
        "Bands, from the top down",
        &[
            ("house", "house"),
            ("wall", "wall"),
            ("from", ">from"),
            ("to", ">to"),
            ("high", ">top"),
            ("low", ">bottom"),
            ("behind", "behind it"),
            ("layers", "layers"),
            ("area", ">area"),
            ("r", ">layers' R"),
            ("u", ">U"),
            ("loss", ">of the wall's loss"),
        ],
    );
    for report in reports {
        for wall in &report.walls {
            for band in &wall.bands {
                let layers: Vec<&str> = band.layers.iter().map(|l| l.as_str()).collect();
                table.row(vec![
                    Cell::text(report.foundation.as_str()),
                    Cell::text(wall.name.as_str()),
                    figures.length(band.from),
                    figures.length(band.to),
                    figures.length(band.high),
                    figures.length(band.low),
                    Cell::text(if band.above_grade { "air" } else { "earth" }),
                    Cell::text(layers.join(", ")),
                    figures.area(band.area),
                    figures.resistance(band.resistance),
                    figures.u(band.transmittance.mid),
                    figures.share(band.loss_share),
                ]);
            }
        }
    }
    table
}

/// The layers of every build-up once, with where their figures come from.
fn layers(reports: &[HeatReport], figures: Figures<'_>) -> Table {
    let mut table = Table::new(
        "layers",
        "Layers of the walls, from outside to inside",
        &[
            ("house", "house"),
            ("face", "face"),
            ("layer", "layer"),
            ("product", "product"),
            ("thickness", ">thickness"),
            ("r", ">R"),
            ("permeance", ">permeance"),
            ("source", "source"),
        ],
    );
    for report in reports {
        let mut seen = Vec::new();
        for layer in report.walls.iter().flat_map(|w| &w.layers) {
            if seen.contains(&(layer.origin, layer.name)) {
                continue;
            }
            seen.push((layer.origin, layer.name));
            table.row(vec![
                Cell::text(report.foundation.as_str()),
                Cell::text(layer.face),
                Cell::text(layer.name.as_str()),
                Cell::text(layer.product.as_str()),
                layer.thickness.map_or(Cell::Empty, |t| figures.thickness(t)),
                layer.resistance.map_or(Cell::Empty, |r| figures.resistance(r)),
                layer.permeance.map_or(Cell::Empty, |p| figures.permeance(p)),
                Cell::text(layer.source.as_deref().unwrap_or("none stated")),
            ]);
        }
    }
    table
}

fn paths(reports: &[HeatReport], figures: Figures<'_>) -> Table {
    let mut table = Table::new(
        "paths",
        "Framing beside insulation, by the two limits of the combined method (ISO 6946 6.7.2)",
        &[
            ("house", "house"),
            ("part", "part"),
            ("upper", ">upper limit"),
            ("lower", ">lower limit"),
            ("ratio", ">ratio"),
            ("u", ">U by their mean"),
            ("remark", "remark"),
        ],
    );
    for report in reports {
        for part in &report.parallel {
            table.row(vec![
                Cell::text(report.foundation.as_str()),
                Cell::text(part.name),
                figures.resistance(Interval::exact(part.upper)),
                figures.resistance(Interval::exact(part.lower)),
                Cell::Number(part.ratio.value, 3),
                part.transmittance.map_or(Cell::Empty, |u| figures.u(u)),
                Cell::text(if part.transmittance.is_some() { "" } else { "over 1.5: the method does not hold" }),
            ]);
        }
    }
    table
}

fn ground(reports: &[HeatReport], figures: Figures<'_>) -> Table {
    let mut table = Table::new(
        "ground",
        "The ground: the form used, and the other one",
        &[
            ("house", "house"),
            ("use", "use"),
            ("form", "form"),
            ("soil", "soil"),
            ("floor", ">U of floor"),
            ("wall", ">U of wall below grade"),
            ("loss", ">loss"),
        ],
    );
    for report in reports {
        let ground = &report.ground;
        let mut soil = figures.conductivity(ground.soil);
        if !ground.soil_stated {
            soil += ", assumed";
        }
        for (use_, shown) in [("used", &ground.chosen), ("beside", &ground.beside)] {
            table.row(vec![
                Cell::text(report.foundation.as_str()),
                Cell::text(use_),
                Cell::text(form(shown.form)),
                Cell::text(soil.clone()),
                figures.u_range(shown.floor),
                shown.wall.map_or(Cell::Empty, |w| figures.u_range(w)),
                figures.conductance(shown.conductance.mid),
            ]);
        }
    }
    table
}

fn section(reports: &[HeatReport], figures: Figures<'_>) -> Table {
    let mut table = Table::new(
        "section",
        "The longest wall with half the floor as a section in two dimensions, beside bands and standard",
        &[
            ("house", "house"),
            ("wall", "wall"),
            ("by_section", ">loss by the section"),
            ("by_standard", ">by bands and standard"),
            ("coldest", ">factor of the coldest spot"),
            ("cells", ">cells"),
        ],
    );
    for report in reports {
        if let Some(section) = &report.section {
            table.row(vec![
                Cell::text(report.foundation.as_str()),
                Cell::text(section.wall.as_str()),
                figures.along(section.by_section),
                figures.along(section.by_standard),
                Cell::Number(section.coldest_factor.value, 3),
                Cell::Count(section.cells as u64),
            ]);
        }
    }
    table
}

fn spots(reports: &[HeatReport], figures: Figures<'_>) -> Table {
    let mut table = Table::new(
        "spots",
        "Cold spots: temperature in the coldest month, humidity at the surface in the worst one",
        &[
            ("house", "house"),
            ("spot", "spot"),
            ("factor", ">factor"),
            ("coldest", ">coldest month"),
            ("month", ">worst"),
            ("humidity", ">humidity there"),
            ("keeps", "keeps to 80 %"),
        ],
    );
    for report in reports {
        for spot in &report.spots {
            table.row(vec![
                Cell::text(report.foundation.as_str()),
                Cell::text(spot.name.clone()),
                Cell::Number(spot.factor.value, 3),
                figures.temperature(spot.coldest),
                Cell::text(month(spot.worst_month)),
                figures.share(spot.worst.humidity.ratio()),
                Cell::text(if spot.worst.acceptable { "yes" } else { "NO" }),
            ]);
        }
    }
    table
}
