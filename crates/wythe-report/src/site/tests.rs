//! The pages of a site of houses nobody should name so.

use std::collections::BTreeSet;

use super::{Page, Plan, Repository, Source, pages};
use crate::model::{Fact, Report, Section};
use crate::sections::Key;

fn plan(name: &str, file: &str) -> Plan {
    let mut section = Section::new("summary", "At a glance");
    section.text("x");
    Plan {
        report: Report {
            house: name.to_owned(),
            facts: vec![Fact::new("Site", "cedar_row")],
            made_by: "Wythe 0".to_owned(),
            sections: vec![section],
        },
        keys: vec![(Key::Size, Fact::new("Perimeter", "136'"))],
        products: vec![("foil_board".to_owned(), "12 sheet".to_owned())],
        file: file.to_owned(),
    }
}

fn site() -> Vec<Page> {
    let source = |path: &str| Source { path: path.to_owned(), text: "pub foundation a {}\n</script>\n".to_owned() };
    pages(&Repository {
        name: "Cedar <Row>".to_owned(),
        plans: vec![
            plan("unit_1", "houses/unit_1.wythe"),
            plan("Unit_1", "houses/b.wythe"),
            plan("</script><script>alert(1)</script>", "houses/a b.wythe"),
            plan("\u{5e7}\u{5d9}\u{5e8}", "houses/a b.wythe"),
        ],
        sources: vec![source("houses/unit_1.wythe"), source("houses/b.wythe"), source("houses/a b.wythe")],
        made_by: "Wythe 0".to_owned(),
    })
}

#[test]
fn no_two_files_have_one_name_and_none_leaves_the_folder() {
    let pages = site();
    let paths: BTreeSet<String> = pages.iter().map(|p| p.path.to_lowercase()).collect();
    assert_eq!(paths.len(), pages.len());
    for page in &pages {
        assert!(!page.path.contains("..") && !page.path.starts_with('/'), "{}", page.path);
        assert!(page.path.chars().all(|c| c.is_ascii_alphanumeric() || "/._-~".contains(c)), "{}", page.path);
    }
}

#[test]
fn every_link_leads_to_a_page_of_the_site() {
    let pages = site();
    let paths: BTreeSet<&str> = pages.iter().map(|p| p.path.as_str()).collect();
    let mut links = 0;
    for page in pages.iter().filter(|p| p.path.ends_with(".html")) {
        for part in page.text.split("href=\"").skip(1).chain(page.text.split("src=\"").skip(1)) {
            let link = part.split('"').next().unwrap();
            let (file, anchor) = link.split_once('#').unwrap_or((link, ""));
            let mut folder: Vec<&str> = page.path.split('/').collect();
            folder.pop();
            for step in file.split('/').filter(|s| !s.is_empty()) {
                match step {
                    ".." => _ = folder.pop(),
                    step => folder.push(step),
                }
            }
            let path = if file.is_empty() { page.path.clone() } else { folder.join("/") };
            assert!(paths.contains(path.as_str()), "{} links to {link}", page.path);
            let target = pages.iter().find(|p| p.path == path).unwrap();
            let known =
                anchor.is_empty() || path == "compare.html" || target.text.contains(&format!("id=\"{anchor}\""));
            // The reports of this test have no takeoff.
            assert!(known || anchor == "takeoff", "{} links to {link}, which has no such anchor", page.path);
            links += 1;
        }
    }
    assert!(links > 60, "{links}");
}

#[test]
fn names_are_text_wherever_they_stand() {
    for page in site() {
        let scripts = page.text.matches("<script").count();
        let own = if page.path.ends_with(".html") { 2 } else { 0 };
        assert_eq!(scripts, own, "{}", page.path);
        assert!(!page.text.contains("<Row>"), "{}", page.path);
    }
}
