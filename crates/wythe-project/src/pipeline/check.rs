//! Names, types and dimensions, level by level; the files of a level side by side.

use std::sync::Arc;

use rayon::prelude::*;
use wythe_sema::{Checked, Program, check_module};
use wythe_source::FileId;

use crate::guard::guarded;

/// Checks files level by level, lowest first. The program must hold them all without a result, and everything they use
/// with one.
pub(crate) fn check(program: &mut Program, levels: &[Vec<FileId>]) {
    for due in levels {
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
