//! What is found by working out the foundations of a file: the one place where the building itself is judged.

use std::sync::Arc;

use jiff::civil::Date;
use wythe_check::Requirements;
use wythe_eval::{Judgement, Setting, Shared, judge as judge_file};
use wythe_sema::{DefId, Program};
use wythe_source::FileId;

/// Judges the foundations and tests of a file. The findings may stand in any file they lead through.
///
/// `packs` gives the code packs a file is held to; `waivers` are those of the whole repository.
pub(crate) fn judge(
    program: &Program,
    file: FileId,
    packs: &(dyn Fn(FileId) -> Vec<FileId> + Sync),
    waivers: &[DefId],
    today: Option<Date>,
    shared: Arc<Shared>,
) -> Judgement {
    let requirements = Requirements::default();
    judge_file(program, file, &Setting { packs, waivers, today, requirements: &requirements, evidence: false, shared })
}
