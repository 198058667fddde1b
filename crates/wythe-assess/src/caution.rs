//! What each result is not, printed with it.

use wythe_model::{Foundation, SpaceKind};

/// Cautions with the heat of a foundation.
pub fn heat_cautions(f: &Foundation) -> Vec<&'static str> {
    let mut out = vec![
        "No structure is sized here, and no result replaces the local code, its official or a licensed practitioner.",
        "Sideways heat between neighboring bands is left out of the averages; the section in two dimensions shows it.",
        "Steady means of a year for the ground: a cold week is colder than its share.",
    ];
    if f.space == SpaceKind::Closed {
        out.push(
            "Foam in a crawl space must be tested for exposure there or stand behind an ignition barrier, whatever it \
             does for heat.",
        );
    }
    out
}

/// Cautions with the moisture of a foundation.
pub fn moisture_cautions(f: &Foundation) -> Vec<&'static str> {
    let mut out = vec![
        "One well-mixed space: a cold corner may be wet where the mean is dry.",
        "No liquid water: rain through a wall, a plumbing leak, standing or rising water are not in these figures and \
         outweigh them all.",
        "The mold index is a screening figure by a published model of wood in the laboratory, whose form has been \
         doubted in print; it tells designs apart and predicts no single house. It stays off the crew's sheet.",
        "Close no space that has standing water, an appliance that draws its air from it, or a flood opening.",
        "Sizes of machines and flows are loads as worked out; the code's least and the maker's rating condition stand \
         beside them. Defer to the local code and its official.",
    ];
    if f.conditioning.natural_draft {
        out.push("An appliance that draws its combustion air from the space is recorded: do not close it.");
    }
    if f.site.flood_hazard {
        out.push(
            "The site lies in a flood hazard area: openings for flood water and a closed space exclude each other.",
        );
    }
    if f.site.radon {
        out.push("Radon is to be expected here: a sealed liner without a vent pipe may raise it in the house.");
    }
    out
}
