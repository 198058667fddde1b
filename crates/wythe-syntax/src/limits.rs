//! The limits of a file, the same on the command line and in an editor. Going past one is a finding.

/// The largest file read, in bytes: 8 MiB.
pub const MAX_FILE_BYTES: usize = 8 * 1024 * 1024;

/// How deep brackets, braces and `if` may stand in one another.
pub const MAX_NESTING: usize = 64;

/// How many operations may hang on one another in an expression, so that later passes may recur over it.
pub const MAX_EXPR_DEPTH: u32 = 256;

/// How many findings are kept of one file; what comes after is counted in a last one.
pub const MAX_FINDINGS: usize = 1000;
