//! `wythe takeoff`

use std::io;

use clap::ValueEnum;
use wythe_render::tables::{By, takeoff};

use super::plans::{Houses, plans};
use super::written::{TableFormat, shower, write};
use crate::args::When;
use crate::exit::Exit;

/// Measure every layer, joint, head, bead and edge: net, with waste, and in what is bought.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe takeoff unit_4\n  wythe takeoff houses --by house\n  wythe takeoff houses/unit_4.wythe --by phase --format csv"
)]
pub(crate) struct Takeoff {
    #[command(flatten)]
    pub houses: Houses,
    /// How the lines are put together.
    #[arg(long, value_enum, default_value_t)]
    pub by: Grouping,
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: TableFormat,
}

/// How the lines are put together.
#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) enum Grouping {
    /// Line by line, by wall, pier, opening and ground.
    Wall,
    /// One row a product.
    #[default]
    Product,
    /// One row a phase, work and product.
    Phase,
    /// One row a house and product.
    House,
}

pub(crate) fn run(args: &Takeoff, color: When) -> io::Result<Exit> {
    let Some(plans) = plans(&args.houses)? else { return Ok(Exit::Unusable) };
    let job = plans.job(&args.houses);
    let by = match args.by {
        Grouping::Wall => By::Wall,
        Grouping::Product => By::Product,
        Grouping::Phase => By::Phase,
        Grouping::House => By::House,
    };
    let mut document = takeoff(&job, by, &shower(&plans.opened));
    document.remarks.splice(0..0, plans.remark());
    write(&document, &job.findings, &plans.opened, args.format, color)
}
