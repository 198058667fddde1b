//! Heat through walls, floors and ground. Start with [`series`], then [`wall`] and [`ground`].

pub mod combined;
pub mod fastener;
pub mod film;
pub mod ground;
pub mod section;
pub mod series;
pub mod surface;
pub mod wall;
