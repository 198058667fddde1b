//! A price list as CSV: columns `product`, `vendor`, `pack`, `price`, and if present `currency` and
//! `dated`. Every good line is kept; every fault is a finding with its line and column.

use super::finding::{PriceFinding, PriceProblem, Severity};
use super::nearest::nearest;
use super::position;
use crate::money::{Currency, Money};
use jiff::civil::Date;
use rust_decimal::Decimal;
use std::collections::{BTreeMap, BTreeSet};

/// A product that the plans know, and the unit it is bought in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CatalogItem {
    /// Its name in the plans.
    pub product: String,
    /// The unit of purchase: `sheet`, `roll`, `tube`.
    pub unit: String,
}

/// How a list is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ListRules {
    /// Of lines that name none.
    pub currency: Currency,
    /// Date of lines that have none.
    pub dated: Option<Date>,
    /// Prices dated before this are old.
    pub oldest: Option<Date>,
}

/// How many units are sold together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pack {
    /// Units in it.
    pub count: u64,
    /// Of what.
    pub unit: String,
}

/// A price that can be used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PriceEntry {
    /// The product's name in the plans.
    pub product: String,
    /// Who sells it.
    pub vendor: String,
    /// How it is sold.
    pub pack: Pack,
    /// Of one pack.
    pub price: Money,
    /// When it held.
    pub dated: Option<Date>,
    /// Line in the file, from 1.
    pub line: u64,
}

/// The good lines and the findings of a list.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PriceList {
    /// In the order of the file.
    pub entries: Vec<PriceEntry>,
    /// In the order of the file.
    pub findings: Vec<PriceFinding>,
}

const NEEDED: [&str; 4] = ["product", "vendor", "pack", "price"];

/// Reads a list against the products the plans know.
pub fn read(text: &str, catalog: &[CatalogItem], rules: &ListRules) -> PriceList {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut reader = csv::ReaderBuilder::new().flexible(true).trim(csv::Trim::All).from_reader(text.as_bytes());
    let mut list = PriceList::default();
    let header = match reader.headers() {
        Ok(header) => header.clone(),
        Err(_) => {
            list.add(1, 1, PriceProblem::Unreadable);
            return list;
        }
    };
    let columns: BTreeMap<String, usize> =
        header.iter().enumerate().map(|(i, name)| (name.to_ascii_lowercase(), i)).collect();
    for name in NEEDED {
        if !columns.contains_key(name) {
            list.add(1, 1, PriceProblem::MissingColumn(name));
        }
    }
    if !list.findings.is_empty() {
        return list;
    }
    let units: BTreeMap<&str, &str> = catalog.iter().map(|c| (c.product.as_str(), c.unit.as_str())).collect();
    let mut seen: BTreeMap<(String, String, u64), u64> = BTreeMap::new();
    for result in reader.records() {
        let record = match result {
            Ok(record) => record,
            Err(error) => {
                let line = error.position().map_or(1, csv::Position::line);
                list.add(line, 1, PriceProblem::Unreadable);
                continue;
            }
        };
        let place = record.position().map_or((0, 1), |p| (p.byte() as usize, p.line()));
        let mut line = Line { text, place, record: &record, columns: &columns, faults: Vec::new() };
        if record.len() != header.len() {
            let counts = PriceProblem::FieldCount { expected: header.len(), found: record.len() };
            line.faults.push((record.len().min(header.len()), counts));
        }
        let entry = line.entry(&units, rules, &mut seen);
        list.entries.extend(entry);
        let faults = line.faults;
        for (field, problem) in faults {
            let (line, column) = position::of_field(text, place.0, place.1, field);
            list.add(line, column, problem);
        }
    }
    list
}

impl PriceList {
    fn add(&mut self, line: u64, column: u64, problem: PriceProblem) {
        self.findings.push(PriceFinding { line, column, problem });
    }

    /// Vendors in the list, by name.
    pub fn vendors(&self) -> BTreeSet<&str> {
        self.entries.iter().map(|e| e.vendor.as_str()).collect()
    }
}

struct Line<'a> {
    text: &'a str,
    place: (usize, u64),
    record: &'a csv::StringRecord,
    columns: &'a BTreeMap<String, usize>,
    /// Field index and problem.
    faults: Vec<(usize, PriceProblem)>,
}

