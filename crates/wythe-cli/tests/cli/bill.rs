//! `wythe takeoff`, `cut-list`, `order`, `schedule`, `compare`, `what-if` and `progress`, on the houses taken off by hand.

use std::process::Command;

use crate::plans::Plans;

pub const LIBRARY: &str = include_str!("../../../../tests/hand/takeoff/library.wythe");
pub const RECTANGLE: &str = include_str!("../../../../tests/hand/takeoff/rectangle.wythe");
const OPENINGS: &str = include_str!("../../../../tests/hand/takeoff/openings.wythe");

pub const PRICES: &str = "\
use \"library.wythe\": sheet
pub prices spring {
    file: table(\"spring.csv\"); currency: USD; dated: 2026-03-01; until: 2026-03-31; tax: 6.5 %
}
";

pub const CSV: &str = "\
product,vendor,pack,price
film,North Yard (invented),1 pail,100.00
hung_sheet,North Yard (invented),1 roll,120.00
floor_sheet,North Yard (invented),1 roll,400.00
board,North Yard (invented),1 sheet,40.00
board,South Yard (invented),1 sheet,39.50
bord,North Yard (invented),1 sheet,40.00
edge_tape,North Yard (invented),1 box,20.00
joint_tape,North Yard (invented),1 roll,20.00
seam_tape,North Yard (invented),1 roll,25.00
sealant,North Yard (invented),1 tube,8.00
pin,North Yard (invented),100 pc,30.00
anchor,North Yard (invented),50 pc,28.00
pipe,North Yard (invented),1 pc,10.00
stone,North Yard (invented),1 yd3,45.00
";

const LOG: &str = "\
use \"rectangle.wythe\": rectangle
use \"library.wythe\": outside_work, inside_work
log rectangle_progress {
    of_foundation: rectangle
    entry 2026-03-02 { done: [outside_work]; hold: passed }
    entry 2026-03-03 { visit: inside_work; walls: [south]; layers: [board] }
    entry 2026-03-04 { visit: inside_work; walls: [east, attic]; share: 50 %; rain: true }
}
";

pub fn plans() -> Plans {
    let plans = Plans::new(&[("library.wythe", LIBRARY), ("rectangle.wythe", RECTANGLE), ("openings.wythe", OPENINGS)]);
    plans.write("prices.wythe", PRICES);
    plans.write("spring.csv", CSV);
    plans
}

#[test]
fn a_takeoff_by_product_wall_and_phase() {
    let plans = plans();
    let run = plans.run(&["takeoff", "rectangle", "--by", "product"]);
    insta::assert_snapshot!(run.shown());
    let by_wall = plans.run(&["takeoff", "rectangle.wythe", "--by", "wall", "--format", "csv"]);
    assert_eq!(by_wall.code, 0, "{}", by_wall.err);
    assert!(by_wall.out.starts_with("house,element,face,phase,work,layer,product,part,net,counted,how,place\r\n"));
    assert!(by_wall.out.contains(",south,inside,inside_work,set,board,board,surface,"), "{}", by_wall.out);
    let by_phase = plans.run(&["takeoff", "rectangle", "--by", "phase", "--repository", "."]);
    assert!(by_phase.out.contains("finish"), "{}", by_phase.out);
    let by_house = plans.run(&["takeoff", ".", "--by", "house", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_str(&by_house.out).unwrap();
    let rows = json["houses"].as_array().unwrap();
    let of = |house: &str| {
        rows.iter().find(|r| r["house"] == house && r["product"] == "pipe").unwrap()["net"]["si"].as_f64().unwrap()
    };
    // The drain runs round the outside of the footing: 112 ft of it.
    assert!((of("rectangle") - 112.0 * 0.3048).abs() < 1e-6, "{}", of("rectangle"));
    assert!(rows.iter().any(|r| r["house"] == "with_openings"), "{}", by_house.out);
}

#[test]
fn a_cut_list_that_program_and_crew_can_read() {
    let plans = plans();
    let run = plans.run(&["cut-list", "with_openings", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(json["kind"], "cut_list");
    assert_eq!(json["complete"], true);
    let pieces = json["pieces"].as_array().unwrap();
    let meters: f64 = pieces.iter().map(|p| p["length"]["si"].as_f64().unwrap()).sum();
    // 952 in of 24 in high, and 32 in under the door.
    assert!((meters - (952.0 + 32.0) * 0.0254).abs() < 1e-3, "{meters}");
    assert!(pieces.iter().any(|p| p["cut_out"].as_str().unwrap().starts_with("v1 1' 4\" x 4\"")), "{}", run.out);
    let along = plans.run(&["cut-list", "rectangle", "--along", "--as-drawn"]);
    assert!(along.out.contains("7 sheets of 4' x 8'"), "{}", along.out);
    let factory = plans.run(&["cut-list", "rectangle", "--factory-edges"]);
    assert!(factory.out.contains("sheets of 4' x 8'"), "{}", factory.out);
}

#[test]
fn an_order_says_which_lines_of_the_price_file_are_of_no_use_and_what_has_no_price() {
    let plans = plans();
    let run = plans.run(&["order", "rectangle", "--prices", "spring", "--rates", "two_hands", "--today", "2026-04-02"]);
    assert_eq!(run.code, 1);
    for said in [
        "INCOMPLETE",
        "spring.csv:7:1: no product `bord`; did you mean `board`?",
        "spring.csv:8:33: sold by the box, counted by the roll",
        "`edge_tape`: no price",
        "these prices held until 2026-03-31",
        "South Yard (invented)",
    ] {
        assert!(run.out.contains(said), "{said}\n{}", run.out);
    }
    let one = plans.run(&["order", "rectangle", "--vendor", "North Yard (invented)", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_str(&one.out).unwrap();
    assert_eq!(json["complete"], false);
    let row = |name: &str| json["order"].as_array().unwrap().iter().find(|r| r["product"] == name).unwrap().clone();
    assert_eq!((&row("board")["packs"], &row("board")["cost"]["amount"]), (&7.into(), &"280.00".into()));
    assert_eq!((&row("pin")["packs"], &row("pin")["cost"]["amount"]), (&2.into(), &"60.00".into()));
    // The parts of the total add up, by hand: 4 film, 2 and 1 rolls, 7 board, joint and seam tape, 9 tubes, 2 boxes of
    // pins, 12 pipes, 4 yd3; anchors by the cut list.
    let anchors = row("anchor")["packs"].as_u64().unwrap() * 28;
    let joint_tape = row("joint_tape")["packs"].as_u64().unwrap() * 20;
    let goods = 400 + 240 + 400 + 280 + joint_tape + 25 + 72 + 60 + anchors + 120 + 180;
    let total = |what: &str| json["totals"].as_array().unwrap().iter().find(|r| r["what"] == what).unwrap().clone();
    assert_eq!(total("goods")["amount"]["amount"], format!("{goods}.00"));
    plans.write("spring.csv", [0xff, 0xfe, 0x00]);
    let unreadable = plans.run(&["order", "rectangle"]);
    assert!(unreadable.out.contains("`spring.csv` cannot be read"), "{}", unreadable.out);
}

#[test]
fn a_schedule_for_people_and_for_a_calendar() {
    let plans = plans();
    let arguments = ["schedule", "rectangle", "--start", "2026-03-02", "--day-off", "2026-03-03"];
    let run = plans.run(&arguments);
    insta::assert_snapshot!(run.shown());
    let ics = plans.run(&[
        "schedule",
        "rectangle",
        "--start",
        "2026-03-02",
        "--weather",
        "2026-03-02",
        "--drying",
        "1",
        "--format",
        "ics",
    ]);
    assert!(ics.out.starts_with("BEGIN:VCALENDAR\r\n") && ics.out.ends_with("END:VCALENDAR\r\n"), "{}", ics.out);
    assert_eq!(ics.out.matches("BEGIN:VEVENT").count(), 3);
    assert!(plans.run(&["schedule", "rectangle"]).code == 2);
}

#[test]
fn two_revisions_are_compared_with_the_lines_that_made_the_change() {
    let plans = plans();
    plans.write("longer.wythe", RECTANGLE.replace("east 32'", "east 34'").replace("west 32'", "west 34'"));
    let run =
        plans.run(&["compare", "rectangle.wythe", "longer.wythe", "--start", "2026-03-02", "--format", "markdown"]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(run.out.contains("south: set board, surface"), "{}", run.out);
    assert!(run.out.contains("longer.wythe:9: wall south runs east 34'"), "{}", run.out);
    // What did not change made no change.
    assert!(!run.out.contains("wall east runs north"), "{}", run.out);
    let same =
        plans.run(&["compare", "rectangle.wythe", "rectangle.wythe", "--rates", "two_hands", "--prices", "spring"]);
    assert!(same.out.contains("Nothing differs."), "{}", same.out);
}

pub fn git(plans: &Plans, arguments: &[&str]) {
    let mut command = Command::new("git");
    command.current_dir(plans.root()).args(["-c", "user.name=t", "-c", "user.email=t@example.invalid"]).args(arguments);
    assert!(command.output().unwrap().status.success(), "{arguments:?}");
}

#[test]
fn a_revision_of_git_is_compared_with_what_stands_now() {
    let plans = plans();
    git(&plans, &["init", "-q"]);
    git(&plans, &["add", "."]);
    git(&plans, &["commit", "-q", "-m", "before"]);
    plans.write("rectangle.wythe", RECTANGLE.replace("build: lined_wall", "build: lined_wall(gap: 6\")"));
    let run = plans.run(&["compare", "rectangle.wythe", "--git", "HEAD"]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(run.out.contains("rectangle.wythe:7: build: lined_wall(gap: 6\")"), "{}", run.out);
    for wrong in ["nowhere", "--help"] {
        let run = plans.run(&["compare", "rectangle.wythe", &format!("--git={wrong}")]);
        assert_eq!(run.code, 2, "{wrong}: {}", run.out);
    }
}

#[test]
fn ways_are_laid_side_by_side_and_no_file_is_changed() {
    let plans = plans();
    let run = plans.run(&["what-if", "rectangle", "--vary", "gap=2\"..6\" by 2\""]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(run.out.contains("gap 2\"") && run.out.contains("gap 4\"") && run.out.contains("gap 6\""), "{}", run.out);
    assert_eq!(plans.read("rectangle.wythe"), RECTANGLE);
    let lost = plans.run(&["what-if", "rectangle", "--vary", "color=red"]);
    assert_eq!(lost.code, 2);
    assert!(lost.err.contains("color"), "{}", lost.err);
    let ill = plans.run(&["what-if", "rectangle", "--vary", "gap=4 psf", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_str(&ill.out).unwrap();
    assert_eq!(json["complete"], false);
}

#[test]
fn progress_is_read_from_the_log_and_its_faults_are_found() {
    let plans = plans();
    plans.write("log.wythe", LOG);
    let run = plans.run(&["progress", "rectangle", "--today", "2026-03-05", "--log", "rectangle_progress"]);
    insta::assert_snapshot!(run.shown());
    let none = plans.run(&["progress", "with_openings"]);
    assert_eq!(none.code, 2);
}

#[test]
fn what_is_not_there_is_told_on_standard_error() {
    let plans = plans();
    for command in ["takeoff", "cut-list", "order", "progress"] {
        let run = plans.run(&[command, "nowhere"]);
        assert_eq!((run.code, run.out.as_str()), (2, ""), "{command}");
        assert!(run.err.contains("`nowhere`"), "{}", run.err);
    }
}
