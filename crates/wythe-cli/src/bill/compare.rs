//! `wythe compare`

use std::io;
use std::path::Path;

use jiff::civil::Date;
use wythe_bill::compare::{Figure, Revision, Subject, differences};
use wythe_eval::films;
use wythe_render::tables::{Document, comparison};
use wythe_takeoff::compare::Change;

use super::edits::Edits;
use super::git;
use super::plans::{Houses, Plans, lead, plans};
use super::worked::{Worked, worked};
use super::written::{TableFormat, shower, write};
use crate::args::When;
use crate::exit::Exit;
use crate::output::complain;

/// Lay two revisions side by side: quantities, order, cost, walls, findings and schedule, each change with its line.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe compare houses/unit_1.wythe houses/unit_4.wythe\n  wythe compare houses --git HEAD~1 --format markdown"
)]
pub(crate) struct Compare {
    /// The revision before, and the one after; with --git the one after alone.
    #[arg(value_name = "PATH", num_args = 0..=2)]
    pub paths: Vec<String>,
    /// Compare with this revision of the repository's history.
    #[arg(long, value_name = "REVISION")]
    pub git: Option<String>,
    /// The rates to use, where there are several.
    #[arg(long, value_name = "NAME")]
    pub rates: Option<String>,
    /// The price list to use, where there are several.
    #[arg(long, value_name = "NAME")]
    pub prices: Option<String>,
    /// Compare schedules that start on this day too.
    #[arg(long, value_name = "DATE")]
    pub start: Option<Date>,
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: TableFormat,
}

pub(crate) fn run(args: &Compare, color: When) -> io::Result<Exit> {
    let houses = |target: &str| Houses { rates: args.rates.clone(), ..Houses::of(target) };
    // The files of a git revision stand in a folder of their own for as long as they are looked at.
    let mut kept = None;
    let (old, new, title) = match (&args.git, args.paths.as_slice()) {
        (Some(revision), [] | [_]) => {
            let target = args.paths.first().map_or(".", String::as_str);
            let Some((folder, old)) = git::checkout_or_say(Path::new(target), revision) else {
                return Ok(Exit::Unusable);
            };
            kept = Some(folder);
            (old.to_string_lossy().into_owned(), target.to_owned(), format!("{target} since {revision}"))
        }
        (None, [old, new]) => (old.clone(), new.clone(), format!("{old} and {new}")),
        _ => {
            complain(&"name two files or folders, or one and --git REVISION");
            return Ok(Exit::Unusable);
        }
    };
    let (old_houses, new_houses) = (houses(&old), houses(&new));
    let side = |houses| Side { houses, prices: args.prices.clone(), start: args.start };
    let title = format!("Comparison of {title}");
    let Some((document, after)) = side_by_side(&side(old_houses), &side(new_houses), title)? else {
        return Ok(Exit::Unusable);
    };
    drop(kept);
    write(&document, &[], &after.opened, args.format, color)
}

/// One side of a comparison.
pub(crate) struct Side {
    pub houses: Houses,
    pub prices: Option<String>,
    pub start: Option<Date>,
}

/// Two revisions side by side, with the later plans, by which it is shown. `None` where one of them has no houses.
pub(crate) fn side_by_side(old: &Side, new: &Side, title: String) -> io::Result<Option<(Document, Plans)>> {
    let (Some(before), Some(after)) = (plans(&old.houses)?, plans(&new.houses)?) else { return Ok(None) };
    let (a, b) = (
        worked(&before, &old.houses, old.prices.as_deref(), old.start),
        worked(&after, &new.houses, new.prices.as_deref(), new.start),
    );
    let changes = differences(&revision(&a), &revision(&b));
    let edits = Edits::between(&before.opened.project, &after.opened.project, lead(&before, &after));
    let mut document = comparison(title, &changes, &shower(&after.opened), |c| because(c, &edits, &before, &after));
    document.complete = a.job.is_complete() && b.job.is_complete();
    Ok(Some((document, after)))
}

fn revision(worked: &Worked) -> Revision<'_> {
    Revision {
        job: &worked.job,
        bill: worked.bill.as_ref(),
        labor: &worked.labor,
        schedule: worked.schedule.as_ref(),
        findings: &worked.findings,
        films: films(),
    }
}

/// The changed lines a difference comes from: of the new text where it has any, else of the old.
fn because(change: &Change<Subject, Figure>, edits: &Edits, before: &Plans, after: &Plans) -> Vec<String> {
    let (old, new) = match change {
        Change::Added { new, .. } => (None, Some(new)),
        Change::Removed { old, .. } => (Some(old), None),
        Change::Changed { old, new, .. } => (Some(old), Some(new)),
    };
    let lines = new.map_or(Vec::new(), |f| edits.new.lines_of(&f.causes, &after.opened.project));
    if !lines.is_empty() {
        return lines;
    }
    let gone = old.map_or(Vec::new(), |f| edits.old.lines_of(&f.causes, &before.opened.project));
    gone.into_iter().map(|line| format!("was {line}")).collect()
}
