//! `wythe order`

use std::io;

use wythe_bill::Job;
use wythe_bill::cost::price;
use wythe_bill::labor::labor;
use wythe_findings::{Finding, codes};
use wythe_render::tables::{Document, order};

use super::plans::{Houses, Plans, plans};
use super::written::{TableFormat, shower, write};
use crate::args::When;
use crate::exit::Exit;
use crate::output::complain;

/// List what to buy in whole units, priced from the price list, with tax and total.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe order unit_4\n  wythe order houses --format csv\n  wythe order unit_4 --prices upland_2026 --vendor \"River Pit (invented)\""
)]
pub(crate) struct Order {
    #[command(flatten)]
    pub houses: Houses,
    /// The price list to use, where the repository has several.
    #[arg(long, value_name = "NAME")]
    pub prices: Option<String>,
    /// Buy only from this vendor; without it the cheapest is taken.
    #[arg(long, value_name = "NAME")]
    pub vendor: Option<String>,
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: TableFormat,
}

pub(crate) fn run(args: &Order, color: When) -> io::Result<Exit> {
    let Some(plans) = plans(&args.houses)? else { return Ok(Exit::Unusable) };
    let job = plans.job(&args.houses);
    let (document, findings) = priced(&plans, &job, &args.houses, args.prices.as_deref(), args.vendor.as_deref());
    write(&document, &findings, &plans.opened, args.format, color)
}

/// The order of a job with prices where there are any, and what is wrong with it.
pub(crate) fn priced(
    plans: &Plans,
    job: &Job,
    houses: &Houses,
    prices: Option<&str>,
    vendor: Option<&str>,
) -> (Document, Vec<Finding>) {
    let mut findings: Vec<Finding> = job.findings.clone();
    let (book, faults) = plans.ledgers.prices(&plans.opened, prices);
    findings.extend(faults);
    let today = plans.opened.project.manifest().today;
    let bill = match &book {
        Some(book) => match price(job, book, Vec::new(), vendor, today) {
            Ok((bill, missing)) => {
                findings.extend(missing);
                Some(bill)
            }
            Err(error) => {
                findings.push(Finding::new(codes::PRICE_UNUSABLE, book.sheet.origin, error.to_string()));
                None
            }
        },
        None => {
            complain(&"no price list can be used; quantities only");
            None
        }
    };
    let mut worked = Vec::new();
    if let Some(crew) = plans.ledgers.crew(houses.rates.as_deref()) {
        let (visits, lacking) = labor(job, crew);
        worked = visits;
        findings.extend(lacking);
    }
    let mut document = order(job, book.as_ref().zip(bill.as_ref()), &worked, &shower(&plans.opened));
    document.remarks.splice(0..0, plans.remark());
    (document, findings)
}
