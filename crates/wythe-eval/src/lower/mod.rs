//! Blocks turned into the building.

mod assembly;
mod bid;
mod fields;
mod foundation;
mod joint;
mod log;
mod openings;
mod phase;
mod piers;
mod prices;
mod product;
mod rates;
mod site;
mod walls;
mod work;

pub use assembly::assembly;
pub use bid::bid;
pub(crate) use fields::typed;
pub use foundation::foundation;
pub(crate) use foundation::section;
pub use joint::joint;
pub use log::work_log;
pub use phase::phase;
pub use prices::price_sheet;
pub use product::product;
pub use rates::crew_rates;
pub use site::site;

/// The name of a member of an enumeration.
pub(crate) fn member_name(ev: &crate::Evaluator<'_>, value: &crate::Value) -> Option<wythe_source::Symbol> {
    fields::member(ev, value)
}

/// Where a part is declared, or the work that made it.
pub(crate) fn origin(element: &crate::Element) -> Option<wythe_source::Span> {
    use crate::Element as E;
    match element {
        E::Foundation(f) => Some(f.origin),
        E::Wall(f, i) => Some(f.walls.get(*i)?.origin),
        E::Opening(f, i) => Some(f.openings.get(*i)?.origin),
        E::Pier(f, i) => Some(f.piers.get(*i)?.origin),
        E::Pad(f, i) => Some(f.pads.get(*i)?.origin),
        E::Beam(f, i) => Some(f.beams.get(*i)?.origin),
        E::Corner(f, i) => Some(f.walls.get(*i)?.origin),
        E::Ground(f) => Some(f.ground.origin),
        E::Sill(f) => f.sill.origin.or(Some(f.origin)),
        E::Conditioning(f) => f.conditioning.origin.or(Some(f.origin)),
        E::Soil(site) => Some(site.origin),
        E::Surface(of, face) => crate::parts::face_of(of, *face).map(|f| f.origin).or_else(|| origin(of)),
        E::Layer(of, face, i) | E::Lap(of, face, i) | E::Tail(of, face, i) => {
            Some(crate::parts::face_of(of, *face)?.works.get(*i)?.origin)
        }
        E::Joint(f, i) => Some(f.joints.get(*i)?.origin),
    }
}
