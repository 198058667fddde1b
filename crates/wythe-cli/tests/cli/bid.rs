//! `wythe bid` and `wythe change`, and the drawings of a cut list, on the houses taken off by hand.

use crate::bill::{RECTANGLE, git, plans};

const BID: &str = "\
use \"rectangle.wythe\": rectangle
use \"library.wythe\": sheet
pub let next_door = Bid(
    like: rectangle, perimeter: 104' .. 120', pier_count: 2 .. 4, rains: 1 .. 2, markup: 12 %,
    allowances: [Allowance(what: \"rock in the trench\", amount: 800 USD)],
    excluded: [\"lights\"], assumed: [\"the crawl floor is dry\"], until: 2026-06-30
)
";

#[test]
fn a_house_is_bid_by_numbers() {
    let plans = plans();
    plans.write("bid.wythe", BID);
    let run = plans.run(&["bid", "next_door", "--today", "2026-03-20"]);
    for said in
        ["rock in the trench", "Not in this bid", "lights", "the crawl floor is dry", "2026-06-30", "Signed", "104'"]
    {
        assert!(run.out.contains(said), "{said}\n{}\n{}", run.out, run.err);
    }
    let json =
        plans.run(&["bid", "--prices", "spring", "--rates", "two_hands", "--repository", ".", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_str(&json.out).unwrap();
    assert_eq!(json["kind"], "bid");
    // One product of the list has no price: no total is made up.
    assert_eq!(json["complete"], false);
    assert_eq!(json["figures"][0]["what"], "perimeter");
    // The house by hand has its faults; the bid has none.
    let check = plans.run(&["check", "bid.wythe"]);
    assert!(!check.out.contains("bid.wythe:"), "{}", check.out);
    let lost = plans.run(&["bid", "elsewhere"]);
    assert_eq!(lost.code, 2);
    assert!(lost.err.contains("there are: next_door"), "{}", lost.err);
    plans.write("bid.wythe", BID.replace("104' ..", "0' .."));
    let ill = plans.run(&["bid"]);
    assert_eq!(ill.code, 1);
    assert!(ill.out.contains("INCOMPLETE") && ill.out.contains("bid.wythe:4"), "{}", ill.out);
}

#[test]
fn a_change_order_has_difference_price_days_and_reasons() {
    let plans = plans();
    git(&plans, &["init", "-q"]);
    git(&plans, &["add", "."]);
    git(&plans, &["commit", "-q", "-m", "before"]);
    plans.write("rectangle.wythe", RECTANGLE.replace("east 32'", "east 40'").replace("west 32'", "west 40'"));
    let arguments = ["change", "rectangle.wythe", "--git", "HEAD", "--number", "3", "--start", "2026-03-02"];
    let run = plans.run(&arguments);
    for said in [
        "Change order 3",
        "board",
        "crew-days",
        "calendar days",
        "rectangle.wythe:9: wall south runs east 40'",
        "for the owner",
    ] {
        assert!(run.out.contains(said), "{said}\n{}\n{}", run.out, run.err);
    }
    let none =
        plans.run(&["change", "rectangle.wythe", "rectangle.wythe", "--prices", "spring", "--rates", "two_hands"]);
    assert!(!none.out.contains("Because"), "{}", none.out);
    assert_eq!(plans.run(&["change", "rectangle.wythe"]).code, 2);
}

#[test]
fn what_was_measured_on_site_is_a_change() {
    let plans = plans();
    plans.write(
        "rectangle.wythe",
        RECTANGLE.replace("wall south runs east 32'", "wall south runs east 32' { as_built: 32' 3\" }"),
    );
    let run = plans.run(&["change", "rectangle", "--as-built", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(json["kind"], "change_order");
    assert_eq!(json["because"][0]["line"], "rectangle.south: drawn 32.00 ft, built 32.25 ft");
}

#[test]
fn each_way_a_sheet_is_cut_is_drawn() {
    let plans = plans();
    let run = plans.run(&["cut-list", "rectangle", "--drawings", "patterns", "--theme", "print", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    let pieces = json["pieces"].as_array().unwrap();
    let patterns = pieces.iter().map(|p| p["pattern"].as_u64().unwrap()).max().unwrap();
    for pattern in 1..=patterns {
        let svg = plans.read(&format!("patterns/board_pattern_{pattern}.svg"));
        assert!(svg.starts_with("<svg") || svg.starts_with("<?xml"), "{svg}");
        let mine = pieces.iter().filter(|p| p["pattern"] == pattern);
        // The first sheet of each pattern bears its numbers.
        let first = mine.clone().map(|p| p["sheet"].as_u64().unwrap()).min().unwrap();
        for piece in mine.filter(|p| p["sheet"] == first) {
            assert!(svg.contains(&format!("Piece {}", piece["number"])), "{piece}");
        }
    }
}

#[test]
fn a_thickness_stands_for_its_product_and_a_range_has_steps() {
    let plans = plans();
    let run = plans.run(&["what-if", "rectangle", "--vary", "gap=2 in .. 4 in by 1 in"]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(run.out.contains("gap 3 in") && run.out.contains("No moisture"), "{}", run.out);
    let wrong = plans.run(&["what-if", "rectangle", "--vary", "gap=4 in .. 2 in by 1 in"]);
    assert_eq!(wrong.code, 2);
    let own = "product thin: Board { thickness: 1\"; resistance: R-5; facing: foil; size: 4' x 8' }\n\
               product thick: Board { thickness: 2\"; resistance: R-10; facing: foil; size: 4' x 8' }\n\
               buildup faced(board: Board) for wall {\n structure: block\n inside { during inside_work {\n\
               set board from top - 4\" to ground\n fasten board with anchor by 6 per sheet\n } }\n}\n";
    let text = RECTANGLE.replace("use \"library.wythe\": lined_wall,", "use \"library.wythe\": block, anchor, sheet,");
    plans.write(
        "rectangle.wythe",
        text.replace("build: lined_wall", "build: faced(board: thin)").replace("    joints: [foot]\n", "") + own,
    );
    let run = plans.run(&["what-if", "rectangle", "--vary", "board: [1 in, 2 in]"]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(run.out.contains("board thin") && run.out.contains("board thick"), "{}", run.out);
    let lost = plans.run(&["what-if", "rectangle", "--vary", "board=9 in"]);
    assert!(
        lost.code == 2 && lost.err.contains("thin of 1 in, thick of 2 in")
            || lost.err.contains("thick of 2 in, thin of 1 in"),
        "{}",
        lost.err
    );
}
