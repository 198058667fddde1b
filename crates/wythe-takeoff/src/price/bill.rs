//! A bill priced from a list: goods in whole packs, waste shown apart, allowances, tax. What has no
//! price is named and the bill is marked incomplete.

use super::list::{PriceEntry, PriceList};
use crate::money::{Currency, Money, MoneyError, Share};
use rust_decimal::Decimal;

/// Something to buy.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OrderLine {
    /// The product's name in the plans.
    pub product: String,
    /// Whole units needed.
    pub units: u64,
    /// Of those, the share that does not stay in the building.
    pub waste: Share,
}

/// A sum set aside for what is not measured yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Allowance {
    /// What for.
    pub name: String,
    /// How much.
    pub amount: Money,
    /// Tax is added.
    pub taxed: bool,
}

/// How a bill is made up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BillRules {
    /// Of the bill; prices in others are not used.
    pub currency: Currency,
    /// On goods and taxed allowances.
    pub tax: Share,
    /// Buy only from this vendor; `None` takes the cheapest.
    pub vendor: Option<String>,
    /// Set aside.
    pub allowances: Vec<Allowance>,
}

/// A line with its price.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PricedLine {
    /// The product.
    pub product: String,
    /// Who sells it.
    pub vendor: String,
    /// Line of the price list.
    pub list_line: u64,
    /// Whole packs to buy.
    pub packs: u64,
    /// Units in them.
    pub units: u64,
    /// Of one pack.
    pub price: Money,
    /// Of all packs.
    pub cost: Money,
    /// The part of the cost that is waste, units in packs beyond need included.
    pub waste: Money,
}

/// Why a line has no price.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum UnpricedReason {
    /// Not in the list, or not from the vendor asked for.
    #[error("no price")]
    NoPrice,
    /// Priced in other currencies only.
    #[error("no price in {0}")]
    OtherCurrency(Currency),
    /// The sum is past what a decimal holds.
    #[error("the cost is too large")]
    TooLarge,
}

/// A line that could not be priced.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unpriced {
    /// The product, or the name of the allowance.
    pub product: String,
    /// Why.
    pub reason: UnpricedReason,
}

/// A bill in money.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PricedBill {
    /// In the order asked for.
    pub lines: Vec<PricedLine>,
    /// What has no price: the totals are without it.
    pub unpriced: Vec<Unpriced>,
    /// All lines.
    pub goods: Money,
    /// The waste within the goods.
    pub waste: Money,
    /// All allowances.
    pub allowances: Money,
    /// On goods and taxed allowances.
    pub tax: Money,
    /// Goods, allowances and tax.
    pub total: Money,
}

impl PricedBill {
    /// False when a price is missing: the total is then a part.
    pub fn is_complete(&self) -> bool {
        self.unpriced.is_empty()
    }
}

/// Prices an order. The only failure of the whole is a total past what a decimal holds.
pub fn price(order: &[OrderLine], list: &PriceList, rules: &BillRules) -> Result<PricedBill, MoneyError> {
    let zero = Money::zero(rules.currency);
    let mut lines = Vec::new();
    let mut unpriced = Vec::new();
    for wanted in order {
        match price_line(wanted, list, rules) {
            Ok(line) => lines.push(line),
            Err(reason) => unpriced.push(Unpriced { product: wanted.product.clone(), reason }),
        }
    }
    let (mut goods, mut waste) = (zero, zero);
    for line in &lines {
        goods = goods.plus(line.cost)?;
        waste = waste.plus(line.waste)?;
    }
    let (mut allowances, mut taxable) = (zero, goods);
    for a in &rules.allowances {
        if a.amount.currency != rules.currency {
            let reason = UnpricedReason::OtherCurrency(rules.currency);
            unpriced.push(Unpriced { product: a.name.clone(), reason });
            continue;
        }
        allowances = allowances.plus(a.amount)?;
        if a.taxed {
            taxable = taxable.plus(a.amount)?;
        }
    }
    let tax = taxable.share(rules.tax)?;
    let total = goods.plus(allowances)?.plus(tax)?;
    Ok(PricedBill { lines, unpriced, goods, waste, allowances, tax, total })
}

fn price_line(wanted: &OrderLine, list: &PriceList, rules: &BillRules) -> Result<PricedLine, UnpricedReason> {
    let vendor = |e: &&PriceEntry| rules.vendor.as_ref().is_none_or(|v| *v == e.vendor);
    let offers: Vec<&PriceEntry> = list.entries.iter().filter(|e| e.product == wanted.product).filter(vendor).collect();
    if offers.is_empty() {
        return Err(UnpricedReason::NoPrice);
    }
    let mut best: Option<PricedLine> = None;
    for offer in offers.iter().filter(|o| o.price.currency == rules.currency) {
        let line = offer_line(wanted, offer).map_err(|_| UnpricedReason::TooLarge)?;
        if best.as_ref().is_none_or(|b| line.cost.amount < b.cost.amount) {
            best = Some(line);
        }
    }
    best.ok_or(UnpricedReason::OtherCurrency(rules.currency))
}

fn offer_line(wanted: &OrderLine, offer: &PriceEntry) -> Result<PricedLine, MoneyError> {
    let packs = wanted.units.div_ceil(offer.pack.count.max(1));
    let units = packs.checked_mul(offer.pack.count).ok_or(MoneyError::TooLarge)?;
    let cost = offer.price.times(Decimal::from(packs))?;
    let used = (Decimal::ONE - wanted.waste.0).checked_mul(Decimal::from(wanted.units));
    let waste = match (used, units) {
        (_, 0) => Share(Decimal::ZERO),
        (Some(used), _) => Share(Decimal::ONE - used / Decimal::from(units)),
        (None, _) => return Err(MoneyError::TooLarge),
    };
    Ok(PricedLine {
        product: wanted.product.clone(),
        vendor: offer.vendor.clone(),
        list_line: offer.line,
        packs,
        units,
        price: offer.price,
        cost,
        waste: cost.share(waste)?,
    })
}
