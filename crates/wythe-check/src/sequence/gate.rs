//! The gate before closing: may this space be closed at all? Flood, combustion, radon, standing water.

use wythe_findings::{Finding, codes};
use wythe_model::{Foundation, OpeningKind, SpaceKind};

use crate::place;

pub(super) fn check(f: &Foundation, out: &mut Vec<Finding>) {
    if f.space != SpaceKind::Closed {
        return;
    }
    flood(f, out);
    if f.conditioning.natural_draft {
        out.push(
            of(
                f,
                "conditioning",
                Finding::new(
                    codes::NATURAL_DRAFT_IN_CLOSED_SPACE,
                    f.conditioning.origin.unwrap_or(f.origin),
                    format!("an appliance in `{}` draws its combustion air from a space to be closed", f.name),
                ),
            )
            .label("closing takes its air away")
            .mend("direct vent or sealed combustion, or leave the space open; a licensed trade decides"),
        );
    }
    if f.site.radon && !f.conditioning.radon_pipe {
        out.push(
            of(f, "site", Finding::new(codes::RADON_NOTED, f.site.origin, "radon is to be expected on this site"))
                .label(format!("`{}` says so", f.site.name))
                .mend("rough in a vent pipe from under the liner, and measure after closing"),
        );
    }
    if f.site.old_materials {
        out.push(
            of(
                f,
                "site",
                Finding::new(
                    codes::OLD_MATERIALS_NOTED,
                    f.site.origin,
                    "hazardous old materials are to be expected here",
                ),
            )
            .label(format!("`{}` says so", f.site.name))
            .mend("have them looked for and dealt with by those who may, before anything is moved or closed in"),
        );
    }
    water(f, out);
}

fn flood(f: &Foundation, out: &mut Vec<Finding>) {
    let flood: Vec<_> = f.openings.iter().filter(|o| o.kind == OpeningKind::Flood).collect();
    if !f.site.flood_hazard && flood.is_empty() {
        return;
    }
    let mut finding = of(
        f,
        "site",
        Finding::new(
            codes::CLOSED_IN_FLOOD_ZONE,
            f.site.origin,
            format!("`{}` is to be closed in a flood hazard area", f.name),
        ),
    )
    .mend("a space with flood openings cannot be closed: ask the code official before going on");
    if f.site.flood_hazard {
        finding = finding.label(format!("`{}` lies in a flood hazard area", f.site.name));
    } else if let Some(first) = flood.first() {
        let names: Vec<_> = flood.iter().map(|o| o.name).collect();
        finding.primary.span = first.origin;
        finding = finding.label(format!("flood openings: {}", place::list(&names)));
    }
    if f.site.flood_hazard
        && let Some(first) = flood.first()
    {
        finding = finding.related(first.origin, "an opening for flood water in a closed space");
    }
    out.push(finding);
}

fn water(f: &Foundation, out: &mut Vec<Finding>) {
    if f.ground.drain_outlet {
        return;
    }
    let high = f.site.water_table.filter(|w| matches!(w.as_str(), "high" | "shallow" | "seasonal" | "perched"));
    if let Some(table) = high {
        out.push(
            of(
                f,
                "ground",
                Finding::new(
                    codes::STANDING_WATER,
                    f.ground.origin,
                    format!("ground water is {table}, and no outlet or sump is named"),
                ),
            )
            .label("nothing takes water away from the low point")
            .related(f.site.origin, format!("water table: {table}"))
            .mend("name an outlet or a sump: `outlet: true` in `ground`"),
        );
    }
}

fn of(f: &Foundation, part: &str, finding: Finding) -> Finding {
    finding.item(format!("{}.{part}", f.name))
}
