//! What the owner keeps, and the label at the access door.

use uom::si::area::{square_foot, square_meter};
use wythe_model::{Class, MeasuredFace, OpeningKind, Product};
use wythe_render::drawing::words as plain;
use wythe_units::{DisplayOptions, Quantity, UnitSystem, format_quantity};

use super::page;
use crate::House;
use crate::page::{Block, Page, Size};
use crate::words::say;

pub(super) fn handover(house: &House<'_>) -> Page {
    let (w, f, telling) = (house.words, house.f(), house.telling());
    let mut out = page(house, say!(w, "owner-title"), 2, Size::Large);
    out.blocks.push(Block::Text(say!(w, "owner-what")));
    out.blocks.push(Block::Heading(say!(w, "owner-do")));
    let mut keep = vec![
        say!(w, "owner-vents"),
        say!(w, "owner-door"),
        say!(w, "owner-cut"),
        say!(w, "owner-store"),
        say!(w, "owner-humidity"),
    ];
    let c = &f.conditioning;
    keep.extend(c.dehumidifier.map(|_| say!(w, "owner-dehumidifier")));
    keep.extend(c.supply_air.map(|_| say!(w, "owner-supply")));
    keep.extend(c.humidity_sensor.then(|| say!(w, "owner-sensor")));
    keep.extend(f.ground.drain_outlet.then(|| say!(w, "owner-outlet")));
    if let Some(band) = bare(house) {
        keep.push(say!(w, "owner-termite", band = band));
    }
    keep.push(say!(w, "owner-gutters"));
    keep.push(say!(w, "owner-first-year"));
    out.blocks.push(Block::Checks(keep));
    out.blocks.push(Block::Heading(say!(w, "owner-call")));
    let mut call = vec![say!(w, "owner-water"), say!(w, "owner-smell"), say!(w, "owner-appliance")];
    call.push(if f.site.radon { say!(w, "owner-radon-here") } else { say!(w, "owner-radon") });
    out.blocks.push(Block::Warning(call));
    out.blocks.push(Block::Heading(say!(w, "owner-built")));
    let area = house.plan().area(MeasuredFace::Inside);
    let area = match house.system {
        UnitSystem::Us => format!("{:.0} ft²", area.get::<square_foot>()),
        UnitSystem::Si => format!("{:.1} m²", area.get::<square_meter>()),
    };
    let doors: Vec<_> = f.openings.iter().filter(|o| o.kind == OpeningKind::Access).map(|o| o.name).collect();
    let mut facts = vec![(say!(w, "owner-area"), area)];
    if !doors.is_empty() {
        let walls: Vec<String> = f
            .openings
            .iter()
            .filter(|o| o.kind == OpeningKind::Access)
            .filter_map(|o| f.walls.get(o.wall?))
            .map(|x| plain::name(x.name))
            .collect();
        facts.push((say!(w, "owner-access"), say!(w, "owner-access-in", wall = walls.join(", "))));
    }
    // What stays in the house and someone may want to buy again; fasteners, tapes and sealants go by these.
    let kept = |p: &Product| {
        !p.sacrificial
            && matches!(p.class, Class::Board | Class::Membrane | Class::Coating | Class::Equipment | Class::Drain)
    };
    for product in house.job.order.iter().map(|item| &item.product).filter(|p| kept(p)) {
        let thick = product.thickness.map(|t| plain::thickness(t, house.system));
        let r =
            product.layer_resistance().filter(|_| product.class == Class::Board || product.class == Class::Equipment);
        let r =
            r.and_then(|r| Quantity::try_from(r).ok()).map(|q| format_quantity(q, &DisplayOptions::new(house.system)));
        let parts: Vec<String> = [thick, r].into_iter().flatten().collect();
        facts.push((telling.product(product), parts.join(", ")));
    }
    out.blocks.push(Block::Facts(facts));
    out.blocks.push(Block::SignOff(vec![say!(w, "sign-builder"), say!(w, "sign-owner"), say!(w, "sign-date")]));
    out
}

/// The widest bare strip of wall, kept to look for termites.
fn bare(house: &House<'_>) -> Option<String> {
    let bands =
        (0..house.f().walls.len()).filter_map(|i| crate::ask::board_of(house, i)).map(|(_, high, l)| l.top - high);
    let widest = bands.reduce(wythe_model::Length::max)?;
    (widest > wythe_model::geometry::hair()).then(|| house.telling().span(widest))
}

pub(super) fn label(house: &House<'_>) -> Page {
    let (w, f) = (house.words, house.f());
    let mut out = page(house, say!(w, "label-title"), 1, Size::Label);
    out.blocks.push(Block::Text(say!(w, "label-what")));
    let mut keep = vec![
        say!(w, "label-door"),
        say!(w, "label-vents"),
        say!(w, "label-burn"),
        say!(w, "label-cut"),
        say!(w, "label-store"),
    ];
    if f.conditioning.supply_air.is_some() || f.conditioning.dehumidifier.is_some() || f.conditioning.exhaust.is_some()
    {
        keep.push(say!(w, "label-running"));
    }
    out.blocks.push(Block::Warning(keep));
    out.blocks.push(Block::Text(say!(w, "label-enter")));
    out.blocks.push(Block::SignOff(vec![say!(w, "sign-builder"), say!(w, "sign-date"), say!(w, "sign-phone")]));
    out.foot = String::new();
    out
}
