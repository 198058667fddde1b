//! The order list: what must be on site for each visit, in packs, with a box for what has come.

use wythe_bill::order::OrderItem;
use wythe_render::drawing::words as plain;
use wythe_source::Symbol;

use super::page;
use crate::House;
use crate::page::{Block, Page, Size};
use crate::words::say;

pub(super) fn order(house: &House<'_>) -> Page {
    let w = house.words;
    let mut out = page(house, say!(w, "order-title"), 2, Size::Large);
    out.blocks.push(Block::Text(say!(w, "order-note")));
    if !house.job.is_complete() {
        out.blocks.push(Block::Warning(vec![say!(w, "order-incomplete")]));
    }
    let heads = || vec![say!(w, "order-come"), say!(w, "order-count"), say!(w, "order-what"), say!(w, "order-size")];
    let mut named: Vec<Option<Symbol>> = house.phases().map(|(name, _)| Some(name)).collect();
    named.push(None);
    for phase in named {
        let items: Vec<&OrderItem> = house.job.order.iter().filter(|i| i.phases.first().copied() == phase).collect();
        if items.is_empty() {
            continue;
        }
        out.blocks.push(Block::Heading(match phase {
            Some(name) => say!(w, "order-for", visit = plain::name(name)),
            None => say!(w, "order-any"),
        }));
        let rows =
            items.iter().map(|item| vec!["☐".to_owned(), count(house, item), what(house, item), size(house, item)]);
        out.blocks.push(Block::Table(heads(), rows.collect()));
    }
    out.blocks.push(Block::SignOff(vec![say!(w, "sign-checked"), say!(w, "sign-date")]));
    out
}

/// How many packs: `2 packs of 100 pc`, `12 sheets`.
pub(crate) fn count(house: &House<'_>, item: &OrderItem) -> String {
    let unit = house.telling().unit(item.unit, if item.pack > 1 { item.pack } else { item.packs() });
    if item.pack > 1 {
        say!(house.words, "order-packs", packs = item.packs(), each = item.pack, unit = unit)
    } else {
        say!(house.words, "order-units", units = item.packs(), unit = unit)
    }
}

fn what(house: &House<'_>, item: &OrderItem) -> String {
    let also: Vec<String> = item.phases.iter().skip(1).map(|p| plain::name(*p)).collect();
    let name = house.telling().product(&item.product);
    if also.is_empty() { name } else { say!(house.words, "order-also", what = name, visits = also.join(", ")) }
}

fn size(house: &House<'_>, item: &OrderItem) -> String {
    let (telling, p) = (house.telling(), &item.product);
    let mut parts = Vec::new();
    parts.extend(p.thickness.map(|t| plain::thickness(t, house.system)));
    parts.extend(
        p.size
            .filter(|_| p.class != wythe_model::Class::Aggregate)
            .map(|(a, b)| format!("{} x {}", telling.length(a), telling.length(b))),
    );
    parts.extend(p.width.map(|x| telling.span(x)));
    parts.extend(p.diameter.map(|x| telling.span(x)));
    parts.extend(p.length.map(|x| telling.length(x)));
    parts.join(", ")
}
