//! Bids: a house by numbers worked out three times, at the low ends of its ranges, in their middle and at the high
//! ends, with goods, labor, sums set aside and markup.
//!
//! The three houses are rectangles of the perimeter and the floor that are said, built like the drawn house the bid
//! names, and taken off like any other.

mod house;

use std::sync::Arc;

use jiff::civil::Date;
use rust_decimal::Decimal;
use wythe_findings::{Finding, codes};
use wythe_model::bid::BidNumbers;
use wythe_model::ledger::CrewRates;
use wythe_takeoff::price::PricedBill;

pub use house::{Figures, house};

use crate::cost::{self, Currency, Money, PriceBook, Share};
use crate::labor::{HouseLabor, labor_in_rain, labor_total};
use crate::{Job, Terms};

/// An end of the ranges, or their middle.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum End {
    /// Every figure at its least.
    Low,
    /// Every figure in the middle.
    Middle,
    /// Every figure at its most.
    High,
}

impl End {
    /// All three, ascending.
    pub const ALL: [End; 3] = [End::Low, End::Middle, End::High];
}

/// One of the three houses of a bid, worked out.
#[derive(Clone, Debug)]
pub struct BidCase {
    /// Which.
    pub end: End,
    /// Its figures.
    pub figures: Figures,
    /// Its takeoff.
    pub job: Job,
    /// Its goods, where there are prices.
    pub bill: Option<PricedBill>,
    /// Its labor, where there are rates.
    pub labor: Vec<HouseLabor>,
    /// Its sums, where nothing is missing.
    pub sums: Option<BidSums>,
}

/// What a bid comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BidSums {
    /// Goods with tax.
    pub goods: Money,
    /// Labor.
    pub labor: Money,
    /// Markup on both.
    pub markup: Money,
    /// Sums set aside.
    pub allowances: Money,
    /// All together.
    pub total: Money,
}

/// What a bid is worked out with.
#[derive(Clone, Copy, Debug)]
pub struct BidTerms<'a> {
    /// Waste and cutting.
    pub terms: &'a Terms,
    /// Prices.
    pub book: Option<&'a PriceBook>,
    /// Rates.
    pub crew: Option<&'a CrewRates>,
    /// The day prices are judged on.
    pub today: Option<Date>,
}

/// Works a bid out at both ends of its ranges and in the middle. What is impossible or missing is found; the rest still
/// comes out.
pub fn bid(numbers: &BidNumbers, with: &BidTerms<'_>) -> (Vec<BidCase>, Vec<Finding>) {
    let (mut cases, mut findings) = (Vec::new(), Vec::new());
    if let (Some(until), Some(today)) = (numbers.until, with.today)
        && until < today
    {
        findings.push(
            Finding::new(codes::BID_EXPIRED, numbers.origin_of("until"), format!("this bid held until {until}"))
                .label(format!("judged on {today}")),
        );
    }
    let currency = with.book.map(|b| b.currency).or_else(|| currency_of(with.crew));
    for a in &numbers.allowances {
        let other = currency.is_some_and(|c| a.currency.as_str().parse::<Currency>().ok() != Some(c));
        if other || a.amount < Decimal::ZERO {
            let title = format!("the allowance for {} is no sum of this bid", a.what);
            let label = if other {
                format!("{} is not the currency of the prices", a.currency)
            } else {
                "less than nothing".into()
            };
            findings.push(Finding::new(codes::BID_IMPOSSIBLE, numbers.origin_of("allowances"), title).label(label));
        }
    }
    if numbers.markup < Decimal::ZERO {
        let title = "the markup is less than nothing";
        findings.push(Finding::new(codes::BID_IMPOSSIBLE, numbers.origin_of("markup"), title));
    }
    for end in End::ALL {
        let (built, figures) = match house(numbers, end) {
            Ok(found) => found,
            Err(finding) => {
                findings.push(*finding);
                continue;
            }
        };
        let job = Job::of(&[Arc::new(built)], with.terms);
        findings.extend(job.findings.iter().cloned());
        let bill = with.book.and_then(|book| match cost::price(&job, book, Vec::new(), None, with.today) {
            Ok((bill, missing)) => {
                findings.extend(missing);
                Some(bill)
            }
            Err(error) => {
                findings.push(Finding::new(codes::PRICE_UNUSABLE, book.sheet.origin, error.to_string()));
                None
            }
        });
        let labor = with.crew.map_or(Vec::new(), |crew| {
            let (labor, lacking) = labor_in_rain(&job, crew, figures.rains);
            findings.extend(lacking);
            labor
        });
        let sums = sums(numbers, bill.as_ref(), &labor, currency);
        cases.push(BidCase { end, figures, job, bill, labor, sums });
    }
    let mut seen = Vec::new();
    findings.retain(|f| {
        let key = (f.name.clone(), f.primary.span, f.title.clone());
        let new = !seen.contains(&key);
        seen.push(key);
        new
    });
    (cases, findings)
}

