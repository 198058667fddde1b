//! Editor features over plain types; knows no protocol.
