//! A bid as tables: figures, quantities, sums and days at both ends of the ranges and in the middle; what is set
//! aside, left out and taken for granted; and where to sign.

use wythe_bill::bid::{BidCase, BidSums, Drawn, Figures};
use wythe_bill::cost::Money;
use wythe_bill::labor::crew_days;
use wythe_model::bid::BidNumbers;

use super::order::pack;
use super::{Cell, Document, Shower, Table};

const ENDS: [(&str, &str); 4] = [("what", ""), ("low", ">low"), ("middle", ">middle"), ("high", ">high")];

/// A bid, and the drawn house beside it where there is one.
pub fn bid(numbers: &BidNumbers, cases: &[BidCase], drawn: Option<&Drawn>, show: &Shower<'_>) -> Document {
    let mut document = Document::new("bid", format!("Bid {}, built like {}", numbers.name, numbers.like.name));
    document.complete = cases.len() == 3 && cases.iter().all(|c| c.sums.is_some() && c.job.is_complete());
    let sum = |i: usize| cases.get(i).and_then(|c| c.sums);
    match (sum(0), sum(1), sum(2)) {
        (Some(low), Some(middle), Some(high)) => document.remarks.push(format!(
            "{}; from {} to {} as the figures may be.",
            show.money(middle.total).shown(),
            show.money(low.total).shown(),
            show.money(high.total).shown()
        )),
        _ => document.remarks.push("INCOMPLETE: something is not counted or has no price; see the findings.".into()),
    }
    if let Some(until) = numbers.until {
        document.remarks.push(format!("This bid holds until {until}."));
    }
    document.remarks.push(
        "Counted for a rectangle of these walls and this floor, every range at its low end, its middle and its high end. \
         Nothing here sizes structure."
            .into(),
    );
    document.tables.push(figures(cases, drawn, show));
    document.tables.push(goods(cases));
    document.tables.push(sums(numbers, cases, show));
    let list = |key, title: &str, rows: Vec<Vec<Cell>>| {
        let mut table = Table::new(key, title, &[("what", "what")]);
        rows.into_iter().for_each(|r| table.row(r));
        table
    };
    if !numbers.allowances.is_empty() {
        let mut table = Table::new("allowances", "Sums set aside", &[("what", "what"), ("amount", ">amount")]);
        for a in &numbers.allowances {
            let money = a.currency.as_str().parse().ok().map(|currency| Money { amount: a.amount, currency });
            table.row(vec![Cell::text(a.what.as_ref()), money.map_or(Cell::Empty, |m| show.money(m))]);
        }
        document.tables.push(table);
    }
    let texts = |all: &[std::sync::Arc<str>]| all.iter().map(|t| vec![Cell::text(t.as_ref())]).collect::<Vec<_>>();
    if !numbers.excluded.is_empty() {
        document.tables.push(list("excluded", "Not in this bid", texts(&numbers.excluded)));
    }
    if !numbers.assumed.is_empty() {
        document.tables.push(list("assumed", "Taken for granted", texts(&numbers.assumed)));
    }
    document.tables.push(signatures());
    document
}

/// Where both sides sign.
pub(super) fn signatures() -> Table {
    let mut table = Table::new(
        "signatures",
        "Signed",
        &[("who", ""), ("name", "name"), ("signature", "signature"), ("date", "date")],
    );
    for who in ["for the owner", "for the builder"] {
        table.row(vec![
            Cell::text(who),
            Cell::text("____________________"),
            Cell::text("______________________________"),
            Cell::text("____________"),
        ]);
    }
    table
}

fn figures(cases: &[BidCase], drawn: Option<&Drawn>, show: &Shower<'_>) -> Table {
    let mut columns = ENDS.to_vec();
    if drawn.is_some() {
        columns.extend([("drawn", ">as drawn"), ("outside", "outside the bid")]);
    }
    let mut table = Table::new("figures", "Figures", &columns);
    type Shown<'a> = Box<dyn Fn(&Figures) -> Cell + 'a>;
    let rows: [(&str, Shown<'_>); 7] = [
        ("perimeter", Box::new(|f| show.length(f.perimeter))),
        ("floor", Box::new(|f| show.measure(wythe_model::quantity::Measure::Area(f.floor)))),
        ("height", Box::new(|f| show.length(f.height))),
        ("pier_count", Box::new(|f| Cell::Count(u64::from(f.piers)))),
        ("hatch_count", Box::new(|f| Cell::Count(u64::from(f.hatches)))),
        ("vent_count", Box::new(|f| Cell::Count(u64::from(f.vents)))),
        ("rains", Box::new(|f| Cell::Count(u64::from(f.rains)))),
    ];
    for (name, shown) in rows {
        let mut row = vec![Cell::text(name)];
        row.extend(ends(cases, |c| Some(shown(&c.figures))));
        if let Some(d) = drawn {
            row.push(if name == "rains" { Cell::Empty } else { shown(&d.figures) });
            row.push(Cell::Mark(d.outside.contains(&name)));
        }
        table.row(row);
    }
    table
}

fn goods(cases: &[BidCase]) -> Table {
    let mut columns = ENDS.to_vec();
    columns.insert(1, ("pack", "pack"));
    let mut table = Table::new("goods", "Goods", &columns);
    let mut names: Vec<(&str, String)> = Vec::new();
    for item in cases.iter().flat_map(|c| &c.job.order) {
        if !names.iter().any(|(n, _)| *n == item.product.name.as_str()) {
            names.push((item.product.name.as_str(), pack(item)));
        }
    }
    names.sort_unstable();
    for (name, pack) in names {
        let mut row = vec![Cell::text(name), Cell::text(pack)];
        row.extend(ends(cases, |c| {
            let item = c.job.order.iter().find(|i| i.product.name.as_str() == name)?;
            Some(Cell::Count(item.packs()))
        }));
        table.row(row);
    }
    table
}

fn sums(numbers: &BidNumbers, cases: &[BidCase], show: &Shower<'_>) -> Table {
    let mut table = Table::new("sums", "Price and days", &ENDS);
    let percent = numbers.markup.checked_mul(rust_decimal::Decimal::ONE_HUNDRED).unwrap_or_default().normalize();
    type Sum = fn(&BidSums) -> Money;
    let rows: [(String, Sum); 5] = [
        ("goods with tax".into(), |s| s.goods),
        ("labor".into(), |s| s.labor),
        (format!("markup {percent} %"), |s| s.markup),
        ("sums set aside".into(), |s| s.allowances),
        ("bid".into(), |s| s.total),
    ];
    for (name, of) in rows {
        let mut row = vec![Cell::text(name)];
        row.extend(ends(cases, |c| Some(c.sums.as_ref().map_or(Cell::text("not known"), |s| show.money(of(s))))));
        table.row(row);
    }
    let mut visits = vec![Cell::text("visits")];
    visits.extend(ends(cases, |c| Some(Cell::Count(c.labor.iter().map(|h| h.visits.len() as u64).sum()))));
    table.row(visits);
    let mut days = vec![Cell::text("crew-days")];
    days.extend(ends(cases, |c| (!c.labor.is_empty()).then(|| Cell::Number(crew_days(&c.labor).value, 2))));
    table.row(days);
    table
}

/// A cell for each end; empty where the house of that end could not be worked out.
fn ends<'a>(cases: &'a [BidCase], cell: impl Fn(&'a BidCase) -> Option<Cell> + 'a) -> impl Iterator<Item = Cell> + 'a {
    wythe_bill::bid::End::ALL
        .into_iter()
        .map(move |end| cases.iter().find(|c| c.end == end).and_then(&cell).unwrap_or(Cell::Empty))
}
