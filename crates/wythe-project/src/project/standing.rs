//! What the foundations of a file are judged from, held fast: a judgement can be made beside the project while the
//! project goes on changing.

use std::sync::Arc;

use jiff::civil::Date;
use rustc_hash::FxHashSet;
use wythe_assess::moisture::ServiceMemo;
use wythe_assess::weather::WeatherResult;
use wythe_check::Ask;
use wythe_eval::{Judgement, Setting, Shared, WeatherSource};
use wythe_model::ClimateFile;
use wythe_sema::{DefId, Program};
use wythe_source::{FileId, Span};
use wythe_syntax::ast::UseTarget;
use wythe_units::DisplayOptions;

use super::weather::WeatherShelf;
use crate::entry::FileTable;
use crate::guard::guarded;
use crate::overlay::Overlay;

/// A project as it stands, as far as a judgement looks at it.
#[derive(Clone)]
pub(super) struct Standing {
    pub(super) program: Arc<Program>,
    pub(super) files: Arc<FileTable>,
    pub(super) codes: Vec<Option<FileId>>,
    pub(super) waivers: Arc<[DefId]>,
    pub(super) today: Option<Date>,
    pub(super) asks: Vec<(Ask, Span)>,
    pub(super) sources: Overlay,
    pub(super) weather: WeatherShelf,
    pub(super) moisture: Arc<ServiceMemo>,
    pub(super) shared: Arc<Shared>,
}

impl Standing {
    /// Works out the foundations and tests of a file, and keeps what rules are decided by where it is told how to show
    /// it; of a breakdown, the finding that says so.
    pub(super) fn judged(&self, file: FileId, evidence: Option<&DisplayOptions>) -> Judgement {
        let read = |named: &ClimateFile| self.weather(named);
        let setting = Setting {
            packs: &|file| codes_for(&self.program, &self.codes, file),
            waivers: &self.waivers,
            today: self.today,
            asks: &self.asks,
            evidence,
            shared: self.shared.clone(),
            weather: WeatherSource { read: &read, memo: &self.moisture },
        };
        let judged = guarded(file, || wythe_eval::judge(&self.program, file, &setting));
        judged.unwrap_or_else(|fault| Judgement { findings: vec![*fault], ..Judgement::default() })
    }

    /// The weather a site names.
    fn weather(&self, named: &ClimateFile) -> WeatherResult {
        self.weather.read(named, self.files.get(named.origin.file), &self.sources)
    }
}

/// A judgement to be made beside the project, on any thread.
pub struct Task {
    pub(super) file: FileId,
    pub(super) ticket: u64,
    pub(super) standing: Arc<Standing>,
}

/// A judgement made beside the project, to be given back to it.
pub struct Judged {
    pub(super) file: FileId,
    pub(super) ticket: u64,
    pub(super) judgement: Judgement,
}

impl Task {
    /// Makes the judgement.
    pub fn run(self) -> Judged {
        Judged { file: self.file, ticket: self.ticket, judgement: self.standing.judged(self.file, None) }
    }
}

/// The code packs a file is held to: the manifest's, then those it uses, each after what it builds on.
pub(super) fn codes_for(program: &Program, codes: &[Option<FileId>], file: FileId) -> Vec<FileId> {
    let mut packs = Packs { program, found: Vec::new(), seen: FxHashSet::default() };
    codes.iter().flatten().for_each(|code| packs.take(*code));
    packs.used_by(file);
    packs.found
}

struct Packs<'p> {
    program: &'p Program,
    found: Vec<FileId>,
    seen: FxHashSet<FileId>,
}

impl Packs<'_> {
    fn take(&mut self, pack: FileId) {
        if self.seen.insert(pack) {
            self.used_by(pack);
            self.found.push(pack);
        }
    }

    fn used_by(&mut self, file: FileId) {
        let program = self.program;
        let Some(data) = program.module(file) else { return };
        for (line, target) in data.module.uses.iter().zip(&data.uses) {
            if let (UseTarget::Code(_), Some(pack)) = (&line.target, target) {
                self.take(*pack);
            }
        }
    }
}