impl Line<'_> {
    /// Column index and text; blank where the line is short or the list lacks the column.
    fn field(&self, name: &str) -> (usize, &str) {
        let at = self.columns.get(name).copied().unwrap_or(usize::MAX);
        (at, self.record.get(at).unwrap_or(""))
    }

    fn fault(&mut self, field: usize, problem: PriceProblem) {
        self.faults.push((field, problem));
    }

    fn is_faulty(&self) -> bool {
        self.faults.iter().any(|f| f.1.severity() == Severity::Error)
    }

    fn entry(
        &mut self,
        units: &BTreeMap<&str, &str>,
        rules: &ListRules,
        seen: &mut BTreeMap<(String, String, u64), u64>,
    ) -> Option<PriceEntry> {
        let (product_at, product) = self.field("product");
        let product = product.to_owned();
        let vendor = self.field("vendor").1.to_owned();
        let unit = units.get(product.as_str()).copied();
        if unit.is_none() {
            let nearest = nearest(&product, units.keys().copied());
            let unknown = PriceProblem::UnknownItem { product: product.clone(), nearest };
            self.fault(product_at, unknown);
        }
        let (pack_at, pack_text) = self.field("pack");
        let pack = parse_pack(pack_text);
        match (&pack, unit) {
            (None, _) => {
                let bad = PriceProblem::BadPack(pack_text.to_owned());
                self.fault(pack_at, bad);
            }
            (Some(pack), Some(unit)) if pack.unit != unit => {
                let wrong = PriceProblem::WrongUnit { expected: unit.to_owned(), found: pack.unit.clone() };
                self.fault(pack_at, wrong);
            }
            _ => {}
        }
        let amount = self.price();
        let currency = self.currency(rules);
        let dated = self.dated(rules);
        let line = position::of_field(self.text, self.place.0, self.place.1, 0).0;
        let entry = PriceEntry {
            product,
            vendor,
            pack: pack?,
            price: Money { amount: amount?, currency: currency? },
            dated,
            line,
        };
        if self.is_faulty() {
            // A line that is not used cannot be the first of two.
            return None;
        }
        let key = (entry.product.clone(), entry.vendor.clone(), entry.pack.count);
        if let Some(&first) = seen.get(&key) {
            self.fault(product_at, PriceProblem::Duplicate(first));
            return None;
        }
        seen.insert(key, line);
        Some(entry)
    }

    fn price(&mut self) -> Option<Decimal> {
        let (at, text) = self.field("price");
        let digits = text.bytes().all(|b| b.is_ascii_digit() || b == b'.');
        match text.parse::<Decimal>() {
            Ok(amount) if digits && amount > Decimal::ZERO => Some(amount),
            _ => {
                let bad = PriceProblem::BadNumber(text.to_owned());
                self.fault(at, bad);
                None
            }
        }
    }

    fn currency(&mut self, rules: &ListRules) -> Option<Currency> {
        let (at, text) = self.field("currency");
        if text.is_empty() {
            return Some(rules.currency);
        }
        match text.parse() {
            Ok(currency) => Some(currency),
            Err(_) => {
                let bad = PriceProblem::BadCurrency(text.to_owned());
                self.fault(at, bad);
                None
            }
        }
    }

    fn dated(&mut self, rules: &ListRules) -> Option<Date> {
        let (at, text) = self.field("dated");
        let dated = if text.is_empty() {
            rules.dated
        } else {
            let parsed = text.parse::<Date>().ok();
            if parsed.is_none() {
                let bad = PriceProblem::BadDate(text.to_owned());
                self.fault(at, bad);
            }
            parsed
        };
        if let (Some(dated), Some(oldest)) = (dated, rules.oldest) {
            if dated < oldest && at != usize::MAX {
                self.fault(at, PriceProblem::OldDate { dated, oldest });
            } else if dated < oldest {
                self.fault(0, PriceProblem::OldDate { dated, oldest });
            }
        }
        dated
    }
}

/// `4 sheet`, or `sheet` for one.
fn parse_pack(text: &str) -> Option<Pack> {
    let mut words = text.split_whitespace();
    let first = words.next()?;
    let (count, unit) = match first.parse::<u64>() {
        Ok(count) => (count, words.next()?),
        Err(_) => (1, first),
    };
    let named = unit.chars().all(|c| c.is_alphanumeric() || c == '_') && !unit.is_empty();
    (count > 0 && named && words.next().is_none()).then(|| Pack { count, unit: unit.to_owned() })
}
