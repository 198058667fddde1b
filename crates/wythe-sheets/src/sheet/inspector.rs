//! The inspector sheet: each point of the code packs, whether and where it is met, and the figures it was decided by.

use wythe_eval::{RuleCase, RuleOutcome};

use super::page;
use crate::House;
use crate::page::{Block, Page, Size};
use crate::words::say;

/// The most figures said for one group of cases.
const MOST: usize = 4;

pub(super) fn inspector(house: &House<'_>) -> Page {
    let w = house.words;
    let mut out = page(house, say!(w, "inspector-title"), 4, Size::Normal);
    out.blocks.push(Block::Text(say!(w, "inspector-note")));
    let holds: Vec<String> = house
        .phases()
        .filter_map(|(name, phase)| {
            let hold = phase.hold.as_ref()?.to_string();
            Some(say!(w, "inspector-hold", hold = hold, visit = wythe_render::drawing::words::name(name)))
        })
        .collect();
    if !holds.is_empty() {
        out.blocks.push(Block::Heading(say!(w, "inspector-holds")));
        out.blocks.push(Block::Checks(holds));
    }
    out.blocks.push(Block::Heading(say!(w, "inspector-points")));
    // A point that finds nothing to look at in this house asks nothing of it.
    let asked: Vec<&RuleOutcome> = house.rules.iter().filter(|r| !r.cases.is_empty()).collect();
    let mut rows: Vec<Vec<String>> = asked.iter().map(|rule| row(house, rule)).collect();
    let mut heads = vec![say!(w, "inspector-point"), say!(w, "inspector-met"), say!(w, "inspector-evidence")];
    if rows.iter().all(|row| row.last().is_none_or(String::is_empty)) {
        rows.iter_mut().chain([&mut heads]).for_each(|row| row.truncate(2));
    }
    if rows.is_empty() {
        out.blocks.push(Block::Text(say!(w, "inspector-none")));
    } else {
        out.blocks.push(Block::Table(heads, rows));
    }
    let idle = house.rules.len() - asked.len();
    if idle > 0 {
        out.blocks.push(Block::Text(say!(w, "inspector-idle", count = idle)));
    }
    out.blocks.push(Block::SignOff(vec![say!(w, "sign-inspector"), say!(w, "sign-date"), say!(w, "sign-permit")]));
    out
}

fn row(house: &House<'_>, rule: &RuleOutcome) -> Vec<String> {
    let w = house.words;
    let point = if rule.source.is_empty() { rule.title.clone() } else { format!("{} ({})", rule.title, rule.source) };
    let items = |holds: Option<bool>| {
        let all: Vec<&str> = rule.cases.iter().filter(|c| c.holds == holds).map(|c| c.item.as_str()).collect();
        all
    };
    let (met, open, unknown) = (items(Some(true)), items(Some(false)), items(None));
    let mut says = Vec::new();
    if !open.is_empty() {
        says.push(say!(w, "inspector-not-met", items = short(house, &open)));
    }
    if !unknown.is_empty() {
        says.push(say!(w, "inspector-unknown", items = short(house, &unknown)));
    }
    if !met.is_empty() {
        says.push(if open.is_empty() && unknown.is_empty() && met.len() > 1 {
            say!(w, "inspector-met-all", count = met.len(), items = short(house, &met))
        } else {
            say!(w, "inspector-met-at", items = short(house, &met))
        });
    }
    vec![point, says.join(" "), evidence(&rule.cases)]
}

/// Names, the first few of many.
fn short(house: &House<'_>, items: &[&str]) -> String {
    const FEW: usize = 8;
    let whole = |i: &&str| if i.is_empty() { say!(house.words, "inspector-house") } else { i.replace('_', " ") };
    let first: Vec<String> = items.iter().take(FEW).map(whole).collect();
    let first = first.join(", ");
    if items.len() > FEW { say!(house.words, "and-more", first = first, count = items.len() - FEW) } else { first }
}

/// The figures the cases were decided by, each once.
fn evidence(cases: &[RuleCase]) -> String {
    let mut said: Vec<String> = Vec::new();
    for one in cases.iter().flat_map(|c| &c.evidence) {
        // A plain question that is answered yes says enough by itself.
        let one = if one.found == "yes" { one.asked.clone() } else { format!("{}: {}", one.asked, one.found) };
        if !said.contains(&one) {
            said.push(one);
        }
    }
    let more = said.len() > MOST;
    said.truncate(MOST);
    said.join("; ") + if more { "; …" } else { "" }
}
