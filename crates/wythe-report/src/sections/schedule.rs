//! The schedule: activities, labor by visit, what must be on site each day.

use wythe_render::tables::schedule;

use crate::House;
use crate::grid::{grid, pretty};
use crate::model::Section;

pub(super) fn section(house: &House<'_>) -> Section {
    let mut out = Section::new("schedule", "Schedule");
    let Some((planned, calendar)) = house.schedule else { return out };
    let document = schedule(house.job, house.labor, planned, calendar, &house.show);
    for remark in &document.remarks {
        out.text(pretty(remark));
    }
    for table in &document.tables {
        match table.key {
            "activities" => {
                let columns = [
                    ("id", ""),
                    ("first", ""),
                    ("last", ""),
                    ("days", ""),
                    ("crew", ""),
                    ("inspected", ""),
                    ("float", ""),
                    ("hold", ""),
                ];
                out.grid(grid(table, "Activities", &columns));
            }
            "visits" => out.grid(grid(table, &table.title, &[])),
            "days" => {
                let mut wanted = table.clone();
                // Days on which nothing comes and nobody looks are on the list of activities.
                wanted.rows.retain(|row| row.iter().skip(2).any(|cell| !cell.shown().is_empty()));
                out.grid(grid(&wanted, "What must be on site, and who comes to look", &[]));
            }
            _ => {}
        }
    }
    out
}
