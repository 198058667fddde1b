//! Heat: the loss by part, walls with their bare band and fasteners, the ground, cold spots.

use wythe_render::climate::heat_document;

use crate::House;
use crate::grid::{grid, pretty};
use crate::model::{Block, Section};
use crate::plot;
use crate::words::clean;

pub(super) fn section(house: &House<'_>) -> Section {
    let mut out = Section::new("heat", "Heat");
    let Some(heat) = house.heat else { return out };
    let document = heat_document(std::slice::from_ref(heat), &house.show);
    let own = format!("{}: ", heat.foundation);
    for remark in &document.remarks {
        let text = remark.strip_prefix(&own).unwrap_or(remark);
        let mut letters = text.chars();
        let text: String = letters.next().into_iter().flat_map(char::to_uppercase).chain(letters).collect();
        out.text(pretty(&clean(&text)));
    }
    out.blocks.push(Block::Plots { plots: vec![plot::loss_by_part(heat, house.show.display.system)] });
    for table in &document.tables {
        match table.key {
            "parts" => out.grid(grid(table, "Loss by part, for a degree between inside and outside", &[])),
            "walls" => {
                let columns = [
                    ("wall", ""),
                    ("area", ""),
                    ("u", "U"),
                    ("fasteners", "pins through board"),
                    ("fastener_share", "their loss"),
                    ("bare_area", "bare band, area"),
                    ("bare_loss", "its loss"),
                    ("remark", ""),
                ];
                out.grid(grid(table, "Walls over their bands, films and fasteners included", &columns));
            }
            "ground" => out.grid(grid(table, "The ground: the form used, and the other one", &[])),
            "section" => out.grid(grid(
                table,
                "The longest wall as a section in two dimensions, beside bands and standard, for each length of wall",
                &[],
            )),
            "spots" => out.grid(grid(table, "Cold spots", &[])),
            _ => {}
        }
    }
    out
}
