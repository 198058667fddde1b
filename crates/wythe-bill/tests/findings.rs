//! Every finding of the bill, from the smallest source that gives it; and each is given by some source here.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod houses;

use std::collections::BTreeSet;

use jiff::civil::date;
use wythe_bill::bid::{BidTerms, bid, drawn};
use wythe_bill::cost::{price, read};
use wythe_bill::labor::labor;
use wythe_bill::progress::Progress;
use wythe_bill::timeline::{WorkCalendar, WorkWeek, activities, schedule};
use wythe_bill::{Job, Terms};
use wythe_findings::all_pages;
use wythe_project::Memory;

use houses::declared;

const SITE: &str = "pub site s { climate_zone: zone_4a }\n";

/// A square house of one build-up; `products`, `wall` and `ground` are put in.
fn house(products: &str, wall: &str, ground: &str, top: &str, length: &str, rest: &str) -> String {
    format!(
        "unit sheet\nunit roll\nunit pail\nunit box\n{SITE}product block: Masonry {{ thickness: 8\" }}\n{products}\n\
         phase stem {{ brings: [stem] }}\nphase inside {{ hold: \"seen\" }}\nphase late {{ }}\n\
         buildup w for wall {{ structure: block; inside {{ during inside {{ {wall} }} }} }}\n\
         buildup g for ground {{ face {{ during late {{ {ground} }} }} }}\n\
         pub foundation f on s {{\n phases: [stem, inside, late]\n walls {{\n build: w\n {top}\n\
         wall south runs east {length}\n wall east runs north {length}\n wall north runs west {length}\n wall west runs south {length}\n }}\n\
         ground {{ build: g }}\n }}\n{rest}\n"
    )
}

const TOP: &str = "top: datum; grade: datum - 8\"; ground: datum - 2'; footing: datum - 3'";
const BOARD: &str = "product b: Board { thickness: 2\"; size: 4' x 8'; edge: porous; pack: 1 sheet }";
const LINER: &str = "product m: Membrane { size: 12' x 100'; pack: 1 roll }";

/// The names of everything found in a source.
fn found(text: &str, csv: &str) -> BTreeSet<String> {
    let mut out = BTreeSet::new();
    let declared = declared(Memory::new([("a.wythe", text)]));
    let terms = declared.rates.first().map_or_else(Terms::default, |c| Terms::default().with_rates(c));
    let job = Job::of(&declared.foundations, &terms);
    let mut note = |findings: &[wythe_findings::Finding]| {
        out.extend(findings.iter().map(|f| f.name.as_str().to_owned()));
    };
    note(&job.findings);
    for sheet in &declared.prices {
        match read(sheet, "p.csv", csv, &declared.products, false) {
            Ok((book, findings)) => {
                note(&findings);
                note(&price(&job, &book, Vec::new(), None, Some(date(2026, 4, 1))).unwrap().1);
            }
            Err(finding) => note(&[*finding]),
        }
    }
    for crew in &declared.rates {
        let (visits, findings) = labor(&job, crew);
        note(&findings);
        let (planned, findings) = activities(&job, crew, &visits);
        note(&findings);
        let idle = WorkCalendar {
            week: WorkWeek::of(&[]),
            holidays: BTreeSet::new(),
            weather: BTreeSet::new(),
            drying_days: 0,
        };
        if let Err(finding) = schedule(&planned, &idle, date(2026, 4, 1), crew) {
            note(&[*finding]);
        }
    }
    for numbers in &declared.bids {
        let with = BidTerms { terms: &terms, book: None, crew: None, today: Some(date(2026, 4, 1)) };
        note(&bid(numbers, &with).1);
        note(&drawn(numbers).map_or(Vec::new(), |d| d.1));
    }
    for log in &declared.logs {
        let progress = Progress::of(&job, 0, log, date(2026, 4, 1)).unwrap();
        note(&progress.findings);
        assert!(progress.done.iter().all(|d| (0.0..=1.0).contains(&d.value)));
    }
    out
}

