//! Terminal, drawing, report and data outputs.
