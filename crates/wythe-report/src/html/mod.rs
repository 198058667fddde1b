//! A report as one page of HTML: nothing is fetched, nothing runs; it prints on Letter and on A4.

mod blocks;
mod text;

use maud::{DOCTYPE, Markup, PreEscaped, html};

use crate::model::{Report, Section};
pub(crate) use text::text;

/// The looks of pages, on a screen and on paper.
pub const STYLE: &str = include_str!("style.css");

/// The report as a page of its own.
pub fn page(report: &Report) -> String {
    let title = format!("Foundation report: {}", report.house);
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="generator" content=(report.made_by);
                title { (title) }
                style { (PreEscaped(STYLE)) }
            }
            body { (body(report, None)) }
        }
    }
    .into_string()
}

/// What stands in the body of a report's page; in a site, with its heading above.
pub(crate) fn body(report: &Report, above: Option<Markup>) -> Markup {
    html! {
        a class="skip" href="#report" { "Skip to the report" }
        @if let Some(above) = above { (above) }
        div class="sheet" {
            nav class="contents" aria-label="Sections" {
                ol { @for section in &report.sections { li { a href={ "#" (section.id) } { (section.title) } } } }
            }
            main id="report" {
                header class="title" {
                    p class="kind" { "Foundation report" }
                    h1 { (text(&report.house)) }
                    div class="course" {}
                    dl class="facts" {
                        @for fact in &report.facts {
                            div { dt { (fact.name) } dd { (text(&fact.value)) } }
                        }
                    }
                }
                @for section in &report.sections { (one(section)) }
                footer {
                    p {
                        "Made by " (report.made_by) " from the plans as written. It sizes no structure and replaces no \
                         local code, its official or a licensed practitioner."
                    }
                }
            }
        }
    }
}

fn one(section: &Section) -> Markup {
    html! {
        section id=(section.id) aria-labelledby={ (section.id) "-heading" } {
            h2 id={ (section.id) "-heading" } { (section.title) }
            @for block in &section.blocks { (blocks::block(block)) }
        }
    }
}
