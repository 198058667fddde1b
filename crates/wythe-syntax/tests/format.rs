//! The formatter: what it prints, that it loses nothing, and that it is content with its own work.

mod shape;

use shape::{good_files, shape};
use wythe_source::FileId;
use wythe_syntax::{format, parse};

fn words(text: &str) -> Vec<String> {
    let parsed = parse(FileId(0), text);
    let tokens =
        parsed.tokens.iter().filter(|t| t.text(text) != ";").map(|t| t.text(text).split_whitespace().collect());
    let mut words: Vec<String> = tokens.chain(parsed.comments.iter().map(|c| c.text(text).to_owned())).collect();
    words.sort();
    words
}

#[test]
fn good_files_are_printed_whole_and_once_for_all() {
    for (name, text) in good_files() {
        let once = format(&text);
        assert_eq!(format(&once), once, "{name} is not stable");
        assert_eq!(words(&text), words(&once), "{name} loses or gains something");
        assert_eq!(shape(&text), shape(&once), "{name} means something else");
        assert!(parse(FileId(0), &once).findings.is_empty(), "{name} no longer reads");
        for line in once.lines().filter(|l| !l.contains("//") && !l.contains('"')) {
            assert!(line.chars().count() <= 120, "{name}: {line}");
        }
    }
}

#[test]
fn good_files_look_like_this() {
    for (name, text) in good_files() {
        insta::assert_snapshot!(format!("formatted_{name}"), format(&text));
    }
}

#[test]
fn squeezed_and_spread_files_come_out_alike() {
    let spread = "
pub   site cedar_row{climate_zone:zone_4a;termite_hazard :heavy
  soil{conductivity:1.0 W per m K;water_table:deep}


  climate : monthly( \"a.csv\" )}
let a=-3  in*(2-1)+f( w ,y:-2 )[ 0 ].wall( south )
let b : Range [ Length ]? = 24\"..48\"
fn f [ D ] (a:D,b:D=2 where b>=1)->Number{let c=a/b;give -c}
";
    insta::assert_snapshot!(format(spread));
}

#[test]
fn clauses_are_put_in_order() {
    let text = "buildup b for wall {
    inside {
        fasten liner every 24\" with drive_pin
        hang liner by tail from top to ground as skirt
        seal urethane bead 3/8\" along top edge of board to structure; tape t over heads of p as t2
        fasten liner every 24\" // keeps its place
            with drive_pin
    }
}
";
    let printed = format(text);
    insta::assert_snapshot!(printed);
    assert_eq!(format(&printed), printed);
}

#[test]
fn comments_stay_where_they_belong() {
    let text = "// head of the file

/// documentation
pub phase a { traffic: none } // after a
// before b


// also before b
phase b {   // after the brace
    // first in b
    traffic: none     // after traffic
    needs: [graded, // after graded
        // before drained
        drained
    ]
    // last in b
} // after b

// end of the file
";
    let printed = format(text);
    insta::assert_snapshot!(printed);
    assert_eq!(format(&printed), printed);
    assert_eq!(words(text), words(&printed));
}

#[test]
fn long_lines_are_broken_where_they_may_be() {
    let list = (0..40).map(|n| format!("product_{n}")).collect::<Vec<_>>().join(", ");
    let text = format!(
        "use \"p.wythe\": {list}\nlet a = [{list}]\nlet b = {}\nsite s {{ note: \"{}\" }}\n",
        (0..30).map(|n| format!("a{n}.length")).collect::<Vec<_>>().join(" + "),
        "long ".repeat(40),
    );
    let printed = format(&text);
    insta::assert_snapshot!(printed);
    assert_eq!(format(&printed), printed);
    assert_eq!(shape(&text), shape(&printed));
}

#[test]
fn broken_declarations_stay_as_they_are() {
    let text = "phase   a { traffic :none }\n  site   s {\n   climate_zone   zone_4a\n }\nphase   b { traffic :none }\n} stray\n";
    assert_eq!(
        format(text),
        "phase a { traffic: none }\n  site   s {\n   climate_zone   zone_4a\n }\nphase b { traffic: none }\n} stray\n"
    );
}

#[test]
fn line_ends_and_marks_are_kept() {
    assert_eq!(format(""), "");
    assert_eq!(format("\n\n"), "");
    assert_eq!(format("let a = 1"), "let a = 1\n");
    assert_eq!(format("\u{feff}let a =1\r\nlet b= 2\r\n"), "\u{feff}let a = 1\r\nlet b = 2\r\n");
    assert_eq!(
        format("let a = 3'4-1/2\"\nlet b = 3'    4\"\nlet c = 40\"\n"),
        "let a = 3' 4-1/2\"\nlet b = 3' 4\"\nlet c = 40\"\n"
    );
}

#[test]
fn a_range_touches_only_its_declarations() {
    let text = "let a  = 1\nlet b  = 2\nlet c  = 3\n";
    let parsed = parse(FileId(0), text);
    assert_eq!(wythe_syntax::format_range(text, &parsed, 12..13), Some((11..21, "let b = 2".to_owned())));
    assert_eq!(wythe_syntax::format_range("let a = 1\n", &parse(FileId(0), "let a = 1\n"), 0..3), None);
}
