//! Bids: a house by numbers, against the drawn house with the same numbers and against hand arithmetic.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod houses;

use jiff::civil::date;
use rust_decimal::Decimal;
use uom::si::length::{foot, inch};
use wythe_bill::bid::{BidTerms, End, bid, drawn};
use wythe_bill::change::{Side, change};
use wythe_bill::cost::{PriceBook, price, read};
use wythe_bill::labor::labor;
use wythe_bill::{Job, Terms};
use wythe_model::geometry::Basis;
use wythe_project::Memory;

use houses::{Declared, declared};

const LIBRARY: &str = include_str!("../../../tests/hand/takeoff/library.wythe");
const RECTANGLE: &str = include_str!("../../../tests/hand/takeoff/rectangle.wythe");
const LEDGERS: &str = "\
use \"library.wythe\": sheet
prices spring { file: table(\"p.csv\"); currency: USD; dated: 2026-03-01; tax: 10 % }
rates crew {
    people: 2; day: 8 h; hourly: 30 USD per h; set_up: 1 h; tear_down: 1 h; travel: 1 h; minimum: 4 h; drying: 2 h
    rate coat 100 ft2 per h
    rate drain 50 ft per h
    rate fill 2 yd3 per h
    rate hang 100 ft2 per h
    rate fasten 100 pc per h
    rate tape 100 ft per h
    rate seal 100 ft per h
    rate set 100 ft2 per h
    rate lay 300 ft2 per h
}
";

/// Every product at ten dollars.
fn csv(declared: &Declared) -> String {
    let mut text = "product,vendor,pack,price\n".to_owned();
    for p in &declared.products {
        let (unit, count) = p.pack.map_or(("yd3".to_owned(), 1), |(unit, n)| (unit.to_string(), n));
        text.push_str(&format!("{},Yard (invented),{count} {unit},10.00\n", p.name));
    }
    text
}

fn with_bid(bid: &str, rectangle: &str) -> (Declared, PriceBook) {
    let head = "use \"rectangle.wythe\": rectangle\n";
    let text = format!("{head}{bid}\n");
    let read_all = declared(Memory::new([
        ("library.wythe", LIBRARY),
        ("rectangle.wythe", rectangle),
        ("ledgers.wythe", LEDGERS),
        ("bid.wythe", text.as_str()),
    ]));
    let book = read(&read_all.prices[0], "p.csv", &csv(&read_all), &read_all.products, false).unwrap().0;
    (read_all, book)
}

fn terms<'a>(all: &'a Declared, book: &'a PriceBook, terms: &'a Terms) -> BidTerms<'a> {
    BidTerms { terms, book: Some(book), crew: all.rates.first(), today: Some(date(2026, 4, 1)) }
}

/// 368 x 272 in inside.
const SAME: &str =
    "let same = Bid(like: rectangle, perimeter: 112', floor: 695.1111 ft2, hatch_count: 0, drawn: rectangle)";

#[test]
fn a_bid_with_the_figures_of_a_drawn_house_orders_what_that_house_orders() {
    let (all, book) = with_bid(SAME, RECTANGLE);
    let plain = Terms::default();
    let (cases, findings) = bid(&all.bids[0], &terms(&all, &book, &plain));
    assert!(findings.is_empty(), "{findings:?}");
    let job = Job::of(&[all.foundation("rectangle")], &plain);
    let order = |job: &Job| job.order.iter().map(|i| (i.product.name.to_string(), i.units)).collect::<Vec<_>>();
    for case in &cases {
        assert_eq!(order(&case.job), order(&job), "{:?}", case.end);
    }
    let bill = price(&job, &book, Vec::new(), None, None).unwrap().0;
    assert_eq!(cases[1].sums.unwrap().goods, bill.total);
    let (beside, left) = drawn(&all.bids[0]).unwrap();
    assert!(beside.outside.is_empty() && left.is_empty(), "{beside:?}");
}

