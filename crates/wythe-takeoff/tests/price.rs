//! Price lists with every fault, and bills to the cent.

use jiff::civil::date;
use proptest::prelude::*;
use rust_decimal::Decimal;
use wythe_takeoff::money::{Currency, Money, Share};
use wythe_takeoff::price::*;

fn usd() -> Currency {
    "USD".parse().expect("a currency")
}

fn dollars(text: &str) -> Money {
    Money { amount: text.parse().expect("a decimal"), currency: usd() }
}

fn catalog() -> Vec<CatalogItem> {
    [("foil_board", "sheet"), ("ground_liner", "roll"), ("urethane", "tube")]
        .map(|(product, unit)| CatalogItem { product: product.into(), unit: unit.into() })
        .to_vec()
}

fn rules() -> ListRules {
    ListRules { currency: usd(), dated: None, oldest: Some(date(2026, 1, 1)) }
}

const GOOD: &str = "product,vendor,pack,price,dated
foil_board,north yard,1 sheet,41.00,2026-03-01
foil_board,south yard,12 sheet,480.00,2026-03-01
ground_liner,north yard,roll,310.25,2026-03-01
urethane,\"west, supply\",24 tube,199.20,2026-03-01
";

#[test]
fn a_good_list_has_no_findings() {
    let list = read(GOOD, &catalog(), &rules());
    assert!(list.findings.is_empty(), "{:?}", list.findings);
    assert_eq!(list.entries.len(), 4);
    assert_eq!(list.entries[3].pack, Pack { count: 24, unit: "tube".into() });
    assert_eq!(list.entries[3].line, 5);
}

#[test]
fn every_fault_has_its_place() {
    let text = "product,vendor,pack,price,currency,dated
foil_bord,north yard,1 sheet,41.00,USD,2026-03-01
foil_board,north yard,1 roll,41.00,USD,2026-03-01
foil_board,north yard,1 sheet,forty,USD,2026-03-01
foil_board,north yard,1 sheet,41.00,USD,2024-03-01
foil_board,north yard,1 sheet,42.00,USD,2026-03-01
ground_liner,north yard,1.5 roll,310.25,USD,2026-03-01
ground_liner,north yard,1 roll,310.25,dollars,soon
urethane,\"west, supply\",1 tube,-8.30,USD,2026-03-01
urethane,west,1 tube
";
    let list = read(text, &catalog(), &rules());
    let found: Vec<(u64, u64, String)> =
        list.findings.iter().map(|f| (f.line, f.column, f.problem.to_string())).collect();
    let expected = [
        (2, 1, "no product `foil_bord`; did you mean `foil_board`?"),
        (3, 23, "sold by the roll, counted by the sheet"),
        (4, 31, "`forty` is not a price"),
        (5, 41, "the price of 2024-03-01 is older than 2026-01-01"),
        (6, 1, "the same product, vendor and pack as line 5"),
        (7, 25, "`1.5 roll` is not a pack: write a number and a unit"),
        (8, 39, "`dollars` is not a currency"),
        (8, 47, "`soon` is not a date: write year-month-day"),
        (9, 32, "`-8.30` is not a price"),
        (10, 21, "3 fields where the header has 6"),
        (10, 21, "`` is not a price"),
    ];
    for (line, column, problem) in expected {
        let hit = found.contains(&(line, column, problem.to_owned()));
        assert!(hit, "{line}:{column} {problem} not in {found:#?}");
    }
    // The old price is a warning: its line is the only one kept.
    assert_eq!(list.entries.len(), 1, "{:?}", list.entries);
    assert_eq!(list.entries[0].line, 5);
}

#[test]
fn a_list_without_its_columns_says_so() {
    let list = read("item,cost\nboard,4\n", &catalog(), &rules());
    assert_eq!(list.findings.len(), 4);
    assert!(list.entries.is_empty());
}

/// 11 sheets: singly 451.00, by the dozen 480.00; 2 rolls 620.50; 12 tubes in one box 199.20.
/// Goods 1270.70; allowance 250 taxed; 6.5 % of 1520.70 is 98.8455, so 98.85 (even rule: 98.85).
#[test]
fn a_bill_to_the_cent() {
    let list = read(GOOD, &catalog(), &rules());
    let waste = Share::percent(Decimal::from(10));
    let order = [("foil_board", 11), ("ground_liner", 2), ("urethane", 12)].map(|(product, units)| OrderLine {
        product: product.into(),
        units,
        waste,
    });
    let bill_rules = BillRules {
        currency: usd(),
        tax: Share::percent("6.5".parse().expect("a decimal")),
        vendor: None,
        allowances: vec![Allowance { name: "extra stone".into(), amount: dollars("250"), taxed: true }],
    };
    let bill = price(&order, &list, &bill_rules).expect("a bill");
    assert!(bill.is_complete());
    assert_eq!(bill.lines[0].vendor, "north yard");
    assert_eq!(bill.goods, dollars("1270.70"));
    assert_eq!(bill.tax, dollars("98.85"));
    assert_eq!(bill.total, dollars("1619.55"));
    // Of 24 tubes bought 10.8 stay in the house: 55 % of 199.20 is waste.
    assert_eq!(bill.lines[2].waste, dollars("109.56"));
}

#[test]
fn a_missing_price_leaves_a_marked_part() {
    let list = read(GOOD, &catalog(), &rules());
    let order = [("foil_board", 1), ("gold_leaf", 3)].map(|(product, units)| OrderLine {
        product: product.into(),
        units,
        waste: Share(Decimal::ZERO),
    });
    let bill_rules = BillRules { currency: usd(), tax: Share(Decimal::ZERO), vendor: None, allowances: vec![] };
    let bill = price(&order, &list, &bill_rules).expect("a bill");
    assert!(!bill.is_complete());
    assert_eq!(bill.unpriced[0].reason, UnpricedReason::NoPrice);
    assert_eq!(bill.total, dollars("41.00"));
    let euros = BillRules { currency: "EUR".parse().expect("a currency"), ..bill_rules };
    let bill = price(&order, &list, &euros).expect("a bill");
    assert_eq!(bill.unpriced.len(), 2);
}

proptest! {
    #[test]
    fn any_text_is_read_without_panic(text in "(product,vendor,pack,price\n)?[a-z0-9,\" \n.é-]{0,200}") {
        let list = read(&text, &catalog(), &rules());
        for f in &list.findings {
            prop_assert!(f.line >= 1 && f.column >= 1);
        }
    }

    #[test]
    fn totals_are_the_exact_sum(units in prop::collection::vec(0_u64..500, 1..6)) {
        let list = read(GOOD, &catalog(), &rules());
        let order: Vec<OrderLine> = units.iter().map(|&units| OrderLine { product: "foil_board".into(), units, waste: Share(Decimal::ZERO) }).collect();
        let bill_rules = BillRules { currency: usd(), tax: Share(Decimal::ZERO), vendor: Some("north yard".into()), allowances: vec![] };
        let bill = price(&order, &list, &bill_rules).expect("a bill");
        let count: u64 = units.iter().sum();
        prop_assert_eq!(bill.total.amount, Decimal::from(count * 41));
    }
}
