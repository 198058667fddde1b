//! The sections of a report, in the order people read them: what it comes to, what is wrong, what it looks like, what
//! it does, what it takes, what must be seen, and what all of it rests on.

mod assumptions;
mod cautions;
mod cutting;
mod drawings;
mod findings;
mod heat;
mod inspection;
mod moisture;
mod order;
mod schedule;
mod summary;
mod walls;

use wythe_render::tables::results;
use wythe_units::UnitSystem;

use crate::House;
use crate::model::{Fact, Report};
use crate::words::{clean, spoken};

pub use summary::{Key, key_figures};

/// The report on a house.
pub fn report(house: &House<'_>) -> Report {
    let standing = results(house.foundation, &house.standing, house.films, &house.show);
    let sections = vec![
        summary::section(house),
        findings::section(house),
        drawings::section(house),
        walls::section(house, &standing),
        heat::section(house),
        moisture::section(house),
        order::section(house),
        cutting::section(house),
        schedule::section(house),
        inspection::section(house, &standing),
        assumptions::section(house),
        cautions::section(house),
    ];
    Report {
        house: clean(house.foundation.name.as_str()),
        facts: facts(house),
        made_by: format!("Wythe {}", house.version),
        sections: sections.into_iter().filter(|s| !s.blocks.is_empty()).collect(),
    }
}

fn facts(house: &House<'_>) -> Vec<Fact> {
    let f = house.foundation;
    let mut out = vec![Fact::new("Site", clean(f.site.name.as_str()))];
    if let Some(zone) = f.site.climate_zone {
        out.push(Fact::new("Climate zone", spoken(zone.as_str()).replacen("zone ", "", 1).to_uppercase()));
    }
    let space = match f.space {
        wythe_model::SpaceKind::Closed => "closed",
        wythe_model::SpaceKind::Vented => "vented",
    };
    out.push(Fact::new("Space", space));
    out.push(Fact::new("Measured", format!("on the {} of the masonry", f.measured.word())));
    let units = if house.show.display.system == UnitSystem::Us { "feet and inches" } else { "metric" };
    out.push(Fact::new("Units", units));
    if let Some(today) = house.today {
        out.push(Fact::new("Judged on", today.to_string()));
    }
    let place = house.show.place(f.origin);
    out.push(Fact::new("Source", clean(&place)));
    out
}
