//! What comes before everything else: whether the space may be closed at all, and what work can hurt whom.

use wythe_findings::Severity;
use wythe_model::{Class, Foundation, Ignition};

use crate::House;
use crate::words::say;

/// What stands in the way, or must be cleared, before the space is closed; nothing where nothing does.
pub(crate) fn gate(house: &House<'_>) -> Vec<String> {
    let (w, f) = (house.words, house.f());
    let mut out = Vec::new();
    if f.site.flood_hazard {
        out.push(say!(w, "gate-flood"));
    }
    if f.conditioning.natural_draft {
        out.push(say!(w, "gate-draft"));
    }
    if f.site.radon {
        let piped = f.conditioning.radon_pipe;
        out.push(if piped { say!(w, "gate-radon-pipe") } else { say!(w, "gate-radon") });
    }
    let errors = house.findings.iter().filter(|x| x.severity == Severity::Error).count();
    if errors > 0 {
        out.push(say!(w, "gate-errors", count = errors));
    }
    out
}

/// Cautions for those who do the work, by what the work is.
pub(crate) fn cautions(house: &House<'_>) -> Vec<String> {
    let (w, f) = (house.words, house.f());
    let uses = |class: Class| products(f).any(|p| p.class == class);
    let mut out = vec![say!(w, "care-dig"), say!(w, "care-confined")];
    if uses(Class::Fastener) {
        out.push(say!(w, "care-fasten"));
    }
    if products(f).any(|p| p.class == Class::Board) {
        let exposed =
            products(f).filter(|p| p.class == Class::Board).all(|p| p.ignition == Some(Ignition::TestedExposed));
        out.push(if exposed { say!(w, "care-foam-tested") } else { say!(w, "care-foam") });
    }
    if uses(Class::Coating) || uses(Class::Sealant) {
        out.push(say!(w, "care-fumes"));
    }
    out.push(say!(w, "care-electric"));
    out.push(say!(w, "care-burn"));
    out
}

fn products(f: &Foundation) -> impl Iterator<Item = &wythe_model::Product> {
    let built = f.assemblies.iter().flat_map(|a| &a.faces).flat_map(|face| &face.works);
    built.chain(f.joints.iter().flat_map(|j| &j.face.works)).filter_map(|w| w.product.as_deref())
}