fn currency_of(crew: Option<&CrewRates>) -> Option<Currency> {
    crew?.hourly?.1.as_str().parse().ok()
}

/// Nothing where a price or the cost of an hour is missing: a total without it would be no bid.
fn sums(
    numbers: &BidNumbers,
    bill: Option<&PricedBill>,
    labor: &[HouseLabor],
    currency: Option<Currency>,
) -> Option<BidSums> {
    let currency = currency?;
    let goods = bill.filter(|b| b.is_complete())?.total;
    let labor = labor_total(labor)?;
    let markup = goods.plus(labor).ok()?.share(Share(numbers.markup)).ok()?.rounded();
    let mut allowances = Money::zero(currency);
    for a in &numbers.allowances {
        let money = Money { amount: a.amount, currency: a.currency.as_str().parse().ok()? };
        allowances = allowances.plus(money).ok()?;
    }
    let total = goods.plus(labor).ok()?.plus(markup).ok()?.plus(allowances).ok()?;
    Some(BidSums { goods, labor, markup, allowances, total })
}

/// A figure of the drawn house beside the range of the bid.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// The figures of the house as it is drawn.
    pub figures: Figures,
    /// Figures of the bid that the drawn house leaves, by name.
    pub outside: Vec<&'static str>,
}

/// The drawn house against its bid; nothing where it is not drawn yet.
pub fn drawn(numbers: &BidNumbers) -> Option<(Drawn, Vec<Finding>)> {
    let f = numbers.drawn.as_ref()?;
    let figures = Figures::of(f);
    let mut outside = Vec::new();
    let mut check = |name: &'static str, within: bool| {
        if !within {
            outside.push(name);
        }
    };
    // Figures of a bid are written to a few places.
    let holds = |low: f64, high: f64, value: f64| low * 0.9999 <= value && value <= high * 1.0001;
    check("perimeter", holds(numbers.perimeter.low.value, numbers.perimeter.high.value, figures.perimeter.value));
    if let Some(floor) = numbers.floor {
        check("floor", holds(floor.low.value, floor.high.value, figures.floor.value));
    }
    if let Some(height) = numbers.height {
        check("height", holds(height.low.value, height.high.value, figures.height.value));
    }
    let counts = [
        ("pier_count", numbers.piers, figures.piers),
        ("hatch_count", numbers.hatches, figures.hatches),
        ("vent_count", numbers.vents, figures.vents),
    ];
    for (name, range, count) in counts {
        check(name, (range.low..=range.high).contains(&count));
    }
    let findings = outside.iter().map(|name| {
        Finding::new(
            codes::BID_LEFT,
            numbers.origin_of(name),
            format!("`{}` as drawn leaves the bid in its {name}", f.name),
        )
        .related(f.origin, "drawn here")
        .mend("bid the difference as a change: `wythe change`")
    });
    let findings = findings.collect();
    Some((Drawn { figures, outside }, findings))
}