#[test]
fn ranges_give_three_houses_and_the_sums_add_up() {
    let text = "let wide = Bid(like: rectangle, perimeter: 100' .. 120', height: 2' .. 3', pier_count: 2 .. 5, vent_count: 2, rains: 1 .. 3, \
                markup: 15 %, allowances: [Allowance(what: \"rock\", amount: 800 USD)], excluded: [\"lights\"], assumed: [\"dry\"])";
    let (all, book) = with_bid(text, RECTANGLE);
    let numbers = &all.bids[0];
    assert_eq!((numbers.excluded.len(), numbers.assumed.len()), (1, 1));
    let plain = Terms::default();
    let (cases, _) = bid(numbers, &terms(&all, &book, &plain));
    let feet: Vec<f64> = cases.iter().map(|c| c.figures.perimeter.get::<foot>()).collect();
    assert!(feet.iter().zip([100.0, 110.0, 120.0]).all(|(a, b)| (a - b).abs() < 1e-6), "{feet:?}");
    let heights: Vec<f64> = cases.iter().map(|c| c.figures.height.get::<inch>()).collect();
    assert!(heights.iter().zip([24.0, 30.0, 36.0]).all(|(a, b)| (a - b).abs() < 1e-6), "{heights:?}");
    assert_eq!(cases.iter().map(|c| c.figures.piers).collect::<Vec<_>>(), [2, 4, 5]);
    // The inside of 100 ft of 8 in wall is 94 ft 8 in; six tenths and four tenths of half of it.
    let floor = 47.3333 * 0.6 * 47.3333 * 0.4;
    let shown = cases[0].figures.floor.get::<uom::si::area::square_foot>();
    assert!((shown - floor).abs() < 0.01, "{shown} {floor}");
    let mut before = Decimal::ZERO;
    for case in &cases {
        let sums = case.sums.unwrap();
        let both = sums.goods.amount + sums.labor.amount;
        assert_eq!(sums.markup.amount, (both * Decimal::new(15, 2)).round_dp(2));
        assert_eq!(sums.total.amount, both + sums.markup.amount + Decimal::from(800));
        assert!(sums.total.amount > before, "{:?}", case.end);
        before = sums.total.amount;
    }
    // Three rains at two hours each, of two people at 30 an hour, beside none.
    let dry = labor(&cases[2].job, &all.rates[0]).0;
    let hours = |labor: &[wythe_bill::labor::HouseLabor]| {
        labor.iter().flat_map(|h| &h.visits).map(|v| v.on_site.get::<uom::si::time::hour>()).sum::<f64>()
    };
    assert!((hours(&cases[2].labor) - hours(&dry) - 6.0).abs() < 1e-9);
    assert_eq!(End::ALL.len(), cases.len());
}

#[test]
fn what_cannot_be_is_found_and_the_rest_comes_out() {
    let names = |text: &str| {
        let (all, book) = with_bid(text, RECTANGLE);
        let plain = Terms::default();
        let (cases, findings) = bid(&all.bids[0], &terms(&all, &book, &plain));
        let names: Vec<String> = findings.iter().map(|f| format!("{} {}", f.name.as_str(), f.title)).collect();
        (cases.len(), names)
    };
    let (left, found) = names("let b = Bid(like: rectangle, perimeter: 100' .. 120', floor: 600 ft2 .. 700 ft2)");
    assert_eq!(left, 2, "the low end alone is impossible");
    assert!(found[0].starts_with("bid_impossible 600 ft2 of floor do not fit inside 100.0 ft of wall"), "{found:?}");
    let (left, found) = names("let b = Bid(like: rectangle, perimeter: 0' .. 100')");
    assert_eq!(left, 2);
    assert!(found[0].contains("more than nothing"), "{found:?}");
    let (_, found) = names("let b = Bid(like: rectangle, perimeter: 100', until: 2026-03-01)");
    assert!(found[0].starts_with("bid_expired"), "{found:?}");
    let (left, found) =
        names("let b = Bid(like: rectangle, perimeter: 100', allowances: [Allowance(what: \"rock\", amount: 10 EUR)])");
    assert_eq!(left, 3);
    assert!(found[0].contains("the allowance for rock"), "{found:?}");
    let (all, _) = with_bid("let b = Bid(like: rectangle, perimeter: 90' .. 100', drawn: rectangle)", RECTANGLE);
    let (beside, left) = drawn(&all.bids[0]).unwrap();
    assert_eq!(beside.outside, ["perimeter", "hatch_count"]);
    assert_eq!(left[0].name.as_str(), "bid_left");
}

/// A wall measured 2 ft longer than drawn reaches order, cut list and the price of the change.
#[test]
fn lengths_as_built_change_the_order() {
    let longer = RECTANGLE
        .replace("wall south runs east 32'", "wall south runs east 32' { as_built: 40' }")
        .replace("wall north runs west 32'", "wall north runs west 32' { as_built: 40' }");
    let (all, book) = with_bid(SAME, &longer);
    let f = all.foundation("rectangle");
    let job = |basis| Job::of(std::slice::from_ref(&f), &Terms { basis, ..Terms::default() });
    let (design, built) = (job(Basis::Design), job(Basis::AsBuilt));
    let bill = |job: &Job| price(job, &book, Vec::new(), None, None).unwrap().0;
    let (a, b) = (bill(&design), bill(&built));
    let (la, lb) = (labor(&design, &all.rates[0]).0, labor(&built, &all.rates[0]).0);
    let order = change(
        Side { job: &design, bill: Some(&a), labor: &la, schedule: None },
        Side { job: &built, bill: Some(&b), labor: &lb, schedule: None },
    );
    let board = order.items.iter().find(|i| i.product.as_str() == "board").unwrap();
    assert!(board.after > board.before, "{board:?}");
    assert_eq!(board.cost.unwrap().amount, Decimal::from(10 * (board.after - board.before)));
    assert_eq!(order.goods.unwrap().amount, b.total.amount - a.total.amount);
    assert_eq!(order.total.unwrap().amount, order.goods.unwrap().amount + order.labor.unwrap().amount);
    assert!(order.crew_days.unwrap().value > 0.0);
    let length = |job: &Job| job.boards[0].plan.pieces().map(|(_, p)| p.length().get::<foot>()).sum::<f64>();
    assert!((length(&built) - length(&design) - 16.0).abs() < 1e-6);
}
