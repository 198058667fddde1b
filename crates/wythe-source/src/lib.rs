//! Source files, spans, interned names and line positions: what every other crate points with.
