//! What is wrong, gravest first, and what is waived and why.

use wythe_findings::Finding;

use crate::model::{Block, Found, Grounds, Section};
use crate::words::{clean, flowing};
use crate::{House, Waived};

pub(super) fn section(house: &House<'_>) -> Section {
    let mut out = Section::new("findings", "Findings and waivers");
    let mut all: Vec<&Finding> = house.findings.iter().collect();
    all.sort_by_key(|f| std::cmp::Reverse(f.severity));
    if all.is_empty() {
        out.text("Nothing was found.");
    } else {
        out.blocks.push(Block::Found { found: all.iter().map(|f| found(house, f)).collect() });
    }
    if !house.waived.is_empty() {
        out.text("Waived: found, and accepted by somebody for a time.");
        out.blocks.push(Block::Found { found: house.waived.iter().map(|w| waived(house, w)).collect() });
    }
    if !house.lacking.is_empty() {
        out.text("What keeps something in this report from being worked out, or makes it doubtful:");
        out.blocks.push(Block::Found { found: house.lacking.iter().map(|f| found(house, f)).collect() });
    }
    out
}

fn found(house: &House<'_>, finding: &Finding) -> Found {
    let mut prose = Vec::new();
    let seen = flowing(&finding.primary.text);
    let said = finding.consequence_text();
    for (heading, text) in [
        ("Here", seen.as_str()),
        ("Why", finding.cause.as_deref().unwrap_or("")),
        ("On site", if said.starts_with("None") { "" } else { said }),
        ("Mend", finding.mend.as_deref().unwrap_or("")),
        ("Source", finding.source.as_deref().unwrap_or("")),
    ] {
        let text = flowing(text);
        if !text.is_empty() {
            prose.push((heading, text));
        }
    }
    Found {
        severity: finding.severity.word(),
        name: clean(&finding.name.to_string()),
        title: flowing(&finding.title),
        place: clean(&house.show.place(finding.primary.span)),
        link: (house.link)(finding.primary.span),
        prose,
        sketch: finding.sketch.as_ref().map(|s| clean(s)),
        waived: None,
    }
}

fn waived(house: &House<'_>, waived: &Waived<'_>) -> Found {
    let grounds = Grounds {
        because: flowing(waived.because),
        who: flowing(waived.who),
        until: waived.until.map_or(String::new(), |date| date.to_string()),
    };
    Found { waived: Some(grounds), ..found(house, waived.finding) }
}
