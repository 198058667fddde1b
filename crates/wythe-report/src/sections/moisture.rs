//! Moisture: the three states over a year, what keeps it dry, when it may be closed, condensation in the walls.

use wythe_render::climate::moisture_document;
use wythe_render::tables::Table;

use crate::House;
use crate::grid::{grid, pretty};
use crate::model::{Block, Grid, Section};
use crate::plot;
use crate::words::clean;

pub(super) fn section(house: &House<'_>) -> Section {
    let mut out = Section::new("moisture", "Moisture");
    let Some(moisture) = house.moisture else { return out };
    let document = moisture_document(std::slice::from_ref(moisture), false, &house.show);
    let own = format!("{}: ", moisture.foundation);
    for remark in &document.remarks {
        let text = remark.strip_prefix(&own).unwrap_or(remark);
        let mut letters = text.chars();
        let text: String = letters.next().into_iter().flat_map(char::to_uppercase).chain(letters).collect();
        out.text(pretty(&clean(&text)));
    }
    out.blocks.push(Block::Plots { plots: plot::months(moisture, house.show.display.system) });
    for table in &document.tables {
        match table.key {
            "states" => {
                let columns = [
                    ("state", ""),
                    ("condensing_hours", ""),
                    ("most_humid_day", ""),
                    ("wood", "framing, dampest"),
                    ("mold", ""),
                    ("busiest_day", ""),
                    ("settled", ""),
                ];
                out.grid(grid(table, "The states side by side", &columns));
            }
            "sizes" => {
                let columns =
                    [("way", ""), ("code", ""), ("computed", "computed, if alone"), ("declared", ""), ("remark", "")];
                out.grid(grid(
                    table,
                    "What keeps it dry: the code's least beside the load; one way is enough",
                    &columns,
                ));
            }
            "closing" => out.grid(grid(table, "When it may be closed, by the day the framing goes up", &[])),
            "sections" => out.grid(grid(table, "Condensation inside the walls, month by month (ISO 13788)", &[])),
            _ => {}
        }
    }
    if let Some(table) = document.tables.iter().find(|t| t.key == "months") {
        out.grid(months(table));
    }
    out
}

/// The months, the state said once for its twelve.
fn months(table: &Table) -> Grid {
    let columns = [
        ("state", ""),
        ("month", ""),
        ("outside", ""),
        ("air", ""),
        ("humidity", ""),
        ("wood", "framing"),
        ("condensing_hours", ""),
        ("mold", ""),
        ("ground_water", "from ground"),
    ];
    let mut grid = grid(table, "Month by month", &columns);
    let mut last = String::new();
    for row in &mut grid.rows {
        if row[0] == last {
            row[0].clear();
        } else {
            last.clone_from(&row[0]);
        }
    }
    grid
}
