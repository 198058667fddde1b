//! The houses side by side: a row a figure, a column a house.

use maud::html;

use super::{Repository, framed, heading, index::value};
use crate::html::text;

pub(super) fn page(repository: &Repository, names: &[String]) -> String {
    // Every figure any house has, in the order of the first that has it.
    let mut figures: Vec<&str> = Vec::new();
    for plan in &repository.plans {
        let mut after = 0;
        for (_, fact) in &plan.keys {
            match figures.iter().position(|name| *name == fact.name) {
                Some(at) => after = at + 1,
                None => {
                    figures.insert(after, &fact.name);
                    after += 1;
                }
            }
        }
    }
    let body = html! {
        a class="skip" href="#comparison" { "Skip to the comparison" }
        (heading(repository, "", "compare.html"))
        main class="wide" {
            h1 { "Houses side by side" }
            div class="course" {}
            fieldset id="columns" {
                legend { "Houses shown" }
                @for (plan, name) in repository.plans.iter().zip(names) {
                    label { input type="checkbox" name="house" value=(name) checked; " " (text(&plan.report.house)) }
                }
            }
            section class="scroll" tabindex="0" aria-label="Comparison" id="comparison" {
                table {
                    caption { "Key figures" }
                    thead {
                        tr {
                            th scope="col" { "figure" }
                            @for (plan, name) in repository.plans.iter().zip(names) {
                                th scope="col" data-house=(name) {
                                    a href={ "houses/" (name) ".html" } { (text(&plan.report.house)) }
                                }
                            }
                        }
                    }
                    tbody {
                        @for figure in figures {
                            tr {
                                th scope="row" { (figure) }
                                @for (plan, name) in repository.plans.iter().zip(names) {
                                    td data-house=(name) {
                                        (text(value(plan.keys.iter().map(|(_, fact)| fact), figure)))
                                    }
                                }
                            }
                        }
                    }
                }
            }
        }
    };
    framed(repository, "Compare", "", &body)
}
