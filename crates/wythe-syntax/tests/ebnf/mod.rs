//! Reads the published grammar and answers two questions with it: does it take these tokens, and what
//! sentences does it hold? Neither knows anything of the parser.

mod generate;
mod read;
mod recognize;

pub use generate::Generator;
pub use read::Grammar;
pub use recognize::accepts;
