//! `wythe sheet`

use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use clap::ValueEnum;
use wythe_sheets::{Sheet, html, sheet, text};

use super::asked::{Asked, known};
use crate::exit::Exit;
use crate::output::{complain, out};
use crate::replace::put;

/// Make a sheet for someone to hold: crew, order, inspector, before a pour, before covering, owner, access door.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe sheet crew unit_4\n  wythe sheet crew unit_4 --language es --output crew_es.html\n  wythe sheet before-pour houses/unit_4.wythe --format text"
)]
pub(crate) struct SheetOf {
    /// Which sheet.
    #[arg(value_enum, value_name = "SHEET")]
    pub which: Which,
    #[command(flatten)]
    pub asked: Asked,
    /// A crew sheet for one visit only, in larger type.
    #[arg(long, value_name = "VISIT")]
    pub visit: Option<String>,
    /// The form: a file to print, or plain text on standard output.
    #[arg(long, value_enum, default_value_t)]
    pub format: SheetFormat,
    /// The file to write; `-` is standard output. Without it, the file is named by house, sheet and language.
    #[arg(long, short, value_name = "FILE")]
    pub output: Option<PathBuf>,
}

/// A sheet.
#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Which {
    /// What the crew does: two pages, large type, one wall a row.
    Crew,
    /// What must be on site for each visit, with a box for what has come.
    Order,
    /// Each point of the code packs, where it is met, and by which figures.
    Inspector,
    /// What to look at before concrete is poured.
    BeforePour,
    /// What to look at before work is covered.
    BeforeCover,
    /// What the owner keeps.
    Handover,
    /// The label at the access door.
    Label,
}

/// The form of a sheet.
#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) enum SheetFormat {
    /// A file that prints on Letter and A4.
    #[default]
    Html,
    /// Plain text.
    Text,
}

pub(crate) fn run(args: &SheetOf) -> io::Result<Exit> {
    let Some(mut known) = known(&args.asked)? else { return Ok(Exit::Unusable) };
    if args.which == Which::Inspector {
        known.gather_evidence();
    }
    let which = match args.which {
        Which::Crew => Sheet::Crew,
        Which::Order => Sheet::Order,
        Which::Inspector => Sheet::Inspector,
        Which::BeforePour => Sheet::BeforePour,
        Which::BeforeCover => Sheet::BeforeCover,
        Which::Handover => Sheet::Handover,
        Which::Label => Sheet::Label,
    };
    let mut house = known.house();
    if let Some(asked) = &args.visit {
        let named = |p: &std::sync::Arc<wythe_model::Phase>| p.name.filter(|n| n.as_str() == asked);
        house.visit = house.f().phases.iter().find_map(named);
        if house.visit.is_none() {
            let known: Vec<&str> = house.f().phases.iter().filter_map(|p| p.name.map(|n| n.as_str())).collect();
            complain(&format_args!("this house has no visit `{asked}`; there are {}", known.join(", ")));
            return Ok(Exit::Unusable);
        }
    }
    let page = sheet(which, &house);
    let written = match args.format {
        SheetFormat::Html => html(&page),
        SheetFormat::Text => text(&page),
    };
    let mut out = out();
    let named = || {
        let name = which.name().replace('-', "_");
        PathBuf::from(format!("{}_{name}_{}.html", house.f().name, page.language.tag()))
    };
    let path = match (&args.output, args.format) {
        (Some(path), _) => Some(path.clone()),
        (None, SheetFormat::Html) => Some(named()),
        (None, SheetFormat::Text) => None,
    };
    match path.filter(|p| p != Path::new("-")) {
        None => out.write_all(written.as_bytes())?,
        Some(path) => {
            if let Err(error) = put(&path, written) {
                complain(&format_args!("{}: not written: {error}", path.display()));
                return Ok(Exit::Unusable);
            }
            writeln!(out, "{}", path.display())?;
        }
    }
    out.flush()?;
    Ok(Exit::Clean)
}
