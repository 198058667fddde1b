//! The first page: every house with its key figures.

use maud::html;

use super::{Repository, framed, heading};
use crate::html::text;
use crate::model::Fact;

/// The figures shown of each house, by name.
const SHOWN: [&str; 8] =
    ["Errors", "Warnings", "Crawl floor", "Walls as a whole", "Heat loss", "Framing, dampest", "Goods", "Labor"];

pub(super) fn page(repository: &Repository, names: &[String]) -> String {
    let body = html! {
        a class="skip" href="#houses" { "Skip to the houses" }
        (heading(repository, "", "index.html"))
        main id="houses" class="wide" {
            h1 { "Houses of " (text(&repository.name)) }
            div class="course" {}
            p {
                (repository.plans.len()) " foundations, " (repository.sources.len()) " source files. Tick houses to lay \
                 them side by side."
            }
            form action="compare.html" id="choice" {
                table {
                    caption { "Every house" }
                    thead {
                        tr {
                            th scope="col" { "compare" }
                            th scope="col" { "house" }
                            @for shown in SHOWN { th scope="col" class="right" { (shown) } }
                        }
                    }
                    tbody {
                        @for (plan, name) in repository.plans.iter().zip(names) {
                            tr {
                                td {
                                    input type="checkbox" name="house" value=(name)
                                        aria-label={ "Compare " (plan.report.house) };
                                }
                                th scope="row" { a href={ "houses/" (name) ".html" } { (text(&plan.report.house)) } }
                                @for shown in SHOWN {
                                    td class="right" { (text(value(plan.keys.iter().map(|(_, fact)| fact), shown))) }
                                }
                            }
                        }
                    }
                }
                button type="submit" { "Compare the houses ticked" }
            }
            h2 { "Sources" }
            ul class="sources" {
                @for source in &repository.sources {
                    li { a href=(super::source_path(&source.path)) { (text(&source.path)) } }
                }
            }
        }
    };
    framed(repository, "Houses", "", &body)
}

/// The value of a fact by name; empty where there is none.
pub(super) fn value<'a>(mut facts: impl Iterator<Item = &'a Fact>, name: &str) -> &'a str {
    facts.find(|fact| fact.name == name).map_or("", |fact| &fact.value)
}
