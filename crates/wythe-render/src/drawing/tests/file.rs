//! The files: well-formed, safe, readable aloud, and leading back to the text they come from.

use std::collections::BTreeSet;

use wythe_model::fixture::{ft_in, unit_4};
use wythe_source::Span;

use crate::drawing::{Role, SectionOptions, Theme, UnitSystem, section, to_svg};

use super::houses::{all, drawings, hostile};

const THEMES: [Theme; 3] = [Theme::Light, Theme::Dark, Theme::Print];

#[test]
fn every_file_is_well_formed_and_can_be_read_aloud() {
    for (house, f) in all() {
        for d in drawings(&f, UnitSystem::Us) {
            for theme in THEMES {
                let svg = to_svg(&d, theme);
                let file = roxmltree::Document::parse(&svg).unwrap_or_else(|e| panic!("{house}, {}: {e}", d.id));
                let root = file.root_element();
                assert_eq!(root.tag_name().name(), "svg");
                assert_eq!(root.attribute("role"), Some("img"));
                let said = |attribute: &str, element: &str| {
                    let id = root.attribute(attribute).unwrap();
                    let at = file.descendants().find(|n| n.attribute("id") == Some(id)).unwrap();
                    assert_eq!(at.tag_name().name(), element);
                    assert!(at.text().is_some_and(|t| !t.trim().is_empty()), "{house}, {}: empty {element}", d.id);
                };
                said("aria-labelledby", "title");
                said("aria-describedby", "desc");
                let mut ids = BTreeSet::new();
                for node in file.descendants() {
                    let tag = node.tag_name().name();
                    let known = ["", "svg", "g", "path", "circle", "rect", "text", "title", "desc"];
                    assert!(known.contains(&tag), "{house}, {}: <{tag}>", d.id);
                    if let Some(id) = node.attribute("id") {
                        assert!(ids.insert(id.to_owned()), "{house}, {}: id {id} twice", d.id);
                    }
                    assert!(node.attributes().all(|a| !a.name().starts_with("on") && !a.value().contains("NaN")));
                }
            }
        }
    }
}

#[test]
fn a_name_that_is_cut_is_whole_in_its_title() {
    let f = hostile();
    let name = "a very long name ".repeat(40);
    let svg = to_svg(&crate::drawing::plan(&f, &Default::default()), Theme::Light);
    let file = roxmltree::Document::parse(&svg).unwrap();
    let cut = file.descendants().find(|n| n.has_tag_name("text") && n.text().is_none() && n.children().count() > 1);
    let cut = cut.or_else(|| {
        file.descendants().find(|n| n.has_tag_name("text") && n.children().any(|c| c.has_tag_name("title")))
    });
    assert!(cut.is_some());
    let whole = file.descendants().filter(|n| n.has_tag_name("title")).filter_map(|n| n.text());
    assert!(whole.into_iter().any(|t| t.trim() == name.trim()));
}

#[test]
fn every_piece_of_work_leads_back_to_its_line() {
    let f = unit_4();
    let d = section(&f, 0, ft_in(21.0, 0.0), &SectionOptions::default());
    let spans: Vec<Span> =
        d.all_groups().into_iter().filter(|g| g.role == Role::Work).filter_map(|g| g.origin).collect();
    let wall = &f.assemblies[0];
    for work in wall.faces.iter().flat_map(|face| &face.works) {
        assert!(spans.contains(&work.origin), "{:?} {}", work.act, work.layer.as_str());
        let place = format!("data-origin=\"{}:{}-{}\"", work.origin.file.0, work.origin.start, work.origin.end);
        assert!(to_svg(&d, Theme::Print).contains(&place));
    }
}

#[test]
fn a_print_has_no_color() {
    let f = unit_4();
    for d in drawings(&f, UnitSystem::Us) {
        let svg = to_svg(&d, Theme::Print);
        let file = roxmltree::Document::parse(&svg).unwrap();
        for value in file.descendants().flat_map(|n| ["fill", "stroke"].into_iter().filter_map(move |a| n.attribute(a)))
        {
            assert!(["none", "#000000", "#333333", "#ffffff"].contains(&value), "{value}");
        }
    }
}

#[test]
fn a_section_is_true_to_its_scale() {
    let d = section(&unit_4(), 0, ft_in(21.0, 0.0), &SectionOptions::default());
    let scale = f64::from(d.scale.unwrap());
    let svg = to_svg(&d, Theme::Print);
    let file = roxmltree::Document::parse(&svg).unwrap();
    let root = file.root_element();
    // One user unit is one millimeter.
    let view: Vec<f64> = root.attribute("viewBox").unwrap().split(' ').map(|v| v.parse().unwrap()).collect();
    assert_eq!(root.attribute("width").unwrap(), format!("{}mm", view[2]));
    // The block is 40 in from footing to top and 7-5/8 in thick.
    let structure = file.descendants().find(|n| n.attribute("id").is_some_and(|i| i.ends_with("south-structure")));
    let outline = structure.unwrap().descendants().find(|n| n.has_tag_name("path")).unwrap().attribute("d").unwrap();
    let numbers: Vec<f64> =
        outline.split(['M', 'L', 'Z', ' ']).filter(|p| !p.is_empty()).map(|p| p.parse().unwrap()).collect();
    let (wide, tall) = (numbers[2] - numbers[0], numbers[5] - numbers[1]);
    assert!((wide * scale - 7.625 * 25.4).abs() < 0.02 * scale, "{wide}");
    assert!((tall * scale - 40.0 * 25.4).abs() < 0.02 * scale, "{tall}");
}
