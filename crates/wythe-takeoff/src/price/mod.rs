//! Prices: a vendor's list read from CSV with a finding for every fault, and a bill priced from it
//! in exact decimals, with tax, allowances and the waste shown apart.

mod bill;
mod finding;
mod list;
mod nearest;
mod position;

pub use bill::{Allowance, BillRules, OrderLine, PricedBill, PricedLine, Unpriced, UnpricedReason, price};
pub use finding::{PriceFinding, PriceProblem, Severity};
pub use list::{CatalogItem, ListRules, Pack, PriceEntry, PriceList, read};
