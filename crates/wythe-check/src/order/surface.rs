//! What a surface offers to tape and sealant, and what they hold on.

use wythe_model::{Class, Facing, Product};

/// What the face of a layer offers; `None` where nothing is known, which is never held against it.
pub(crate) fn face_of(product: &Product) -> Option<Facing> {
    product.facing.or(match product.class {
        Class::Masonry | Class::Concrete => Some(Facing::Masonry),
        Class::Lumber => Some(Facing::Wood),
        Class::Board => Some(Facing::Foam),
        _ => None,
    })
}

/// What the cut edge of a layer offers to a bead: of a board the foam, of anything else its face.
pub(crate) fn edge_of(product: &Product) -> Option<Facing> {
    if product.class == Class::Board { Some(Facing::Foam) } else { face_of(product) }
}

/// Whether a tape or sealant holds on a surface; `None` where either is unknown.
pub(crate) fn holds_on(product: &Product, surface: Option<Facing>) -> Option<bool> {
    if product.facing.is_none() && product.bonds.is_empty() {
        return None;
    }
    let surface = surface?;
    Some(product.facing == Some(surface) || product.bonds.contains(&surface))
}

/// What a tape or sealant holds on, in words.
pub(crate) fn grips(product: &Product) -> String {
    let mut names: Vec<&str> =
        product.facing.into_iter().chain(product.bonds.iter().copied()).map(Facing::name).collect();
    names.dedup();
    names.join(", ")
}
