//! Modules, names, types and dimensions.
