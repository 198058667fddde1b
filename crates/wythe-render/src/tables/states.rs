//! The state of a building, surface by phase.

use wythe_check::sequence::{Cell as State, EdgeState, Harm, Inspection, Row, SiteState, StateTable, Vents};
use wythe_model::Traffic;

use super::{Cell, Document, Table};

/// The state table for people: the house after each phase, then each surface with a column a layer.
pub fn states(name: &str, table: &StateTable) -> Document {
    let mut out = head(name, table);
    out.tables.push(house(table));
    out.tables.extend(table.rows.iter().filter(|row| is_worked(row)).map(|row| surface(table, row)));
    out
}

/// The state table for programs: each surface after each phase, the house after each phase, and each layer.
pub fn states_flat(name: &str, table: &StateTable) -> Document {
    let mut out = head(name, table);
    let columns = [
        ("surface", "surface"),
        ("places", "places"),
        ("phase", "phase"),
        ("state", "state"),
        ("edge", "edge"),
        ("inspection", "inspection"),
        ("harm", "harm"),
    ];
    let mut surfaces = Table::new("surfaces", "", &columns);
    let columns = [("surface", "surface"), ("phase", "phase"), ("layer", "layer"), ("state", "state")];
    let mut layers = Table::new("layers", "", &columns);
    for row in &table.rows {
        for (phase, state) in table.phases.iter().zip(&row.cells) {
            surfaces.row(vec![
                Cell::text(row.surface.as_str()),
                Cell::text(places(row)),
                Cell::text(phase.as_str()),
                Cell::text(state.to_string()),
                Cell::text(edge(state)),
                Cell::text(inspection(state)),
                Cell::text(harm(state)),
            ]);
            for (layer, stands) in &state.layers {
                layers.row(vec![
                    Cell::text(row.surface.as_str()),
                    Cell::text(phase.as_str()),
                    Cell::text(layer.as_str()),
                    Cell::text(stands.word()),
                ]);
            }
        }
    }
    out.tables.extend([surfaces, house(table), layers]);
    out
}

fn head(name: &str, table: &StateTable) -> Document {
    let mut out = Document::new("states", format!("State of {name} after each phase"));
    if table.phases.is_empty() {
        out.remarks.push("The foundation lists no phases, so nothing is known of its states.".into());
    } else if table.holds_assumed {
        out.remarks.push("There is no log: each inspection is taken as passed when the next phase begins.".into());
    }
    out
}

fn house(table: &StateTable) -> Table {
    let columns = [
        ("phase", "phase"),
        ("roof", "roof"),
        ("rain", "rain"),
        ("floor", "floor"),
        ("backfill", "backfill"),
        ("ground", "ground"),
        ("cover", "cover"),
        ("vents", "vents"),
        ("conditioning", "conditioning"),
        ("traffic", "traffic"),
    ];
    let mut out = Table::new("house", "The house", &columns);
    for (phase, house) in table.phases.iter().zip(&table.house) {
        let on = |is: bool, word: &str| Cell::text(if is { word } else { "" });
        out.row(vec![
            Cell::text(phase.as_str()),
            on(house.roof, "on"),
            on(house.rain, "on"),
            on(house.floor, "on"),
            on(house.backfilled, "done"),
            Cell::text(ground(house)),
            Cell::text(format!("{:?}", house.cover).to_lowercase()),
            Cell::text(match house.vents {
                Vents::Unsaid => "",
                Vents::Open => "open",
                Vents::Shut => "shut",
            }),
            on(house.conditioned, "on"),
            Cell::text(match house.traffic {
                Traffic::None => "",
                Traffic::Light => "light",
                Traffic::Heavy => "heavy",
            }),
        ]);
    }
    out
}

/// How wet the ground is, and how it is left: `dry, graded, drained`.
fn ground(house: &SiteState) -> String {
    let mut out = format!("{:?}", house.ground).to_lowercase();
    for (is, word) in [(house.graded, ", graded"), (house.drained, ", drained")] {
        if is {
            out.push_str(word);
        }
    }
    out
}

fn is_worked(row: &Row) -> bool {
    row.cells.iter().any(|cell| !cell.layers.is_empty())
}

/// One surface, from the phase of its first layer on.
fn surface(table: &StateTable, row: &Row) -> Table {
    let mut names = Vec::new();
    for (layer, _) in row.cells.iter().flat_map(|cell| &cell.layers) {
        if !names.contains(layer) {
            names.push(*layer);
        }
    }
    let mut columns = vec![("phase", "phase")];
    columns.extend(names.iter().map(|name| (name.as_str(), name.as_str())));
    columns.extend([("edge", "edge"), ("inspection", "inspection"), ("harm", "harm")]);
    let title = match places(row) {
        places if places.is_empty() || places == row.surface => row.surface.clone(),
        places => format!("{}: {places}", row.surface),
    };
    let mut out = Table::new("surface", title, &columns);
    let first = row.cells.iter().position(|cell| !cell.layers.is_empty()).unwrap_or(0);
    for (phase, cell) in table.phases.iter().zip(&row.cells).skip(first) {
        let mut cells = vec![Cell::text(phase.as_str())];
        // Of two layers of one name, the newer stands for both.
        cells.extend(names.iter().map(|name| {
            let found = cell.layers.iter().rev().find(|(layer, _)| layer == name);
            found.map_or(Cell::Empty, |(_, state)| Cell::text(state.word()))
        }));
        cells.extend([edge(cell), inspection(cell), harm(cell)].map(Cell::text));
        out.row(cells);
    }
    out
}

fn places(row: &Row) -> String {
    row.places.iter().map(|place| place.as_str()).collect::<Vec<_>>().join(", ")
}

const fn edge(cell: &State) -> &'static str {
    match cell.edge {
        EdgeState::None => "",
        EdgeState::Open => "open",
        EdgeState::Capped => "capped",
    }
}

const fn inspection(cell: &State) -> &'static str {
    match cell.seen {
        Inspection::No => "",
        Inspection::Due => "due",
        Inspection::Passed => "passed",
    }
}

const fn harm(cell: &State) -> &'static str {
    match cell.harm {
        Harm::None => "",
        Harm::Walked => "walked on",
        Harm::Rained => "rained on",
    }
}
