//! Dimensions, units and exact quantities, in US and SI notation.
