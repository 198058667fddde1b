//! The order in which the clauses of a layer are printed. Which verb takes which is a question of meaning.

use crate::ast::ClauseKind;

/// The clauses of all verbs, in the order of printing.
pub const CLAUSES: [&str; 10] = ["as", "from", "along", "over", "under", "into", "with", "every", "by", "bead"];

/// Where a clause stands in the order of printing.
pub const fn print_rank(clause: &ClauseKind) -> usize {
    match clause {
        ClauseKind::As(_) => 0,
        ClauseKind::Extent { .. } => 1,
        ClauseKind::Along(_) => 2,
        ClauseKind::Over(_) => 3,
        ClauseKind::Under(_) => 4,
        ClauseKind::Into(_) => 5,
        ClauseKind::With(_) => 6,
        ClauseKind::Every(_) => 7,
        ClauseKind::By(_) => 8,
        ClauseKind::Bead(_) => 9,
    }
}
