//! Prices: a price file read against the products of the plans, and an order priced from it. Money is exact.

use std::sync::Arc;

use jiff::civil::Date;
use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive as _;
use uom::si::ratio::ratio;
use wythe_findings::{Code, Finding, codes};
use wythe_model::Product;
use wythe_model::ledger::PriceSheet;
use wythe_takeoff::price::{self, BillRules, CatalogItem, ListRules, OrderLine, PriceList, PriceProblem, PricedBill};

pub use wythe_takeoff::money::{Currency, Money, MoneyError, Share};
pub use wythe_takeoff::price::{Allowance, PricedLine, Unpriced};

use crate::Job;
use crate::order::item_unit;

/// A price list with its figures read.
#[derive(Clone, Debug, PartialEq)]
pub struct PriceBook {
    /// Its declaration.
    pub sheet: PriceSheet,
    /// Its currency.
    pub currency: Currency,
    /// The name its file is shown by.
    pub file: String,
    /// Its lines.
    pub list: PriceList,
}

/// Reads a price file; `file` is the name it is shown by. Each fault of a line is a finding with the file's line and
/// column, placed where the list names the file.
pub fn read(
    sheet: &PriceSheet,
    file: &str,
    text: &str,
    products: &[Arc<Product>],
    metric: bool,
) -> Result<(PriceBook, Vec<Finding>), Box<Finding>> {
    let currency: Currency = sheet.currency.as_str().parse().map_err(|e: wythe_takeoff::money::NotACurrency| {
        Box::new(Finding::new(codes::PRICE_UNUSABLE, sheet.origin, e.to_string()))
    })?;
    let mut catalog: Vec<CatalogItem> = products
        .iter()
        .map(|p| CatalogItem { product: p.name.to_string(), unit: item_unit(p, metric).to_string() })
        .collect();
    catalog.sort_by(|a, b| a.product.cmp(&b.product));
    catalog.dedup_by(|a, b| a.product == b.product);
    let rules = ListRules { currency, dated: sheet.dated, oldest: None };
    let list = price::read(text, &catalog, &rules);
    let findings = list
        .findings
        .iter()
        .map(|f| {
            Finding::new(code(&f.problem), sheet.file_origin, format!("{file}:{}:{}: {}", f.line, f.column, f.problem))
                .label(format!("line {} of this file", f.line))
        })
        .collect();
    Ok((PriceBook { sheet: sheet.clone(), currency, file: file.to_owned(), list }, findings))
}

fn code(problem: &PriceProblem) -> Code {
    match problem {
        PriceProblem::UnknownItem { .. } => codes::PRICE_UNKNOWN_ITEM,
        PriceProblem::WrongUnit { .. } => codes::PRICE_WRONG_UNIT,
        PriceProblem::Duplicate(_) => codes::PRICE_DUPLICATE,
        PriceProblem::OldDate { .. } => codes::PRICE_OLD,
        _ => codes::PRICE_UNUSABLE,
    }
}

/// Prices the order of a job. What has no price is found, and the total is without it.
///
/// # Errors
/// Where the total is past what a decimal holds.
pub fn price(
    job: &Job,
    book: &PriceBook,
    allowances: Vec<Allowance>,
    vendor: Option<&str>,
    today: Option<Date>,
) -> Result<(PricedBill, Vec<Finding>), MoneyError> {
    let order: Vec<OrderLine> = job
        .order
        .iter()
        .map(|item| OrderLine {
            product: item.product.name.to_string(),
            units: item.units,
            waste: Share(Decimal::from_f64(item.waste.get::<ratio>()).unwrap_or_default().round_dp(4)),
        })
        .collect();
    let rules = BillRules {
        currency: book.currency,
        tax: Share(book.sheet.tax),
        vendor: vendor.map(str::to_owned),
        allowances,
    };
    let bill = price::price(&order, &book.list, &rules)?;
    let mut findings: Vec<Finding> = Vec::new();
    for missing in &bill.unpriced {
        let item = job.order.iter().find(|i| i.product.name.as_str() == missing.product);
        let place = item.map_or(book.sheet.origin, |i| i.product.origin);
        findings.push(
            Finding::new(codes::PRICE_MISSING, place, format!("`{}`: {}", missing.product, missing.reason))
                .related(book.sheet.file_origin, format!("not in {}", book.file))
                .mend(format!("add a line for `{}` to {}", missing.product, book.file)),
        );
    }
    if let (Some(today), Some(until)) = (today, book.sheet.until)
        && until < today
    {
        let place = book.sheet.until_origin.unwrap_or(book.sheet.origin);
        findings.push(
            Finding::new(codes::PRICE_OLD, place, format!("these prices held until {until}"))
                .label(format!("judged on {today}")),
        );
    }
    Ok((bill, findings))
}
