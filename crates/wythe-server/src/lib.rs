//! The language server: a thin translation of wythe-ide to the protocol.
