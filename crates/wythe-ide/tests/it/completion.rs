//! Completion and signature help.

use wythe_ide::complete::{Completion, ItemKind, complete};
use wythe_ide::signature::signature_help;

use crate::fixture::{Fixture, at, probe};

fn completed(text: &str) -> (Fixture, Completion) {
    let f = probe(text);
    let completion = complete(&f.project, f.file, f.offset).expect("something may be written here");
    (f, completion)
}

fn labels(text: &str) -> Vec<String> {
    completed(text).1.items.into_iter().map(|i| i.label).collect()
}

/// The first items with what they are, as a list shows them.
fn list(text: &str, count: usize) -> String {
    let (_, completion) = completed(text);
    let lines = completion.items.iter().take(count).map(|i| format!("{:24} {:?} {}", i.label, i.kind, i.detail));
    lines.collect::<Vec<_>>().join("\n")
}

/// The text after an item has been taken.
fn taken(text: &str, label: &str) -> String {
    let (f, completion) = completed(text);
    let item = completion.items.iter().find(|i| i.label == label).unwrap_or_else(|| panic!("`{label}` is offered"));
    let mut edits = item.extra.clone();
    edits.push(wythe_findings::Edit { span: completion.replaces, text: item.insert.clone() });
    f.after(&edits)
}

const HEAD: &str = "use \"../library/products.wythe\": wall_liner, drive_pin, foil_board_2in, seam_tape, urethane\nuse \"../library/phases.wythe\": rough_in\n\n";

fn face(lines: &str) -> String {
    format!(
        "{HEAD}buildup b(board: Board, gap: Length = 4\") for wall {{\n    inside {{\n        during rough_in {{\n{lines}\n        }}\n    }}\n}}\n"
    )
}

#[test]
fn a_file_offers_declarations() {
    insta::assert_snapshot!("file", list("$0", 30));
    assert_eq!(taken("ph$0", "phase"), "phase ${1:name} { $0 }");
}

#[test]
fn a_verb_offers_products_of_its_classes_and_parameters() {
    let hang = labels(&face("            hang $0"));
    assert!(hang.contains(&"wall_liner".to_owned()), "{hang:?}");
    assert!(!hang.contains(&"drive_pin".to_owned()) && !hang.contains(&"board".to_owned()), "{hang:?}");
    let set = labels(&face("            set $0"));
    assert_eq!(&set[..2], ["board", "foil_board_2in"], "{set:?}");
    assert!(!set.contains(&"wall_liner".to_owned()));
}

#[test]
fn fasten_offers_layers_of_the_face_then_fasteners_then_clauses() {
    let lines = "            hang wall_liner as liner from top to ground\n            fasten $0";
    assert_eq!(labels(&face(lines)), ["liner", "wall_liner"]);
    let with = labels(&face("            hang wall_liner from top to ground\n            fasten wall_liner with $0"));
    assert_eq!(with[0], "drive_pin");
    let more = labels(&face(
        "            hang wall_liner from top to ground\n            fasten wall_liner with drive_pin $0",
    ));
    assert_eq!(more, ["by", "every", "into"]);
}

#[test]
fn edges_levels_and_lengths() {
    let edges = labels(&face("            tape seam_tape over $0"));
    assert!(edges.contains(&"joints".to_owned()) && edges.contains(&"top edge".to_owned()), "{edges:?}");
    let levels = labels(&face("            set board from $0"));
    assert!(levels[..6].contains(&"top".to_owned()), "{levels:?}");
    let less = labels(&face("            set board from top - $0"));
    assert!(less.contains(&"gap".to_owned()) && !less[..2].contains(&"top".to_owned()), "{less:?}");
    let layers = labels(&face(
        "            set board from top to ground\n            seal urethane along top edge of board to $0",
    ));
    assert_eq!(&layers[..2], ["board", "structure"], "{layers:?}");
}

#[test]
fn a_block_offers_what_it_has_not_said_with_what_is_due_first() {
    insta::assert_snapshot!("product_block", list("pub product p: Board {\n    thickness: 2\"\n    $0\n}\n", 20));
    let walls = labels("foundation f on s {\n    walls {\n        top: datum\n        $0\n    }\n}\n");
    assert_eq!(&walls[..3], ["footing", "grade", "ground"], "{walls:?}");
    assert!(walls.contains(&"wall".to_owned()) && !walls.contains(&"top".to_owned()));
    let foundation = labels("foundation f on s {\n    $0\n}\n");
    assert!(foundation.contains(&"opening".to_owned()) && foundation.contains(&"conditioning".to_owned()));
    assert_eq!(
        taken("foundation f on s {\n    cond$0\n}\n", "conditioning").lines().nth(1),
        Some("    conditioning {")
    );
}

#[test]
fn a_property_offers_members_and_units_of_its_dimension() {
    let facing = labels("product p: Board {\n    facing: $0\n}\n");
    assert_eq!(&facing[..6], ["foam", "foil", "masonry", "metal", "poly", "wood"], "{facing:?}");
    let list = labels("product p: Board {\n    controls: [heat, $0]\n}\n");
    assert_eq!(&list[..3], ["air", "bulk_water", "capillary"], "{list:?}");
    let units = labels("product p: Board {\n    permeance: 0.03 $0\n}\n");
    assert_eq!(units[0], "perm", "{units:?}");
    assert!(!units.contains(&"ft".to_owned()));
    let lengths = labels("product p: Board {\n    thickness: 40 $0\n}\n");
    assert!(
        lengths.contains(&"mm".to_owned())
            && lengths.contains(&"in".to_owned())
            && !lengths.contains(&"perm".to_owned())
    );
}

