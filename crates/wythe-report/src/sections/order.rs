//! What it takes: takeoff by product, the order with its prices, and the cost by phase.

use wythe_render::tables::{By, order, takeoff};

use crate::House;
use crate::grid::{grid, pretty};
use crate::model::{Block, Section};
use crate::plot;

pub(super) fn section(house: &House<'_>) -> Section {
    let mut out = Section::new("takeoff", "Takeoff and order");
    let taken = takeoff(house.job, By::Product, &house.show);
    for remark in &taken.remarks {
        out.text(pretty(remark));
    }
    for table in taken.tables.iter().filter(|t| t.key == "products") {
        let columns = [
            ("product", ""),
            ("class", ""),
            ("elements", "parts"),
            ("net", ""),
            ("allowance", ""),
            ("gross", ""),
            ("order", ""),
            ("pack", ""),
            ("basis", ""),
        ];
        out.grid(grid(table, "Takeoff by product", &columns));
    }
    let document = order(house.job, house.bill, house.labor, &house.show);
    for remark in &document.remarks {
        out.text(pretty(remark));
    }
    if let Some(plot) = plot::cost_by_phase(house) {
        out.blocks.push(Block::Plots { plots: vec![plot] });
    }
    for table in &document.tables {
        match table.key {
            "order" => {
                let columns = [
                    ("product", ""),
                    ("packs", ""),
                    ("pack", ""),
                    ("needed", ""),
                    ("left", ""),
                    ("least", ""),
                    ("vendor", ""),
                    ("price", ""),
                    ("cost", ""),
                ];
                out.grid(grid(table, "Order", &columns));
            }
            "totals" => out.grid(grid(table, "Totals", &[])),
            _ => {}
        }
    }
    out
}
