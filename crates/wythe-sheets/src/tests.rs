//! The catalogues hold the same messages with the same variables, and every message is used; every sheet and answer
//! can be made in every language, of ordinary houses and of hard ones.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::Arc;

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use wythe_bill::{Job, Terms};
use wythe_model::Foundation;
use wythe_model::fixture::{ft_in, rectangle, unit_4};
use wythe_source::Symbol;
use wythe_units::UnitSystem;

use crate::ask::{self, Deed};
use crate::{Block, House, Language, Sheet, Words, html, sheet, text};

/// The messages of a language, each with its variables.
fn messages(language: Language) -> BTreeMap<String, BTreeSet<String>> {
    let resource = fluent_syntax::parser::parse(language.catalog()).unwrap_or_else(|(_, errors)| panic!("{errors:?}"));
    let mut out = BTreeMap::new();
    for entry in resource.body {
        let Entry::Message(message) = entry else { continue };
        let mut variables = BTreeSet::new();
        of_pattern(message.value.as_ref().unwrap(), &mut variables);
        let twice = out.insert(message.id.name.to_owned(), variables);
        assert!(twice.is_none(), "`{}` is there twice", message.id.name);
    }
    out
}

fn of_pattern(pattern: &Pattern<&str>, out: &mut BTreeSet<String>) {
    for element in &pattern.elements {
        let PatternElement::Placeable { expression } = element else { continue };
        let inline = match expression {
            Expression::Select { selector, variants } => {
                variants.iter().for_each(|v| of_pattern(&v.value, out));
                selector
            }
            Expression::Inline(inline) => inline,
        };
        if let InlineExpression::VariableReference { id } = inline {
            out.insert(id.name.to_owned());
        }
    }
}

fn sources(folder: &Path, out: &mut String) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            sources(&path, out);
        } else if path.file_name().is_some_and(|n| n != "tests.rs" && n != "words.rs") {
            out.push_str(&std::fs::read_to_string(path).unwrap());
        }
    }
}

/// Every call of `say!` in this crate: its key and the variables it gives.
fn calls() -> Vec<(String, BTreeSet<String>)> {
    let mut text = String::new();
    sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut text);
    let mut out = Vec::new();
    for call in text.split("say!(").skip(1) {
        let mut depth = 1;
        let mut in_text = false;
        let mut before = ' ';
        let end = call.char_indices().find(|&(_, c)| {
            if c == '"' && before != '\\' {
                in_text = !in_text;
            } else if !in_text {
                depth += i32::from(c == '(') - i32::from(c == ')');
            }
            before = c;
            depth == 0
        });
        let call = &call[..end.unwrap().0];
        let key = call.split('"').nth(1).unwrap().to_owned();
        let after = call.split_once(&format!("\"{key}\"")).unwrap().1;
        // A variable is a word before a single `=`.
        let words: Vec<&str> = after.split(" = ").collect();
        let named = words[..words.len() - 1].iter().filter_map(|w| w.rsplit([' ', ',', '(', '\n']).next());
        let own = named.filter(|w| !w.is_empty() && w.chars().all(|c| c.is_ascii_lowercase() || c == '_'));
        out.push((key, own.map(str::to_owned).collect()));
    }
    out
}

#[test]
fn every_catalogue_has_the_same_messages_with_the_same_variables() {
    let english = messages(Language::English);
    for language in Language::ALL {
        let other = messages(language);
        let (a, b): (BTreeSet<_>, BTreeSet<_>) = (english.keys().collect(), other.keys().collect());
        assert_eq!(a, b, "{}", language.tag());
        for (key, variables) in &english {
            assert_eq!(variables, &other[key], "{}: `{key}`", language.tag());
        }
    }
}

#[test]
fn no_message_is_missing_and_none_is_unused() {
    let english = messages(Language::English);
    let calls = calls();
    assert!(calls.len() > 150);
    let used: BTreeSet<&String> = calls.iter().map(|(key, _)| key).collect();
    for (key, given) in &calls {
        let asked = english.get(key).unwrap_or_else(|| panic!("no message `{key}`"));
        assert!(asked.is_subset(given), "`{key}` wants {asked:?}, is given {given:?}");
    }
    let unused: Vec<&String> = english.keys().filter(|key| !used.contains(key)).collect();
    assert!(unused.is_empty(), "{unused:?}");
}

