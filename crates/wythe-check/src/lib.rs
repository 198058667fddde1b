//! Layer order, control lines, sequence and geometry: findings about the building.
