//! `wythe cut-list`

use std::io;

use wythe_render::tables::cut_list;

use super::plans::{Houses, plans};
use super::written::{TableFormat, shower, write};
use crate::args::When;
use crate::exit::Exit;

/// Cut board from sheets and lay rolls: a numbered cut list, strips, laps, and what is left over.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe cut-list unit_4\n  wythe cut-list unit_4 --along\n  wythe cut-list houses --format csv"
)]
pub(crate) struct CutList {
    #[command(flatten)]
    pub houses: Houses,
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: TableFormat,
}

pub(crate) fn run(args: &CutList, color: When) -> io::Result<Exit> {
    let Some(plans) = plans(&args.houses)? else { return Ok(Exit::Unusable) };
    let job = plans.job(&args.houses);
    let mut document = cut_list(&job, &shower(&plans.opened));
    document.remarks.splice(0..0, plans.remark());
    write(&document, &job.findings, &plans.opened, args.format, color)
}