fn with_house<T>(f: Foundation, language: Language, system: UnitSystem, act: impl FnOnce(&House<'_>) -> T) -> T {
    let job = Job::of(&[Arc::new(f)], &Terms::default());
    let words = Words::new(language);
    act(&House {
        words: &words,
        system,
        job: &job,
        findings: &[],
        rules: &[],
        progress: None,
        today: None,
        visit: None,
    })
}

/// An ordinary house, one with hostile names, one with forty piers, one without anything built, one with a wall of
/// 200 ft, one with a wall of 2 ft.
fn houses() -> Vec<Foundation> {
    let plain = unit_4();
    let mut hostile = unit_4();
    hostile.name = Symbol::new("<script>alert(1)</script>");
    hostile.walls[0].name = Symbol::new("בית_\u{202e}קיר");
    hostile.walls[1].name = Symbol::new(&"very_long_name_".repeat(20));
    let mut many = unit_4();
    if let Some(first) = many.piers.first().cloned() {
        many.piers =
            (0..40).map(|i| wythe_model::Pier { name: Symbol::new(&format!("p{}", i + 1)), ..first.clone() }).collect();
    }
    let mut bare = unit_4();
    bare.assemblies.clear();
    bare.joints.clear();
    vec![
        plain,
        hostile,
        many,
        bare,
        rectangle(ft_in(200.0, 0.0), ft_in(24.0, 0.0)),
        rectangle(ft_in(24.0, 0.0), ft_in(2.0, 0.0)),
    ]
}

#[test]
fn every_sheet_and_answer_is_made_in_every_language_of_every_house() {
    for f in houses() {
        for language in Language::ALL {
            for system in [UnitSystem::Us, UnitSystem::Si] {
                with_house(f.clone(), language, system, |house| {
                    for which in Sheet::ALL {
                        let page = sheet(which, house);
                        let written = html(&page);
                        assert!(!written.contains("<script>"), "{which:?}");
                        assert!(!written.contains('\u{202e}') && !written.contains("NaN"), "{which:?}");
                        assert!(!text(&page).is_empty());
                        roxmltree::Document::parse(
                            written
                                .trim_start_matches("<!DOCTYPE html>\n")
                                .replace("<meta charset=\"utf-8\">", "")
                                .replace("initial-scale=1\">", "initial-scale=1\"/>")
                                .as_str(),
                        )
                        .unwrap_or_else(|e| panic!("{which:?}: {e}"));
                    }
                    let name = house.f().walls[0].name.as_str();
                    let _ = ask::wall(house, name).unwrap();
                    let _ = (ask::left(house), ask::inspection(house), ask::rain(house), ask::next(house, name));
                    let _ = (ask::lap(house, None), ask::fix(house, None, None), ask::cut(house, 1));
                    for deed in [Deed::Cover, Deed::Frame, Deed::CloseVents] {
                        assert!(!ask::may(house, deed).lines.is_empty());
                    }
                    assert!(ask::wall(house, "nowhere").unwrap_err().contains("nowhere"));
                });
            }
        }
    }
}

#[test]
fn the_crew_sheet_has_one_wall_a_row_and_nothing_of_mold() {
    with_house(unit_4(), Language::English, UnitSystem::Us, |house| {
        let page = sheet(Sheet::Crew, house);
        let tables: Vec<_> =
            page.blocks.iter().filter_map(|b| if let Block::Table(_, rows) = b { Some(rows) } else { None }).collect();
        assert_eq!(tables[0].len(), house.f().walls.len());
        assert!(!html(&page).to_lowercase().contains("mold"));
        assert!(html(&page).contains("SAFETY"));
    });
}

#[test]
fn texts_on_small_drawings_do_not_overlap() {
    for f in houses() {
        for language in Language::ALL {
            with_house(f.clone(), language, UnitSystem::Us, |house| {
                let mut drawings = Vec::new();
                drawings.extend(crate::small::key_plan(house, Some(0)));
                for wall in &house.f().walls {
                    drawings.extend(ask::wall(house, wall.name.as_str()).unwrap().drawing);
                }
                drawings.extend((1..40).filter_map(|n| ask::cut(house, n).ok()?.drawing));
                drawings.extend((1..40).filter_map(|n| ask::fix(house, None, Some(n)).ok()?.drawing));
                drawings.extend(ask::lap(house, None).ok().and_then(|a| a.drawing));
                for drawing in drawings {
                    let frames: Vec<_> = drawing.texts().iter().map(|t| (t.frame(), t.shown.clone())).collect();
                    for (i, (a, one)) in frames.iter().enumerate() {
                        for (b, other) in &frames[i + 1..] {
                            assert!(!a.overlaps(b), "{}: `{one}` over `{other}`", drawing.id);
                        }
                        assert!(
                            a.left >= 0.0 && a.top >= 0.0 && a.right <= drawing.width && a.bottom <= drawing.height
                        );
                    }
                }
            });
        }
    }
}
