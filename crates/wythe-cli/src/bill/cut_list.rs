//! `wythe cut-list`

use std::io;
use std::path::PathBuf;

use wythe_render::tables::cut_list;

use super::patterns;
use super::plans::{Houses, plans};
use super::written::{TableFormat, shower, write};
use crate::args::When;
use crate::draw::ThemeAsked;
use crate::exit::Exit;
use crate::output::complain;

/// Cut board from sheets and lay rolls: a numbered cut list, strips, laps, and what is left over.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe cut-list unit_4\n  wythe cut-list unit_4 --along\n  wythe cut-list houses --format csv\n  wythe cut-list unit_4 --drawings patterns"
)]
pub(crate) struct CutList {
    #[command(flatten)]
    pub houses: Houses,
    /// Write a drawing of each way a sheet is cut into this folder, pieces numbered as in the list.
    #[arg(long, value_name = "FOLDER")]
    pub drawings: Option<PathBuf>,
    /// Where the drawings are to be seen.
    #[arg(long, value_enum, default_value_t, requires = "drawings")]
    pub theme: ThemeAsked,
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: TableFormat,
}

pub(crate) fn run(args: &CutList, color: When) -> io::Result<Exit> {
    let Some(plans) = plans(&args.houses)? else { return Ok(Exit::Unusable) };
    let job = plans.job(&args.houses);
    let mut document = cut_list(&job, &shower(&plans.opened));
    document.remarks.splice(0..0, plans.remark());
    if let Some(folder) = &args.drawings {
        let system = plans.opened.project.manifest().display.system;
        match patterns::write(&job, folder, args.theme.theme(), system) {
            Ok(files) => document.remarks.push(format!("{} drawings in {}.", files.len(), folder.display())),
            Err(error) => {
                complain(&format_args!("{}: {error}", folder.display()));
                return Ok(Exit::Unusable);
            }
        }
    }
    write(&document, &job.findings, &plans.opened, args.format, color)
}
