//! The sources, a page a file, each line with an anchor of its own.

use maud::html;

use super::{Page, Repository, framed, heading};
use crate::html::text;
use crate::words::clean;

/// The path of a source's page, from the top of the site. Letters that a link or a disk may not take are written out.
pub fn source_path(path: &str) -> String {
    let mut out = String::from("sources/");
    for c in path.chars() {
        match c {
            c if c.is_ascii_alphanumeric() || matches!(c, '/' | '.' | '_' | '-') => out.push(c),
            c => out.push_str(&format!("~{:x}", c as u32)),
        }
    }
    // A repository's paths never lead up; a page of one must not either.
    out.replace("../", "~/") + ".html"
}

pub(super) fn pages(repository: &Repository, names: &[String]) -> Vec<Page> {
    let page = |source: &super::Source| {
        let path = source_path(&source.path);
        let up = "../".repeat(path.matches('/').count());
        let of_file = repository.plans.iter().zip(names).filter(|(plan, _)| plan.file == source.path);
        let houses: Vec<_> = of_file.collect();
        let body = html! {
            a class="skip" href="#source" { "Skip to the source" }
            (heading(repository, &up, ""))
            main id="source" class="wide" {
                h1 { (text(&source.path)) }
                div class="course" {}
                @for (plan, name) in houses {
                    p { "Declares " a href={ (up) "houses/" (name) ".html" } { (text(&plan.report.house)) } "." }
                }
                section class="scroll" tabindex="0" aria-label="Source" {
                    ol class="source" {
                        @for (number, line) in source.text.lines().enumerate() {
                            li id={ "L" (number + 1) } { code { (clean(line)) } }
                        }
                    }
                }
            }
        };
        Page { text: framed(repository, &source.path, &up, &body), path }
    };
    repository.sources.iter().map(page).collect()
}
