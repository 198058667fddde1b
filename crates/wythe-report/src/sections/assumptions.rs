//! What all of it rests on: what is assumed where the plans say nothing, and where the products' figures come from.

use wythe_assess::{Assumption, Assumptions};

use crate::House;
use crate::grid::pretty;
use crate::model::{Column, Grid, Section};
use crate::words::{clean, spoken};

fn columns(heads: &[&str]) -> Vec<Column> {
    heads.iter().map(|head| Column { head: (*head).to_owned(), right: false }).collect()
}

pub(super) fn section(house: &House<'_>) -> Section {
    let mut out = Section::new("assumptions", "Assumptions and their sources");
    let heat = house.heat.map(|h| &h.assumptions);
    let moisture = house.moisture.map(|m| &m.assumptions);
    let mut all: Vec<&Assumption> = Vec::new();
    for assumption in heat.into_iter().chain(moisture).flat_map(Assumptions::iter) {
        if !all.contains(&assumption) {
            all.push(assumption);
        }
    }
    let rows = all.iter().map(|a| vec![pretty(a.what), pretty(&a.value), pretty(a.source)]).collect();
    let title = "Assumed, where the plans say nothing".to_owned();
    out.grid(Grid { title, columns: columns(&["what", "value", "source"]), rows });
    let mut rows: Vec<Vec<String>> = Vec::new();
    for item in &house.job.order {
        let product = &item.product;
        let source = product.source.as_deref().unwrap_or("none stated");
        rows.push(vec![spoken(product.name.as_str()), clean(source)]);
    }
    let title = "Where the figures of the products come from".to_owned();
    out.grid(Grid { title, columns: columns(&["product", "source"]), rows });
    out
}
