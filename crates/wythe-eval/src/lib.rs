//! Evaluates declarations into values and the building model, with provenance.
