//! What search looks through, as a script that a page may load from a disk: houses, sections, findings, products.

use serde::Serialize;

use super::{Repository, products::anchor, source_path};
use crate::model::Block;
use crate::words::spoken;

/// A place that may be found.
#[derive(Serialize)]
struct Entry<'a> {
    /// What it is called.
    name: String,
    /// Where it stands.
    of: &'a str,
    /// The way there from the top of the site.
    to: String,
    /// Further words it is found by.
    words: String,
}

pub(super) fn index(repository: &Repository, names: &[String]) -> String {
    let mut entries: Vec<Entry<'_>> = Vec::new();
    let mut products: Vec<&str> = Vec::new();
    for (plan, name) in repository.plans.iter().zip(names) {
        let (house, page) = (plan.report.house.as_str(), format!("houses/{name}.html"));
        let facts: Vec<&str> = plan.report.facts.iter().map(|f| f.value.as_str()).collect();
        entries.push(Entry {
            name: spoken(house),
            of: "house",
            to: page.clone(),
            words: format!("{house} {}", facts.join(" ")),
        });
        for section in &plan.report.sections {
            let to = format!("{page}#{}", section.id);
            entries.push(Entry { name: section.title.to_owned(), of: house, to: to.clone(), words: String::new() });
            for block in &section.blocks {
                if let Block::Found { found } = block {
                    let finding = |f: &crate::model::Found| Entry {
                        name: f.title.clone(),
                        of: house,
                        to: to.clone(),
                        words: format!("{} {}", f.name, f.severity),
                    };
                    entries.extend(found.iter().map(finding));
                }
                if let Block::Grid { grid } = block {
                    entries.push(Entry { name: grid.title.clone(), of: house, to: to.clone(), words: String::new() });
                }
            }
        }
        for (product, _) in &plan.products {
            if !products.contains(&product.as_str()) {
                products.push(product);
            }
        }
    }
    for product in products {
        let to = format!("products.html#{}", anchor(product));
        entries.push(Entry { name: spoken(product), of: "product", to, words: product.to_owned() });
    }
    for source in &repository.sources {
        let to = source_path(&source.path);
        entries.push(Entry { name: source.path.clone(), of: "source", to, words: declared(&source.text) });
    }
    // Texts are written by a writer of JSON; what could end a script stands escaped in them all the same.
    let json = serde_json::to_string(&entries).unwrap_or_else(|_| "[]".to_owned()).replace('<', "\\u003c");
    format!("\"use strict\";\nconst ENTRIES = {json};\n")
}

/// The names a source declares at its left edge.
fn declared(text: &str) -> String {
    let name = |line: &str| {
        let line = line.strip_prefix("pub ").unwrap_or(line);
        let mut words = line.split_whitespace();
        let kind = words.next()?;
        let kinds =
            ["foundation", "product", "assembly", "rule", "site", "joint", "phase", "phases", "prices", "rates"];
        let name = words.next().filter(|_| kinds.contains(&kind))?;
        Some(name.trim_end_matches(|c: char| !c.is_alphanumeric()).to_owned())
    };
    text.lines().filter_map(name).collect::<Vec<_>>().join(" ")
}
