//! The one house a sheet or an answer is about, with its takeoff and its log.

use std::io;

use clap::ValueEnum;
use jiff::civil::Date;
use wythe_bill::Job;
use wythe_bill::progress::Progress;
use wythe_eval::RuleOutcome;
use wythe_sheets::{House, Language, Words};

use crate::bill::plans::{Houses, Plans, plans};
use crate::output::complain;

/// Which house, in which language, by which log.
#[derive(clap::Args, Debug, Clone)]
pub(crate) struct Asked {
    /// The name of a foundation, or a file with one.
    #[arg(value_name = "FOUNDATION|PATH")]
    pub target: String,
    /// The language of the words; names and inspections stay as the plans have them.
    #[arg(long, value_enum, default_value_t, value_name = "LANGUAGE")]
    pub language: LanguageAsked,
    /// The log to use, where a house has several.
    #[arg(long, value_name = "NAME")]
    pub log: Option<String>,
    /// The day, over the manifest's.
    #[arg(long, value_name = "DATE")]
    pub today: Option<Date>,
}

/// A language.
#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) enum LanguageAsked {
    /// English.
    #[default]
    En,
    /// Spanish.
    Es,
}

/// A house with what was worked out for it.
pub(crate) struct Known {
    pub plans: Plans,
    pub houses: Houses,
    pub words: Words,
    job: Job,
    progress: Option<Progress>,
    rules: Vec<RuleOutcome>,
}

/// Opens the house asked for; says why where there is not exactly one.
pub(crate) fn known(asked: &Asked) -> io::Result<Option<Known>> {
    let houses = Houses { today: asked.today, ..Houses::of(&asked.target) };
    let Some(plans) = plans(&houses)? else { return Ok(None) };
    if plans.judged.len() != 1 {
        let names: Vec<&str> = plans.judged.iter().map(|j| j.foundation.name.as_str()).collect();
        complain(&format_args!("name one foundation: {}", names.join(", ")));
        return Ok(None);
    }
    let logs = plans.ledgers.logs.iter();
    let mine: Vec<_> = logs
        .filter(|l| asked.log.as_ref().is_none_or(|name| l.name.as_str() == name))
        .filter(|l| plans.judged[0].foundation.origin == l.foundation)
        .collect();
    if mine.len() > 1 || (mine.is_empty() && asked.log.is_some()) {
        let names: Vec<&str> = mine.iter().map(|l| l.name.as_str()).collect();
        complain(&match (&asked.log, names.is_empty()) {
            (Some(name), true) => format!("this house has no log `{name}`"),
            _ => format!("several logs: {}; --log NAME takes one", names.join(", ")),
        });
        return Ok(None);
    }
    let job = plans.job(&houses);
    let last = mine.iter().flat_map(|l| &l.entries).map(|e| e.date).max();
    let today = plans.opened.project.manifest().today.or(last);
    let progress = mine.first().zip(today).and_then(|(log, today)| Progress::of(&job, 0, log, today));
    let rules = plans.judged[0].rules.clone();
    let language = match asked.language {
        LanguageAsked::En => Language::English,
        LanguageAsked::Es => Language::Spanish,
    };
    Ok(Some(Known { plans, houses, words: Words::new(language), job, progress, rules }))
}

impl Known {
    /// Asks the rules anew and keeps what they are decided by.
    pub(crate) fn gather_evidence(&mut self) {
        let def = self.plans.judged[0].def;
        let again = self.plans.opened.project.judged_with_evidence(def.file);
        let mine = again.into_iter().flat_map(|j| j.foundations).find(|j| j.def == def);
        self.rules = mine.map_or_else(Vec::new, |j| j.rules);
    }

    /// The house as sheets and answers take it.
    pub(crate) fn house(&self) -> House<'_> {
        let judged = &self.plans.judged[0];
        let manifest = self.plans.opened.project.manifest();
        House {
            words: &self.words,
            system: manifest.display.system,
            job: &self.job,
            findings: &judged.findings,
            rules: &self.rules,
            progress: self.progress.as_ref(),
            today: manifest.today,
            visit: None,
        }
    }
}
