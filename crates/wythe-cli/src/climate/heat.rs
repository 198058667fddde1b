//! `wythe heat`

use std::io;
use std::path::PathBuf;

use wythe_assess::heat::heat;
use wythe_findings::{Finding, FindingName, codes};
use wythe_render::climate::heat_document;

use super::{add, remark, weather};
use crate::args::When;
use crate::bill::plans::{Houses, plans};
use crate::bill::written::{TableFormat, shower, write};
use crate::exit::Exit;

/// Work out the heat of houses: walls by their bands, fasteners, the bare band's price, the ground, cold spots.
#[derive(clap::Args, Debug)]
#[command(after_help = "Examples:\n  wythe heat unit_4\n  wythe heat houses/unit_1.wythe --format json")]
pub(crate) struct Heat {
    /// The name of a foundation, or a file or folder with foundations.
    #[arg(default_value = ".", value_name = "FOUNDATION|PATH")]
    pub target: String,
    /// Where a foundation named is looked for.
    #[arg(long, value_name = "FOLDER", default_value = ".")]
    pub repository: PathBuf,
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: TableFormat,
}

pub(crate) fn run(args: &Heat, color: When) -> io::Result<Exit> {
    let houses = Houses { repository: args.repository.clone(), ..Houses::of(&args.target) };
    let Some(plans) = plans(&houses)? else { return Ok(Exit::Unusable) };
    let mut reports = Vec::new();
    let mut findings: Vec<Finding> = Vec::new();
    for f in plans.foundations() {
        let site = match weather(&plans, &f) {
            Ok(site) => Some(site),
            // Heat does without weather; only what is wrong with weather that is named is told.
            Err(finding) => {
                let none = finding.name == FindingName::Code(codes::WEATHER_MISSING);
                add(&mut findings, (!none).then_some(*finding));
                None
            }
        };
        let got = heat(&f, site.as_deref());
        add(&mut findings, got.findings);
        reports.extend(got.report);
    }
    let mut document = heat_document(&reports, &shower(&plans.opened));
    document.complete &= reports.len() == plans.judged.len();
    document.remarks.splice(0..0, remark(&plans));
    write(&document, &findings, &plans.opened, args.format, color)
}
