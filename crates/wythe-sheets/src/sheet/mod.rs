//! The sheets, one file each.

mod before;
mod crew;
mod handover;
mod inspector;
mod order;

pub(crate) use order::count as order_count;

use crate::House;
use crate::page::{Block, Page, Size};
use crate::words::say;

/// A sheet someone holds.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum Sheet {
    /// What the crew does, one wall a row.
    Crew,
    /// What the yard sends, visit by visit.
    Order,
    /// What the inspector asks, and where it is met.
    Inspector,
    /// What to look at before concrete is poured.
    BeforePour,
    /// What to look at before work is covered.
    BeforeCover,
    /// What the owner keeps.
    Handover,
    /// What hangs at the access door.
    Label,
}

impl Sheet {
    /// All, in the order of a job.
    pub const ALL: [Sheet; 7] = [
        Sheet::BeforePour,
        Sheet::Order,
        Sheet::Crew,
        Sheet::BeforeCover,
        Sheet::Inspector,
        Sheet::Handover,
        Sheet::Label,
    ];

    /// Its name, as files and commands say it.
    pub const fn name(self) -> &'static str {
        match self {
            Sheet::Crew => "crew",
            Sheet::Order => "order",
            Sheet::Inspector => "inspector",
            Sheet::BeforePour => "before-pour",
            Sheet::BeforeCover => "before-cover",
            Sheet::Handover => "handover",
            Sheet::Label => "label",
        }
    }
}

/// A sheet of a house.
pub fn sheet(which: Sheet, house: &House<'_>) -> Page {
    match which {
        Sheet::Crew => crew::crew(house),
        Sheet::Order => order::order(house),
        Sheet::Inspector => inspector::inspector(house),
        Sheet::BeforePour => before::pour(house),
        Sheet::BeforeCover => before::cover(house),
        Sheet::Handover => handover::handover(house),
        Sheet::Label => handover::label(house),
    }
}

/// An empty page of a house, what stands in the way at its head.
fn page(house: &House<'_>, title: String, pages: usize, size: Size) -> Page {
    let mut blocks = Vec::new();
    let gate = crate::gate::gate(house);
    if !gate.is_empty() {
        blocks.push(Block::Warning(gate));
    }
    let name = wythe_render::drawing::words::name(house.f().name);
    let day = house.today.map_or_else(String::new, |d| format!(", {d}"));
    Page {
        language: house.words.language(),
        title,
        house: format!("{name}{day}"),
        pages,
        size,
        blocks,
        foot: say!(house.words, "foot"),
    }
}