#[test]
fn a_call_offers_its_arguments_and_values_that_fit() {
    let text = "use \"../library/closed_crawl.wythe\": stem_wall\nuse \"../library/products.wythe\": foil_board_2in, foil_tape\n\nlet a = stem_wall($0)\n";
    let names = labels(text);
    assert_eq!(&names[..4], ["board:", "gap:", "tail:", "turn_down:"], "{names:?}");
    let text = "use \"../library/closed_crawl.wythe\": stem_wall\nuse \"../library/products.wythe\": foil_board_2in, foil_tape\n\nlet a = stem_wall(board: $0)\n";
    let boards = labels(text);
    assert_eq!(boards[0], "foil_board_2in", "{boards:?}");
}

#[test]
fn a_dot_offers_fields_and_functions() {
    let text = "use \"unit_4.wythe\": unit_4\n\nlet a = unit_4.$0\n";
    let fields = labels(text);
    assert!(fields.contains(&"perimeter".to_owned()) && fields.contains(&"line_holds".to_owned()), "{fields:?}");
    let rule = labels("rule r {\n    for each w in walls\n    require w.$0\n}\n");
    assert!(rule.contains(&"bare_band".to_owned()) && rule.contains(&"resistance".to_owned()), "{rule:?}");
    let compared = labels("rule r {\n    for each o in openings where o.kind == $0\n}\n");
    assert_eq!(&compared[..2], ["access", "beam_pocket"], "{compared:?}");
}

#[test]
fn what_another_file_declares_is_offered_with_its_import() {
    let text = "use \"../library/phases.wythe\": rough_in\n\nbuildup b for wall {\n    inside {\n        during rough_in { hang wall_l$0 }\n    }\n}\n";
    insta::assert_snapshot!("auto_import", taken(text, "wall_liner"));
    let named =
        "use \"../library/products.wythe\": drive_pin\n\nbuildup b for wall {\n    inside { hang wall_l$0 }\n}\n";
    assert!(taken(named, "wall_liner").starts_with("use \"../library/products.wythe\": drive_pin, wall_liner\n"));
}

#[test]
fn use_lines_offer_paths_names_and_packs() {
    let paths = labels("use \"../lib$0");
    assert!(paths.contains(&"../library/products.wythe".to_owned()), "{paths:?}");
    let names = labels("use \"../library/phases.wythe\": rough_in, $0\n");
    assert!(names.contains(&"close_in".to_owned()) && !names.contains(&"rough_in".to_owned()), "{names:?}");
    let packs = labels("use code $0\n");
    assert!(
        packs.contains(&"upland_amendments".to_owned()) && packs.contains(&"us_residential_2021".to_owned()),
        "{packs:?}"
    );
}

#[test]
fn phases_sites_walls_winds_and_rules() {
    let during = labels(
        "use \"../library/phases.wythe\": rough_in\n\nbuildup b for wall {\n    inside {\n        during $0\n    }\n}\n",
    );
    assert_eq!(during[0], "rough_in", "{during:?}");
    assert!(during.contains(&"close_in".to_owned()), "{during:?}");
    assert_eq!(labels("site here { climate_zone: zone_4a }\nfoundation f on $0")[0], "here");
    let wall = labels("foundation f on s {\n    walls {\n        wall south runs $0\n    }\n}\n");
    assert!(wall.contains(&"east".to_owned()) && wall.contains(&"skew".to_owned()), "{wall:?}");
    let opening =
        labels("foundation f on s {\n    walls {\n        wall south runs east 4'\n    }\n    opening h in $0\n}\n");
    assert_eq!(opening, ["south"]);
    assert_eq!(labels("buildup b for $0"), ["ground", "opening", "pier", "wall"]);
    assert!(labels("product p: $0").contains(&"Membrane".to_owned()));
}

#[test]
fn nothing_in_comments_and_texts() {
    let comment = probe("// wal$0l\n");
    assert_eq!(complete(&comment.project, comment.file, comment.offset), None);
    let text = probe("let a = \"wal$0l\"\n");
    assert_eq!(complete(&text.project, text.file, text.offset), None);
}

#[test]
fn a_signature_follows_the_argument() {
    let f = probe("use \"../library/closed_crawl.wythe\": stem_wall\n\nlet a = stem_wall(board: b, tail: $0)\n");
    let help = signature_help(&f.project, f.file, f.offset).unwrap();
    let shown: Vec<String> =
        help.params.iter().map(|(range, contract)| format!("{} [{contract}]", &help.label[range.clone()])).collect();
    assert_eq!(help.active, Some(3));
    insta::assert_snapshot!("signature", format!("{}\n{}\n{}", help.label, help.docs, shown.join("\n")));
    let method = probe("use \"unit_4.wythe\": unit_4\n\nlet a = unit_4.wall(south).resistance($0)\n");
    let help = signature_help(&method.project, method.file, method.offset).unwrap();
    assert_eq!(help.label, "resistance(band: Band) -> ThermalResistance");
    assert_eq!(help.active, Some(0));
}

/// Completion never breaks down, however much of a file has been typed.
#[test]
fn every_prefix_of_a_build_up_can_be_completed() {
    let text = face(
        "            hang wall_liner from top - gap to ground by 12\"\n            fasten wall_liner with drive_pin every 24\"",
    );
    let mut offered = 0;
    for end in (HEAD.len()..text.len()).step_by(5).filter(|e| text.is_char_boundary(*e)) {
        let f = at("houses/probe.wythe", &text[..end]);
        if let Some(completion) = complete(&f.project, f.file, end as u32) {
            offered += usize::from(!completion.items.is_empty());
            assert!(completion.items.iter().all(|i| i.kind != ItemKind::File || !i.label.is_empty()));
        }
    }
    assert!(offered > 20, "{offered}");
}
