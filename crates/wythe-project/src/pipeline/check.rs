//! Names, types and dimensions, level by level; the files of a level side by side.

use std::sync::Arc;

use rayon::prelude::*;
use rustc_hash::FxHashSet;
use wythe_sema::{Checked, Program, check_module};
use wythe_source::FileId;

use crate::guard::guarded;
use crate::pipeline::order::Order;

/// Checks the affected files in order. The program must hold them all, those to be checked without a result.
pub(crate) fn check(program: &mut Program, order: &Order, affected: &FxHashSet<FileId>) {
    for level in &order.levels {
        let due: Vec<FileId> = level.iter().copied().filter(|f| affected.contains(f)).collect();
        let one = |&file: &FileId| {
            let checked = guarded(file, || check_module(program, file))
                .unwrap_or_else(|fault| Checked { findings: vec![*fault], ..Checked::default() });
            (file, Arc::new(checked))
        };
        let results: Vec<_> =
            if due.len() == 1 { due.iter().map(one).collect() } else { due.par_iter().map(one).collect() };
        for (file, checked) in results {
            program.set_checked(file, checked);
        }
    }
}
