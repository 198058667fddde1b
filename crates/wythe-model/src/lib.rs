//! The building: site, foundation, walls, piers, openings, ground, layers, joints, phases.
