//! `wythe export`

use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use clap::ValueEnum;
use wythe_bill::Job;
use wythe_eval::films;
use wythe_export::{IfcOptions, ifc, pdf, workbook};
use wythe_render::drawing::Theme;
use wythe_render::tables::{By, cut_list, takeoff};

use crate::bill::order::priced;
use crate::bill::plans::{Houses, Plans, plans};
use crate::bill::written::shower;
use crate::draw::drawings;
use crate::exit::Exit;
use crate::output::{complain, out};
use crate::replace::put;

/// Write files for other programs: a workbook (XLSX), a building model (IFC 4), drawings true to scale (PDF).
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe export xlsx unit_4\n  wythe export ifc unit_4 --output unit_4.ifc\n  wythe export pdf houses/unit_4.wythe --output unit_4.pdf"
)]
pub(crate) struct Export {
    /// What to write.
    #[arg(value_enum, value_name = "FORM")]
    pub form: ExportForm,
    #[command(flatten)]
    pub houses: Houses,
    /// The price list to use, where the repository has several.
    #[arg(long, value_name = "NAME")]
    pub prices: Option<String>,
    /// The file to write; `-` is standard output. Without it, the file is named by the house.
    #[arg(long, short, value_name = "FILE")]
    pub output: Option<PathBuf>,
}

/// A form of export.
#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum ExportForm {
    /// Takeoff, cut list and priced order as a workbook, for the estimator.
    Xlsx,
    /// Walls, piers, openings and layers with quantities, IFC 4, for the architect. One house.
    Ifc,
    /// Every drawing of a house true to scale, a page each. One house.
    Pdf,
}

impl ExportForm {
    const fn ending(self) -> &'static str {
        match self {
            ExportForm::Xlsx => "xlsx",
            ExportForm::Ifc => "ifc",
            ExportForm::Pdf => "pdf",
        }
    }
}

pub(crate) fn run(args: &Export) -> io::Result<Exit> {
    let Some(plans) = plans(&args.houses)? else { return Ok(Exit::Unusable) };
    let names: Vec<&str> = plans.judged.iter().map(|j| j.foundation.name.as_str()).collect();
    if args.form != ExportForm::Xlsx && names.len() != 1 {
        complain(&format_args!("name one foundation: {}", names.join(", ")));
        return Ok(Exit::Unusable);
    }
    let job = plans.job(&args.houses);
    let Some(bytes) = made(args, &plans, &job)? else { return Ok(Exit::Unusable) };
    let mut out = out();
    let named =
        || PathBuf::from(format!("{}.{}", if names.len() == 1 { names[0] } else { "houses" }, args.form.ending()));
    let path = args.output.clone().unwrap_or_else(named);
    if path == Path::new("-") {
        out.write_all(&bytes)?;
    } else if let Err(error) = put(&path, bytes) {
        complain(&format_args!("{}: not written: {error}", path.display()));
        return Ok(Exit::Unusable);
    } else {
        writeln!(out, "{}", path.display())?;
    }
    out.flush()?;
    if let Some(remark) = plans.remark() {
        complain(&remark);
    }
    Ok(Exit::Clean)
}

/// The bytes of the file; nothing where they cannot be made, which is then said.
fn made(args: &Export, plans: &Plans, job: &Job) -> io::Result<Option<Vec<u8>>> {
    let manifest = plans.opened.project.manifest();
    let (system, day) = (manifest.display.system, manifest.today);
    Ok(match args.form {
        ExportForm::Xlsx => {
            let show = shower(&plans.opened);
            let (order, _) = priced(plans, job, &args.houses, args.prices.as_deref(), None);
            let documents =
                [takeoff(job, By::Product, &show), takeoff(job, By::Wall, &show), cut_list(job, &show), order];
            match workbook("Quantities by Wythe", &documents, system, day) {
                Ok(bytes) => Some(bytes),
                Err(error) => {
                    complain(&error);
                    None
                }
            }
        }
        ExportForm::Ifc => ifc(job, 0, &IfcOptions { day, films: films() }).map(String::into_bytes),
        ExportForm::Pdf => {
            let judged = &plans.judged[0];
            let drawings: Vec<_> = drawings(judged, job, system).into_iter().map(|(_, d)| d).collect();
            let made = pdf(&format!("Drawings of {}", judged.foundation.name), &drawings, Theme::Print);
            if made.replaced > 0 {
                complain(&format_args!("{} letters are not in the fonts of PDF and stand as `?`", made.replaced));
            }
            Some(made.bytes)
        }
    })
}
