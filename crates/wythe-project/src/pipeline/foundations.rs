//! What is found by working out the foundations of a file: the one place where the building itself is judged.

use std::sync::Arc;

use jiff::civil::Date;
use wythe_check::Requirements;
use wythe_eval::{Judgement, Setting, Shared, WeatherSource, judge as judge_file};
use wythe_sema::{DefId, Program};
use wythe_source::FileId;

/// Judges the foundations and tests of a file. The findings may stand in any file they lead through.
///
/// `packs` gives the code packs a file is held to; `waivers` are those of the whole repository; `weather` gives what
/// a site names.
pub(crate) fn judge(
    program: &Program,
    file: FileId,
    packs: &(dyn Fn(FileId) -> Vec<FileId> + Sync),
    waivers: &[DefId],
    today: Option<Date>,
    shared: Arc<Shared>,
    weather: WeatherSource<'_>,
) -> Judgement {
    let requirements = Requirements::default();
    let setting = Setting { packs, waivers, today, requirements: &requirements, evidence: false, shared, weather };
    judge_file(program, file, &setting)
}
