//! Outline, walls and layers.

use wythe_render::climate::heat_document;
use wythe_render::tables::Document;

use crate::House;
use crate::grid::grid;
use crate::model::Section;

pub(super) fn section(house: &House<'_>, standing: &Document) -> Section {
    let mut out = Section::new("walls", "Walls and their layers");
    out.text(
        "R is of the layers in series. U has the still-air film inside and, above grade, the wind film outside; \
         fasteners are counted under Heat.",
    );
    for table in &standing.tables {
        match table.key {
            "outline" => out.grid(grid(table, "Outline", &[])),
            "walls" => {
                let columns = [
                    ("wall", ""),
                    ("length", ""),
                    ("inside", ""),
                    ("height", ""),
                    ("area", ""),
                    ("r_board", ""),
                    ("bare", ""),
                    ("r_bare", ""),
                    ("u", ""),
                ];
                out.grid(grid(table, "Walls", &columns));
            }
            "layers" if house.heat.is_none() => out.grid(grid(table, "Layers, from outside to inside", &[])),
            _ => {}
        }
    }
    if let Some(heat) = house.heat {
        let document = heat_document(std::slice::from_ref(heat), &house.show);
        if let Some(table) = document.tables.iter().find(|t| t.key == "layers") {
            let columns = [
                ("face", ""),
                ("layer", ""),
                ("product", ""),
                ("thickness", ""),
                ("r", ""),
                ("permeance", ""),
                ("source", ""),
            ];
            out.grid(grid(table, "Layers, from outside to inside", &columns));
        }
    }
    out
}
