//! Checking in the order of what is looked at: what is open at once, the rest bit by bit, judgements on other threads.

use std::ops::ControlFlow;
use std::time::Instant;

use tower_lsp::lsp_types::Url;
use wythe_project::{FileReport, Judged, Task};
use wythe_source::FileId;

use super::State;
use crate::convert::{Places, diagnostics};
use crate::judges::Work;

/// Up to so many files that are due, a request waits for all of them: its answer is then that of a patient client.
/// With more, it is answered from the file asked about and what that builds on, and the client is told to ask again.
const FEW: usize = 32;

/// With more files than this due, the client is told how it goes.
const MANY: usize = 64;

/// What must be checked before a request is answered.
#[derive(Clone, Debug)]
pub(crate) enum Need {
    /// Nothing.
    Nothing,
    /// The names and types of what is open.
    Words,
    /// That, and the names of all files.
    Names,
    /// The names and types of all files.
    Types,
    /// A file with everything it builds on, judged.
    File(Url),
    /// Everything.
    All,
}

/// Whom to tell that a file is judged.
type Told = tokio::sync::oneshot::Sender<()>;

/// The work at hand, from the first file due to the last.
#[derive(Default)]
pub(super) struct Progress {
    /// When it began, and how many files were due at most.
    begun: Option<(Instant, usize)>,
    /// Whether the client has been told, and the share of the work it was told last.
    told: Option<u32>,
    /// Whether the end is told in the log.
    logged: bool,
    /// Who waits for a file to be judged.
    waiting: Vec<(usize, FileId, Told)>,
    /// Who waits for any judgement.
    waiting_for_next: Vec<Told>,
    /// Judgements handed out and not come back.
    under_way: usize,
    /// Whether something has come to light that the client must ask for again.
    ask_again: bool,
    /// Whether the rest is to be checked: not before the client has said that it is ready.
    rest: bool,
}

impl State {
    /// Checks what a request needs, and tells what is found on the way.
    pub(crate) fn settle(&mut self, need: &Need) {
        self.take_texts();
        match need {
            Need::Nothing => {}
            Need::Words => self.check_open(),
            Need::Names => {
                self.repositories.iter_mut().for_each(|r| r.project.read_all());
                self.check_open();
            }
            Need::Types => self.each(|project| project.check_names()),
            Need::All => self.each(|project| project.check_affected()),
            Need::File(url) => {
                let Some((number, file)) = self.file_number(url) else { return };
                let project = &mut self.repositories[number].project;
                let reports = project.check_for(file, FEW);
                self.progress.ask_again |= project.waiting() > 0;
                self.tell(number, reports);
            }
        }
    }

    /// Checks the names and types of what is open.
    pub(crate) fn check_open(&mut self) {
        self.take_texts();
        for number in 0..self.repositories.len() {
            if self.repositories[number].project.words_are_due() {
                let open = self.open_files(number);
                let reports = self.repositories[number].project.check_first(&open);
                self.tell(number, reports);
            }
        }
    }

    /// Whether files wait that are not open.
    pub(crate) fn has_more(&self) -> bool {
        self.progress.rest && self.repositories.iter().any(|r| r.project.words_are_due())
    }

    /// Checks a few more files.
    pub(crate) fn check_more(&mut self) {
        for number in 0..self.repositories.len() {
            let project = &mut self.repositories[number].project;
            if project.words_are_due() {
                let (ControlFlow::Continue(reports) | ControlFlow::Break(reports)) = project.check_more();
                self.tell(number, reports);
                return;
            }
        }
    }

    /// Hands out judgements, those of what is open first, and tells how far the work has come.
    pub(crate) fn hand_out(&mut self) {
        // Enough that no thread waits for the next, and few enough that what is typed next does not wait for old work.
        let most = 2 * self.judges.count;
        for number in 0..self.repositories.len() {
            let free = most.saturating_sub(self.progress.under_way);
            if free == 0 || self.repositories[number].project.is_judged() {
                continue;
            }
            let open = self.open_files(number);
            for task in self.repositories[number].project.tasks(&open, free) {
                self.hand_out_one(number, task);
            }
        }
        self.tell_waiting();
        self.tell_progress();
    }

    /// Tells once a file is judged.
    pub(crate) fn when_judged(&mut self, url: &Url, told: Told) {
        self.check_open();
        match self.file_number(url) {
            Some((number, file)) => self.progress.waiting.push((number, file, told)),
            None => drop(told.send(())),
        }
    }

    /// Tells once any file has been judged, or none is due.
    pub(crate) fn when_next_judged(&mut self, told: Told) {
        self.progress.waiting_for_next.push(told);
    }