fn cases() -> Vec<(&'static str, String, &'static str)> {
    let set = "set b from top to ground";
    let rates = "rates r { people: 2; day: 8 h; rate set 90 ft2 per h }";
    let prices = "use \"a.wythe\"\nprices p { file: table(\"p.csv\"); currency: USD; until: 2026-03-01 }";
    let priced = |rest: &str| house(BOARD, set, "", TOP, "20'", rest);
    let log = |entries: &str| {
        let products = format!("{BOARD}\n{LINER}");
        let wall = "hang m from top to ground; set b from top to ground";
        house(&products, wall, "", TOP, "20'", &format!("log l {{ of_foundation: f\n{entries}\n}}"))
    };
    let list = prices.lines().nth(1).unwrap();
    vec![
        ("unmeasured_work", house(BOARD, "set b", "", TOP, "20'", ""), ""),
        ("purchase_unknown", house("product b: Board { thickness: 2\" }", set, "", TOP, "20'", ""), ""),
        (
            "board_not_cut",
            house(
                "product b: Board { size: 1/8\" x 1/8\"; pack: 1 sheet }",
                set,
                "",
                "top: datum; grade: datum - 8\"; ground: datum - 900'; footing: datum - 901'",
                "20'",
                "",
            ),
            "",
        ),
        ("floor_not_laid", house(LINER, "", "lay m by 12'", TOP, "20'", ""), ""),
        (
            "strip_not_cut",
            house(
                "product m: Membrane { size: 1/8\" x 1/8\"; pack: 1 roll }",
                "hang m from top to ground",
                "",
                TOP,
                "400'",
                "",
            ),
            "",
        ),
        ("price_missing", priced(list), "product,vendor,pack,price\n"),
        ("price_old", priced(list), "product,vendor,pack,price\nb,v,1 sheet,4\n"),
        ("price_unusable", priced(list), "product,vendor,pack,price\nb,v,1 sheet,much\n"),
        ("price_unknown_item", priced(list), "product,vendor,pack,price\nbb,v,1 sheet,4\n"),
        ("price_wrong_unit", priced(list), "product,vendor,pack,price\nb,v,1 box,4\n"),
        ("price_duplicate", priced(list), "product,vendor,pack,price\nb,v,1 sheet,4\nb,v,1 sheet,5\n"),
        ("rate_missing", priced("rates r { people: 2; day: 8 h }"), ""),
        ("rate_unlike", priced("rates r { people: 2; day: 8 h; rate set 9 ft per h }"), ""),
        ("labor_impossible", priced("rates r { people: 0; day: 8 h }"), ""),
        ("schedule_impossible", priced(rates), ""),
        ("duration_unsaid", priced(rates), ""),
        ("bid_impossible", priced("let t = Bid(like: f, perimeter: 80', floor: 900 ft2)"), ""),
        ("bid_expired", priced("let t = Bid(like: f, perimeter: 80', until: 2026-03-01)"), ""),
        ("bid_left", priced("let t = Bid(like: f, perimeter: 90' .. 100', drawn: f)"), ""),
        ("logged_too_soon", log("entry 2026-03-01 { visit: inside; walls: [south]; layers: [b] }"), ""),
        (
            "logged_past_hold",
            log("entry 2026-03-01 { done: [stem, inside]; hold: failed }\nentry 2026-03-02 { done: [late] }"),
            "",
        ),
        ("logged_unknown_part", log("entry 2026-03-01 { visit: inside; walls: [attic] }"), ""),
        ("log_out_of_order", log("entry 2026-03-02 { done: [stem] }\nentry 2026-03-01 { done: [inside] }"), ""),
        (
            "log_overfull",
            log(
                "entry 2026-03-01 { visit: inside; walls: [south]; share: 70 % }\nentry 2026-03-02 { visit: inside; walls: [south]; share: 70 % }",
            ),
            "",
        ),
    ]
}

#[test]
fn each_source_gives_its_finding() {
    for (name, text, csv) in cases() {
        let found = found(&text, csv);
        assert!(found.contains(name), "{name} is not among {found:?}\n{text}");
    }
}

#[test]
fn a_sound_house_and_a_sound_log_give_none() {
    let text = house(
        &format!("{BOARD}\n{LINER}"),
        "hang m from top to ground; set b from top to ground",
        "lay m by 12\"",
        TOP,
        "20'",
        "log l { of_foundation: f\nentry 2026-03-01 { done: [stem] }\n\
         entry 2026-03-02 { visit: inside; walls: [south, east]; share: 50 % }\n\
         entry 2026-03-03 { visit: inside; walls: [south, east]; share: 50 %; hold: waiting }\n\
         entry 2026-03-04 { done: [inside]; hold: passed }\nentry 2026-03-05 { visit: late; ground: 33 % } }",
    );
    assert_eq!(found(&text, ""), BTreeSet::new());
}

/// A third of a floor and half of a wall are counted as such.
#[test]
fn parts_are_counted_as_parts() {
    let text = house(
        &format!("{BOARD}\n{LINER}"),
        "set b from top to ground",
        "lay m by 12\"",
        TOP,
        "20'",
        "log l { of_foundation: f\nentry 2026-03-01 { visit: inside; walls: [south]; share: 50 % }\nentry 2026-03-02 { visit: late; ground: 25 % } }",
    );
    let declared = declared(Memory::new([("a.wythe", text.as_str())]));
    let job = Job::of(&declared.foundations, &Terms::default());
    let progress = Progress::of(&job, 0, &declared.logs[0], date(2026, 4, 1)).unwrap();
    let done = |element: &str| {
        let at = job.lines.iter().position(|l| l.element.as_str() == element && l.product.is_some()).unwrap();
        progress.done[at].value
    };
    assert!((done("south") - 0.5).abs() < 1e-12 && (done("ground") - 0.25).abs() < 1e-12 && done("east").abs() < 1e-12);
    // One half of a quarter of the walls.
    let inside = progress.phases.iter().find(|p| p.name.as_str() == "inside").unwrap();
    assert!((inside.done.value - 0.125).abs() < 1e-12);
    assert_eq!(progress.exposed[0].days, 31);
}

#[test]
fn every_code_of_the_bill_has_a_source() {
    let shown: BTreeSet<&str> = cases().iter().map(|c| c.0).collect();
    // A file that is no text is read by the command line, whose tests show it.
    let missing: Vec<&str> = all_pages()
        .filter(|p| p.area == "bill" && p.name != "price_file_unreadable")
        .map(|p| p.name)
        .filter(|n| !shown.contains(n))
        .collect();
    assert_eq!(missing, [""; 0]);
}
