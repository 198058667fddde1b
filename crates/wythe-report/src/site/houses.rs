//! The page of each house: its report, with the site's heading and ways to the houses beside it.

use maud::html;

use super::{Page, Repository, framed, heading, source_path};
use crate::html::{body, text};

pub(super) fn pages(repository: &Repository, names: &[String]) -> Vec<Page> {
    let link = |number: usize, words: &str| {
        html! {
            a href={ (names[number]) ".html" } { (words) " " (text(&repository.plans[number].report.house)) }
        }
    };
    let page = |(number, plan): (usize, &super::Plan)| {
        let above = html! {
            (heading(repository, "../", ""))
            nav class="site beside" aria-label="Beside this house" {
                ul {
                    @if number > 0 { li { (link(number - 1, "Before:")) } }
                    @if number + 1 < names.len() { li { (link(number + 1, "Next:")) } }
                    li { a href={ "../compare.html#" (names[number]) } { "Compare with the others" } }
                    li { a href={ "../" (source_path(&plan.file)) } { "Read the source" } }
                }
            }
        };
        let text = framed(repository, &plan.report.house, "../", &body(&plan.report, Some(above)));
        Page { path: format!("houses/{}.html", names[number]), text }
    };
    repository.plans.iter().enumerate().map(page).collect()
}
