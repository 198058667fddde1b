//! What to take care of, and what this report is not.

use wythe_model::{Class, SpaceKind};

use crate::House;
use crate::model::{Block, Section};

/// Cautions of the trade that hold on every such job (common practice, no source).
const ON_SITE: [&str; 5] = [
    "A crawl space is a low and confined space: test the air, keep a way out, never work in it alone.",
    "Cutting or drilling masonry raises silica dust: cut wet or with extraction, and wear a fitted mask.",
    "Powder-actuated tools are for trained hands only, with eyes and ears covered and nobody behind the wall.",
    "Keep trench edges sloped or shored, and spoil back from them.",
    "Keep cords and lamps out of standing water, and shut off power before working near wiring in a wet space.",
];

pub(super) fn section(house: &House<'_>) -> Section {
    let mut out = Section::new("cautions", "Cautions");
    let f = house.foundation;
    let mut items: Vec<String> = Vec::new();
    let worked = house.heat.map(|h| &h.cautions).into_iter().chain(house.moisture.map(|m| &m.cautions));
    for caution in worked.flatten() {
        if !items.iter().any(|i| i == caution) {
            items.push((*caution).to_owned());
        }
    }
    if items.is_empty() {
        items.push(
            "No structure is sized here, and no result replaces the local code, its official or a licensed practitioner."
                .to_owned(),
        );
    }
    let boards = f.assemblies.iter().flat_map(|a| &a.faces).flat_map(|face| &face.works);
    let foam = boards.filter_map(|w| w.product.as_ref()).any(|p| p.class == Class::Board);
    if foam && f.space == SpaceKind::Closed {
        items.push("Foam burns: keep flame and hot work from it, and cover it where the code asks.".to_owned());
    }
    items.extend(ON_SITE.map(str::to_owned));
    out.blocks.push(Block::List { items });
    out
}
