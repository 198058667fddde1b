//! `wythe change`

use std::io;

use jiff::civil::Date;
use wythe_bill::change::{Side, change};
use wythe_render::tables::change_order;

use super::edits::Edits;
use super::git;
use super::plans::{Houses, lead, plans};
use super::worked::{Worked, worked};
use super::written::{TableFormat, shower, write};
use crate::args::When;
use crate::exit::Exit;
use crate::output::complain;

/// Write a change order between two revisions: what is bought differently, price, days, why, and where to sign.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe change houses/unit_1.wythe houses/unit_4.wythe\n  wythe change houses/unit_4.wythe --git HEAD~1 --start 2026-03-02\n  wythe change unit_5 --as-built"
)]
pub(crate) struct ChangeOf {
    /// The revision before, and the one after; with --git or --as-built the one after alone.
    #[arg(value_name = "FOUNDATION|PATH", num_args = 1..=2, required = true)]
    pub targets: Vec<String>,
    /// Change from this revision of the repository's history.
    #[arg(long, value_name = "REVISION", conflicts_with = "as_built")]
    pub git: Option<String>,
    /// Change from the lengths drawn to those measured on site.
    #[arg(long)]
    pub as_built: bool,
    /// The number of the change order, for its title.
    #[arg(long, value_name = "NUMBER")]
    pub number: Option<u32>,
    /// The rates to use, where there are several.
    #[arg(long, value_name = "NAME")]
    pub rates: Option<String>,
    /// The price list to use, where there are several.
    #[arg(long, value_name = "NAME")]
    pub prices: Option<String>,
    /// Schedule both from this day, and say by how much the last day moves.
    #[arg(long, value_name = "DATE")]
    pub start: Option<Date>,
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: TableFormat,
}

pub(crate) fn run(args: &ChangeOf, color: When) -> io::Result<Exit> {
    let houses = |target: &str, as_drawn| Houses { rates: args.rates.clone(), as_drawn, ..Houses::of(target) };
    let mut kept = None;
    let (old, new, about) = match (&args.git, args.as_built, args.targets.as_slice()) {
        (None, true, [one]) => (houses(one, true), houses(one, false), format!("{one}, as built")),
        (Some(revision), false, [one]) => {
            let Some((folder, old)) = git::checkout_or_say(std::path::Path::new(one), revision) else {
                return Ok(Exit::Unusable);
            };
            kept = Some(folder);
            (houses(&old.to_string_lossy(), false), houses(one, false), format!("{one} since {revision}"))
        }
        (None, false, [old, new]) => (houses(old, false), houses(new, false), format!("{old} to {new}")),
        _ => {
            complain(&"name two foundations, files or folders, or one and --git REVISION or --as-built");
            return Ok(Exit::Unusable);
        }
    };
    let (Some(before), Some(after)) = (plans(&old)?, plans(&new)?) else { return Ok(Exit::Unusable) };
    let a = worked(&before, &old, args.prices.as_deref(), args.start);
    let b = worked(&after, &new, args.prices.as_deref(), args.start);
    let order = change(side(&a), side(&b));
    let because = if args.as_built {
        measured(&b)
    } else {
        Edits::between(&before.opened.project, &after.opened.project, lead(&before, &after))
            .new
            .all_lines(&after.opened.project)
    };
    let number = args.number.map_or(String::new(), |n| format!(" {n}"));
    let document = change_order(format!("Change order{number}: {about}"), &order, &because, &shower(&after.opened));
    drop(kept);
    // Places of the revision before may lie in files that the writer does not know.
    let known = args.git.is_none() && before.opened.project.roots().count() == after.opened.project.roots().count();
    let only_before = a.job.findings.iter().filter(|f| known && !b.job.findings.iter().any(|g| g.title == f.title));
    let findings: Vec<_> = only_before.chain(&b.job.findings).cloned().collect();
    write(&document, &findings, &after.opened, args.format, color)
}

fn side(worked: &Worked) -> Side<'_> {
    Side { job: &worked.job, bill: worked.bill.as_ref(), labor: &worked.labor, schedule: worked.schedule.as_ref() }
}

/// The walls that were measured, with both lengths in feet.
fn measured(worked: &Worked) -> Vec<String> {
    let walls = worked.job.houses.iter().flat_map(|f| f.walls.iter().map(move |w| (f, w)));
    let said = walls.filter_map(|(f, w)| {
        let built = w.as_built_length?;
        let feet = |l: uom::si::f64::Length| l.get::<uom::si::length::foot>();
        Some(format!("{}.{}: drawn {:.2} ft, built {:.2} ft", f.name, w.name, feet(w.length), feet(built)))
    });
    said.collect()
}
