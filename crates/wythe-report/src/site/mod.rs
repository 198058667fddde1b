//! The site of all houses of a repository: plain files with links between them, to be opened from a disk. Search and
//! the choice of columns run in the page; without them everything is still there to read.

mod compare;
mod houses;
mod index;
mod products;
mod search;
mod source;

use maud::{DOCTYPE, Markup, html};

use crate::html::STYLE;
use crate::model::{Fact, Report};
use crate::sections::Key;

pub use source::source_path;

/// The looks of the pages that are no reports.
const SITE_STYLE: &str = include_str!("site.css");
/// Search, and the choice of columns.
const SCRIPT: &str = include_str!("site.js");

/// A house of the site.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The report on it.
    pub report: Report,
    /// Its key figures.
    pub keys: Vec<(Key, Fact)>,
    /// What is bought for it: product and quantity.
    pub products: Vec<(String, String)>,
    /// The file it is declared in, from the top of the repository.
    pub file: String,
}

/// A source file of the repository.
#[derive(Clone, Debug)]
pub struct Source {
    /// Its path from the top of the repository.
    pub path: String,
    /// Its text.
    pub text: String,
}

/// A repository with everything its site shows.
#[derive(Clone, Debug, Default)]
pub struct Repository {
    /// What it is called.
    pub name: String,
    /// Its houses.
    pub plans: Vec<Plan>,
    /// Its sources.
    pub sources: Vec<Source>,
    /// What the site is made with.
    pub made_by: String,
}

/// A file of the site.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Page {
    /// Its path from the top of the site.
    pub path: String,
    /// Its text.
    pub text: String,
}

/// Every file of the site.
pub fn pages(repository: &Repository) -> Vec<Page> {
    let names = stems(repository);
    let page = |path: &str, text: String| Page { path: path.to_owned(), text };
    let mut out = vec![
        page("index.html", index::page(repository, &names)),
        page("compare.html", compare::page(repository, &names)),
        page("products.html", products::page(repository, &names)),
        page("site.css", format!("{STYLE}{SITE_STYLE}")),
        page("site.js", SCRIPT.to_owned()),
        page("search.js", search::index(repository, &names)),
    ];
    out.extend(houses::pages(repository, &names));
    out.extend(source::pages(repository, &names));
    out
}

/// The file name of each house, without its ending: no two are the same on any disk, whatever the names.
fn stems(repository: &Repository) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for plan in &repository.plans {
        let keep = |c: char| if c.is_ascii_alphanumeric() || c == '-' { c.to_ascii_lowercase() } else { '_' };
        let stem: String = plan.report.house.chars().map(keep).take(60).collect();
        let stem = if stem.is_empty() { "house".to_owned() } else { stem };
        let mut name = stem.clone();
        let mut number = 2;
        while out.contains(&name) {
            name = format!("{stem}-{number}");
            number += 1;
        }
        out.push(name);
    }
    out
}

/// The page with what every page of the site has around it. `up` leads to the top of the site.
fn framed(repository: &Repository, title: &str, up: &str, body: &Markup) -> String {
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="generator" content=(repository.made_by);
                title { (title) " · " (repository.name) }
                link rel="stylesheet" href={ (up) "site.css" };
                script src={ (up) "search.js" } defer {}
                script src={ (up) "site.js" } defer {}
            }
            body data-up=(up) { (body) }
        }
    }
    .into_string()
}

/// The heading of every page: where one is, and where one can go.
fn heading(repository: &Repository, up: &str, here: &str) -> Markup {
    let places = [("index.html", "Houses"), ("compare.html", "Compare"), ("products.html", "Products")];
    html! {
        header class="site" {
            p class="repository" { a href={ (up) "index.html" } { (crate::html::text(&repository.name)) } }
            nav aria-label="Site" {
                ul {
                    @for (path, name) in places {
                        li { a href={ (up) (path) } aria-current=[(path == here).then_some("page")] { (name) } }
                    }
                }
            }
            search {
                label for="search" { "Search" }
                input type="search" id="search" autocomplete="off";
                ul id="found" class="hits" hidden {}
                p id="found-count" class="count" aria-live="polite" {}
            }
        }
    }
}

#[cfg(test)]
mod tests;
