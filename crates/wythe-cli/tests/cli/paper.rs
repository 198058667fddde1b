//! `wythe report` and `wythe site`: whole files, or the old ones.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::plans::{Plans, Run};

fn cedar_row(arguments: &[&str]) -> Run {
    let folder: PathBuf = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/cedar_row");
    Plans::new(&[]).run_in(&folder, arguments, b"")
}

/// A house whose texts would break a page that takes them for markup.
const HOSTILE: &str = "\
pub product block: Masonry { thickness: 7-5/8\"; resistance: R-1.04; source: \"<script>alert(1)</script> & co\" }
pub product a_board_whose_name_never_comes_to_an_end_and_has_no_place_to_break_a_line: Board {
    thickness: 2\"; size: 4' x 8'; resistance: R-12; source: \"\u{5e7}\u{5d9}\u{5e8} 12 \u{5d7}\u{5d3}\u{5e9}\"; controls: [heat]
}
phase seen { hold: \"<img src=x onerror=alert(1)>\" }
pub buildup stem for wall {
    structure: block
    inside {
        during seen {
            set a_board_whose_name_never_comes_to_an_end_and_has_no_place_to_break_a_line from top - 4\" to ground
        }
    }
}
site lot {}
pub foundation small on lot {
    phases: [seen]
    walls {
        build: stem
        top: datum; grade: datum - 8\"; ground: datum - 32\"; footing: datum - 40\"
        wall south runs east 30'
        wall east runs north 20'
        wall north runs west 30'
        wall west runs south 20'
    }
}
pub foundation twin on lot {
    walls {
        build: stem
        top: datum; grade: datum - 8\"; ground: datum - 32\"; footing: datum - 40\"
        wall south runs east 2'
        wall east runs north 2'
        wall north runs west 2'
        wall west runs south 2'
    }
}
";

#[test]
fn a_report_is_one_file_that_fetches_nothing() {
    let plans = Plans::new(&[]);
    let file = plans.path("vented.html");
    let run = cedar_row(&["report", "houses/unit_9_vented.wythe", "--output", file.to_str().unwrap()]);
    assert_eq!((run.code, run.out.trim()), (0, file.to_str().unwrap()), "{}", run.err);
    let page = fs::read_to_string(&file).unwrap();
    for part in ["<h1>unit_9_vented</h1>", "At a glance", "1120", "Heat loss by part", "Assumptions and their sources"]
    {
        assert!(page.contains(part), "no `{part}`");
    }
    for fetched in ["src=\"", "url(", "@import", "<script", "<link", "href=\"http"] {
        assert!(!page.contains(fetched), "the page fetches by `{fetched}`");
    }
}

#[test]
fn what_is_written_in_plans_is_text_on_the_page() {
    let plans = Plans::new(&[("small.wythe", HOSTILE)]);
    let several = plans.run(&["report", "small.wythe"]);
    assert_eq!(several.code, 2);
    assert!(several.err.contains("name one of small, twin"), "{}", several.err);
    let run = plans.run(&["report", "small"]);
    assert!(run.code < 2, "{}", run.err);
    let page = plans.read("small_report.html");
    assert!(!page.contains("<script") && !page.contains("<img"));
    assert!(page.contains("&lt;script&gt;alert(1)&lt;/script&gt; &amp; co"));
    assert!(page.contains("&lt;img src=x onerror=alert(1)&gt;"));
    assert!(page.contains("<bdi dir=\"rtl\">"));
    let site = plans.run(&["site", "-o", "out"]);
    assert_eq!(site.code, 0, "{}", site.err);
    assert!(site.out.ends_with("index.html: 2 houses, 9 files\n"), "{}", site.out);
    assert!(plans.read("out/houses/twin.html").contains("../sources/small.wythe.html#L"));
    assert!(!plans.read("out/search.js").contains("<script"));
}

#[cfg(unix)]
#[test]
fn a_file_that_cannot_be_written_stays_as_it_was() {
    let plans = Plans::new(&[("small.wythe", HOSTILE)]);
    plans.write("old.html", "old");
    // A disk that fills up after eight blocks: a limit on the size of files stands in for it.
    let mut shell = Command::new("sh");
    let script = format!("trap '' XFSZ; ulimit -f 8; exec {} report small -o old.html", env!("CARGO_BIN_EXE_wythe"));
    let output = shell.args(["-c", &script]).current_dir(plans.root()).output().unwrap();
    let told = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(2), "{told}");
    assert!(told.contains("old.html: not written"), "{told}");
    assert_eq!(plans.read("old.html"), "old");
    let left = fs::read_dir(plans.root()).unwrap().count();
    assert_eq!(left, 3, "something is left behind");
    let full = plans.run(&["report", "small", "-o", "/dev/full"]);
    assert_eq!(full.code, 2);
    assert!(full.err.contains("the disk is full"), "{}", full.err);
    let nowhere = plans.run(&["report", "small", "-o", "no/such/folder.html"]);
    assert!(nowhere.code == 2 && nowhere.err.contains("there is no such folder"), "{}", nowhere.err);
    let blocked = plans.run(&["site", "-o", "old.html/site"]);
    assert!(blocked.code == 2 && blocked.err.contains("not made"), "{}", blocked.err);
    assert_eq!(plans.run(&["site", "no_such_folder"]).code, 2);
}