    /// Whether any file waits to be read, checked or judged.
    pub(crate) fn is_at_work(&self) -> bool {
        self.repositories.iter().any(|repository| repository.project.waiting() > 0)
    }

    /// Tells those who wait for a file that has been judged.
    fn tell_waiting(&mut self) {
        let repositories = &self.repositories;
        let due = |(number, file, _): &mut (usize, FileId, Told)| {
            repositories.get(*number).is_none_or(|repository| !repository.project.is_due(*file))
        };
        for (_, _, told) in self.progress.waiting.extract_if(.., due) {
            // Whoever asked may have taken it back.
            let _ = told.send(());
        }
        if !self.is_at_work() {
            self.tell_next();
        }
    }

    fn tell_next(&mut self) {
        for told in self.progress.waiting_for_next.drain(..) {
            let _ = told.send(());
        }
    }

    /// Does work that needs nothing of the state on another thread.
    pub(crate) fn aside(&self, work: Work) {
        self.judges.hand(work);
    }

    fn hand_out_one(&mut self, number: usize, task: Task) {
        self.progress.under_way += 1;
        let queue = self.queue.clone();
        self.judges.hand(Box::new(move || {
            let judged = task.run();
            queue.tell(move |state| state.take(number, judged));
        }));
    }

    fn take(&mut self, number: usize, judged: Judged) {
        self.progress.under_way -= 1;
        // What was typed meanwhile is in the project before the judgement is: it may have made it idle.
        self.take_texts();
        let reports = self.repositories[number].project.take(judged);
        self.tell(number, reports);
        self.tell_next();
    }

    /// Everything known is checked from here on, with word to the client where that takes its time.
    pub(crate) fn check_the_rest(&mut self) {
        self.progress.rest = true;
        self.progress.logged = true;
        self.take_texts();
        self.tell_progress();
    }

    fn tell_progress(&mut self) {
        let waiting: usize = self.repositories.iter().map(|r| r.project.waiting()).sum();
        if waiting == 0 {
            self.tell_the_end();
            return;
        }
        let (_, most) = self.progress.begun.get_or_insert_with(|| (Instant::now(), 0));
        *most = waiting.max(*most);
        let most = *most;
        if !self.can.progress || !self.progress.rest || (most < MANY && !self.progress.logged) {
            return;
        }
        let share = (100 * (most - waiting) / most) as u32;
        match self.progress.told {
            None => self.publisher.begin("wythe/check", "Wythe: checking plans"),
            Some(before) if share > before => {
                self.publisher.report("wythe/check", share, format!("{} of {most} files", most - waiting));
            }
            Some(_) => return,
        }
        self.progress.told = Some(share);
    }

    fn tell_the_end(&mut self) {
        if self.progress.told.take().is_some() {
            self.publisher.end("wythe/check");
        }
        let begun = self.progress.begun.take();
        if std::mem::take(&mut self.progress.logged) {
            let files: usize = self.repositories.iter().map(|r| r.project.roots().count()).sum();
            let taken = begun.map_or(0, |(begun, _)| begun.elapsed().as_millis());
            self.publisher.log(format!("checked {files} files in {taken} ms"));
        }
        if std::mem::take(&mut self.progress.ask_again) && !self.pushes() && self.can.refresh_diagnostics {
            self.publisher.ask_again(true, false, false);
        }
    }

    fn each(&mut self, check: impl Fn(&mut wythe_project::Project) -> Vec<FileReport>) {
        for number in 0..self.repositories.len() {
            let reports = check(&mut self.repositories[number].project);
            self.tell(number, reports);
        }
    }

    /// Gives the projects the newest texts.
    fn take_texts(&mut self) {
        for open in self.open.values_mut().filter(|o| o.dirty) {
            open.dirty = false;
            if let Some(repository) = self.repositories.get_mut(open.repository) {
                repository.project.set_text(open.path.clone(), open.text.as_str());
            }
        }
    }

    fn open_files(&self, number: usize) -> Vec<FileId> {
        let project = &self.repositories[number].project;
        self.open.values().filter(|o| o.repository == number).filter_map(|o| project.find(&o.path)).collect()
    }

    /// Tells what is found in files whose findings differ.
    fn tell(&mut self, number: usize, reports: Vec<FileReport>) {
        if reports.is_empty() {
            return;
        }
        let repository = &self.repositories[number];
        if !self.pushes() {
            self.progress.ask_again |= reports.iter().any(|r| self.open_url(repository, r.file).is_none());
            return;
        }
        let places = Places::new(self, repository);
        for report in reports {
            let Some(url) = places.url(report.file) else { continue };
            let version = self.version(&url);
            self.publisher.findings(url, diagnostics::of(self, &places, &report.findings), version);
        }
    }
}
