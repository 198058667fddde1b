//! The houses a command of the bill is about, with the ledgers of their repository.

use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use jiff::civil::Date;
use uom::si::f64::Length;
use wythe_bill::{Job, Terms};
use wythe_eval::JudgedFoundation;
use wythe_findings::{Finding, Severity};
use wythe_model::Foundation;
use wythe_model::geometry::Basis;
use wythe_project::Sources as _;
use wythe_source::FileId;
use wythe_units::UnitSystem;

use crate::output::complain;
use crate::repository::{Opened, open};

use super::ledgers::Ledgers;

/// Which houses, and how they are counted.
#[derive(clap::Args, Debug, Clone)]
pub(crate) struct Houses {
    /// The name of a foundation, or a file or folder with foundations.
    #[arg(default_value = ".", value_name = "FOUNDATION|PATH")]
    pub target: String,
    /// Where a foundation named is looked for.
    #[arg(long, value_name = "FOLDER", default_value = ".")]
    pub repository: PathBuf,
    /// The rates to use, where the repository has several.
    #[arg(long, value_name = "NAME")]
    pub rates: Option<String>,
    /// The day on which prices are judged, over the manifest's.
    #[arg(long, value_name = "DATE")]
    pub today: Option<Date>,
    /// Take lengths as drawn, also where the walls were measured.
    #[arg(long)]
    pub as_drawn: bool,
    /// Cut strips of board only along the sheet: fewer joints, more sheets.
    #[arg(long)]
    pub along: bool,
    /// Let only factory edges meet at joints.
    #[arg(long)]
    pub factory_edges: bool,
}

impl Houses {
    /// The houses of a target, counted as usual.
    pub(crate) fn of(target: &str) -> Houses {
        Houses {
            target: target.to_owned(),
            repository: PathBuf::from("."),
            rates: None,
            today: None,
            as_drawn: false,
            along: false,
            factory_edges: false,
        }
    }
}

/// The houses with all that is known of their repository.
pub(crate) struct Plans {
    pub opened: Opened,
    pub judged: Vec<JudgedFoundation>,
    pub ledgers: Ledgers,
}

/// Opens the houses asked for; says why where there are none.
pub(crate) fn plans(houses: &Houses) -> io::Result<Option<Plans>> {
    let path = Path::new(&houses.target);
    let by_name = !path.exists();
    let place = if by_name { houses.repository.clone() } else { path.to_path_buf() };
    let Some(mut first) = open_one(place, houses)? else { return Ok(None) };
    let asked: Vec<FileId> = first.project.roots().collect();
    add_ledgers(&mut first);
    first.project.check_affected();
    let mut judged: Vec<JudgedFoundation> = Vec::new();
    for &file in &asked {
        let Some(judgement) = first.project.judgement(file) else { continue };
        let wanted = |j: &&JudgedFoundation| !by_name || j.foundation.name.as_str() == houses.target;
        judged.extend(judgement.foundations.iter().filter(wanted).cloned());
    }
    if judged.is_empty() {
        if by_name {
            complain(&format_args!("no foundation and no path is called `{}`", houses.target));
        } else {
            complain(&format_args!("{}: no foundation there that can be worked out", houses.target));
        }
        return Ok(None);
    }
    let ledgers = Ledgers::read(&first);
    Ok(Some(Plans { opened: first, judged, ledgers }))
}

/// Opens the one repository of a place, judged on the day asked for; says why where there is none, or several.
fn open_one(place: PathBuf, houses: &Houses) -> io::Result<Option<Opened>> {
    let (opened, reached) = open(&[place], Path::new(""))?;
    let mut opened = opened.into_iter();
    let Some(mut first) = opened.next().filter(|_| reached) else { return Ok(None) };
    if opened.next().is_some() {
        complain(&"more than one repository there; name one");
        return Ok(None);
    }
    if let Some(today) = houses.today {
        first.project.set_today(today);
    }
    Ok(Some(first))
}

/// The files of two revisions, where the houses of each stand in one file.
pub(crate) fn lead(before: &Plans, after: &Plans) -> Option<(FileId, FileId)> {
    let only = |plans: &Plans| {
        let first = plans.judged.first()?.def.file;
        plans.judged.iter().all(|j| j.def.file == first).then_some(first)
    };
    only(before).zip(only(after))
}

/// The ledgers of a repository, whether it has foundations or not; says why where there is none.
pub(crate) fn ledgers_of(houses: &Houses) -> io::Result<Option<Plans>> {
    let Some(mut first) = open_one(PathBuf::from(&houses.target), houses)? else { return Ok(None) };
    add_ledgers(&mut first);
    first.project.check_affected();
    let ledgers = Ledgers::read(&first);
    Ok(Some(Plans { opened: first, judged: Vec::new(), ledgers }))
}

/// Asks for the sources of the repository that declare prices, rates, logs, bids or products. A quick look at the text
/// tells which; what they really declare is read as everywhere.
fn add_ledgers(opened: &mut Opened) {
    for folder in opened.project.manifest().sources.clone() {
        for path in opened.disk.list(&folder).unwrap_or_default() {
            let declares = opened.disk.read(&path).is_ok_and(|bytes| {
                let text = String::from_utf8_lossy(&bytes);
                text.lines().any(|line| {
                    let line = line.strip_prefix("pub ").unwrap_or(line);
                    let ledger = ["prices ", "rates ", "log ", "product "].iter().any(|word| line.starts_with(word));
                    ledger || line.starts_with("let ") && line.contains("Bid(")
                })
            });
            if declares {
                opened.project.add(path);
            }
        }
    }
}

impl Plans {
    /// The buildings.
    pub(crate) fn foundations(&self) -> Vec<Arc<Foundation>> {
        self.judged.iter().map(|j| j.foundation.clone()).collect()
    }

    /// The terms: the rates' allowances, and what the command line says.
    pub(crate) fn terms(&self, houses: &Houses) -> Terms {
        let metric = self.opened.project.manifest().display.system == UnitSystem::Si;
        let mut terms = Terms { metric, ..Terms::default() };
        if let Some(crew) = self.ledgers.crew(houses.rates.as_deref()) {
            terms = terms.with_rates(crew);
        }
        terms.turn = !houses.along;
        terms.factory_joints = houses.factory_edges;
        if houses.as_drawn {
            terms.basis = Basis::Design;
        }
        if terms.least_piece < Length::default() {
            terms.least_piece = Length::default();
        }
        terms
    }

    /// The takeoff of the houses together.
    pub(crate) fn job(&self, houses: &Houses) -> Job {
        Job::of(&self.foundations(), &self.terms(houses))
    }

    /// A remark on what the check has found, since a takeoff of faulty plans is a takeoff of faults.
    pub(crate) fn remark(&self) -> Option<String> {
        let grave = |f: &&Finding| f.severity == Severity::Error;
        let count = self.judged.iter().flat_map(|j| &j.findings).filter(grave).count();
        match count {
            0 => None,
            1 => Some("`wythe check` finds 1 error in these plans; mend it before ordering.".into()),
            n => Some(format!("`wythe check` finds {n} errors in these plans; mend them before ordering.")),
        }
    }
}
