//! Every product that is bought, and the houses it is bought for.

use std::collections::BTreeMap;

use maud::html;

use super::{Repository, framed, heading};
use crate::html::text;
use crate::words::spoken;

pub(super) fn page(repository: &Repository, names: &[String]) -> String {
    let mut products: BTreeMap<&str, Vec<(usize, &str)>> = BTreeMap::new();
    for (number, plan) in repository.plans.iter().enumerate() {
        for (product, quantity) in &plan.products {
            products.entry(product).or_default().push((number, quantity));
        }
    }
    let body = html! {
        a class="skip" href="#products" { "Skip to the products" }
        (heading(repository, "", "products.html"))
        main id="products" class="wide" {
            h1 { "Products" }
            div class="course" {}
            table {
                caption { "What is bought, and for which house" }
                thead { tr { th scope="col" { "product" } th scope="col" { "houses" } } }
                tbody {
                    @for (product, uses) in &products {
                        tr id=(anchor(product)) {
                            th scope="row" { (text(&spoken(product))) }
                            td {
                                @for (at, (number, quantity)) in uses.iter().enumerate() {
                                    @if at > 0 { ", " }
                                    a href={ "houses/" (names[*number]) ".html#takeoff" } {
                                        (text(&repository.plans[*number].report.house))
                                    }
                                    " (" (text(quantity)) ")"
                                }
                            }
                        }
                    }
                }
            }
        }
    };
    framed(repository, "Products", "", &body)
}

/// The anchor of a product.
pub(super) fn anchor(product: &str) -> String {
    let keep = |c: char| if c.is_ascii_alphanumeric() { c } else { '_' };
    format!("product-{}", product.chars().map(keep).collect::<String>())
}
