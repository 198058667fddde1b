//! What must be seen before work goes on, with room to sign, and what the rules ask.

use wythe_bill::TakeoffLine;
use wythe_model::{Act, Phase};
use wythe_render::tables::Document;

use crate::House;
use crate::grid::grid;
use crate::model::{Block, Check, Section};
use crate::words::{flowing, listed, spoken};

pub(super) fn section(house: &House<'_>, standing: &Document) -> Section {
    let mut out = Section::new("inspection", "Inspection");
    let checks = checks(house);
    if !checks.is_empty() {
        out.text(
            "Look at each before it is covered. A bold line is a hold: work stops until it has been seen and signed.",
        );
        out.blocks.push(Block::Checks { checks });
    }
    if let Some(table) = standing.tables.iter().find(|t| t.key == "rules") {
        let mut asked = table.clone();
        // A rule that had no case here says nothing about this house.
        asked.rows.retain(|row| row.iter().skip(2).take(3).any(|c| c.shown() != "0"));
        let columns = [("asks", ""), ("holds", ""), ("broken", ""), ("unknown", ""), ("source", "")];
        out.grid(grid(&asked, "What the code packs and house rules ask, by case", &columns));
    }
    out
}

fn checks(house: &House<'_>) -> Vec<Check> {
    let mut out = Vec::new();
    for phase in &house.foundation.phases {
        let Some(name) = phase.name else { continue };
        let spoken_name = spoken(name.as_str());
        let lines: Vec<&TakeoffLine> = house.job.lines.iter().filter(|l| l.phase == Some(name)).collect();
        for what in work(&lines) {
            out.push(Check { phase: spoken_name.clone(), day: String::new(), hold: false, what });
        }
        if let Some(hold) = &phase.hold {
            out.push(Check { phase: spoken_name, day: day(house, phase), hold: true, what: flowing(hold) });
        }
    }
    out
}

/// The work of a phase, one line for each verb and product, with how many parts it is done on.
fn work(lines: &[&TakeoffLine]) -> Vec<String> {
    let mut out: Vec<(Act, String, Vec<&str>)> = Vec::new();
    for line in lines.iter().filter(|l| l.act != Act::Remove) {
        let what = line.product.as_ref().map_or(line.layer.as_str(), |p| p.name.as_str());
        let what = spoken(what);
        let element = line.element.as_str();
        match out.iter_mut().find(|(act, product, _)| *act == line.act && *product == what) {
            Some((_, _, on)) if on.contains(&element) => {}
            Some((_, _, on)) => on.push(element),
            None => out.push((line.act, what, vec![element])),
        }
    }
    out.into_iter()
        .map(|(act, what, on)| {
            let parts = match on.len() {
                0..=6 => listed(&on.iter().map(|part| spoken(part)).collect::<Vec<_>>()),
                n => format!("{n} parts"),
            };
            format!("{} {what}: {parts}", act.word())
        })
        .collect()
}

/// The day on which a phase is looked at.
fn day(house: &House<'_>, phase: &Phase) -> String {
    let Some((schedule, _)) = house.schedule else { return String::new() };
    let of_phase =
        schedule.activities.iter().filter(|s| Some(s.activity.phase.as_str()) == phase.name.map(|n| n.as_str()));
    of_phase.filter_map(|s| s.inspected).next().map_or(String::new(), |day| day.to_string())
}
