//! Findings and the registry of their codes: one page a code feeds explain, docs, links and outputs.
