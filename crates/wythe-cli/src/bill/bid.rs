//! `wythe bid`

use std::io;

use wythe_bill::bid::{self, BidTerms};
use wythe_render::tables;

use super::plans::{Houses, ledgers_of};
use super::written::{TableFormat, shower, write};
use crate::args::When;
use crate::exit::Exit;
use crate::output::complain;

/// Bid a house by numbers, with ranges, sums set aside, exclusions and assumptions to sign.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe bid unit_6\n  wythe bid unit_6 --format markdown\n\nA bid is a name given to `Bid(…)`: let unit_6 = Bid(like: unit_4, perimeter: 130' .. 150', pier_count: 6 .. 9)"
)]
pub(crate) struct BidOf {
    /// The name of the bid; without it the only one.
    #[arg(value_name = "BID")]
    pub name: Option<String>,
    /// Where it is looked for.
    #[arg(long, value_name = "FOLDER", default_value = ".")]
    pub repository: String,
    /// The rates to use, where the repository has several.
    #[arg(long, value_name = "NAME")]
    pub rates: Option<String>,
    /// The price list to use, where the repository has several.
    #[arg(long, value_name = "NAME")]
    pub prices: Option<String>,
    /// The day on which prices and the bid are judged, over the manifest's.
    #[arg(long, value_name = "DATE")]
    pub today: Option<jiff::civil::Date>,
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: TableFormat,
}

pub(crate) fn run(args: &BidOf, color: When) -> io::Result<Exit> {
    let houses = Houses { rates: args.rates.clone(), today: args.today, ..Houses::of(&args.repository) };
    let Some(plans) = ledgers_of(&houses)? else { return Ok(Exit::Unusable) };
    let bids = &plans.ledgers.bids;
    let numbers = match &args.name {
        Some(name) => bids.iter().find(|b| b.name.as_str() == name),
        None if bids.len() == 1 => bids.first(),
        None => None,
    };
    let Some(numbers) = numbers else {
        let names: Vec<&str> = bids.iter().map(|b| b.name.as_str()).collect();
        match (&args.name, names.is_empty()) {
            (_, true) => {
                complain(&"no bid there that can be worked out; write one with `let NAME = Bid(like: …, perimeter: …)`")
            }
            (Some(name), false) => {
                complain(&format_args!("no bid is called `{name}`; there are: {}", names.join(", ")))
            }
            (None, false) => complain(&format_args!("several bids: {}; name one", names.join(", "))),
        }
        return Ok(Exit::Unusable);
    };
    let (book, mut findings) = plans.ledgers.prices(&plans.opened, args.prices.as_deref());
    let terms = plans.terms(&houses);
    let with = BidTerms {
        terms: &terms,
        book: book.as_ref(),
        crew: plans.ledgers.crew(args.rates.as_deref()),
        today: plans.opened.project.manifest().today,
    };
    let (cases, found) = bid::bid(numbers, &with);
    findings.extend(found);
    let drawn = bid::drawn(numbers);
    if let Some((_, left)) = &drawn {
        findings.extend(left.iter().cloned());
    }
    let document = tables::bid(numbers, &cases, drawn.as_ref().map(|d| &d.0), &shower(&plans.opened));
    write(&document, &findings, &plans.opened, args.format, color)
}
