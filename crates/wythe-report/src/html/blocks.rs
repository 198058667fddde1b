//! The blocks of a section as HTML.

use maud::{Markup, PreEscaped, html};

use super::text;
use crate::model::{Block, Check, Fact, Found, Grid, Plot, Sheet};

/// Tables with no more rows than this are kept on one page.
const SHORT: usize = 14;

pub(super) fn block(block: &Block) -> Markup {
    match block {
        Block::Text { text: said } => html! { p { (text(said)) } },
        Block::Caution { text: said } => html! { p class="caution" { strong { "Stop. " } (text(said)) } },
        Block::List { items } => html! { ul class="cautions" { @for item in items { li { (text(item)) } } } },
        Block::Facts { facts: some } => facts(some),
        Block::Grid { grid: one } => grid(one),
        Block::Sheet { sheet: one } => sheet(one),
        Block::Plots { plots: some } => plots(some),
        Block::Found { found: some } => html! { @for one in some { (found(one)) } },
        Block::Checks { checks: some } => checks(some),
    }
}

fn facts(facts: &[Fact]) -> Markup {
    html! {
        dl class="figures" {
            @for fact in facts {
                div {
                    dt { (fact.name) }
                    dd { (text(&fact.value)) @if !fact.note.is_empty() { span class="note" { (text(&fact.note)) } } }
                }
            }
        }
    }
}

pub(crate) fn grid(grid: &Grid) -> Markup {
    html! {
        table class=[(grid.rows.len() <= SHORT).then_some("short")] {
            caption { (text(&grid.title)) }
            thead {
                tr {
                    @for column in &grid.columns {
                        @if column.head.is_empty() {
                            td {}
                        } @else {
                            th scope="col" class=[column.right.then_some("right")] { (text(&column.head)) }
                        }
                    }
                }
            }
            tbody {
                @for row in &grid.rows {
                    tr {
                        @for (at, (column, field)) in grid.columns.iter().zip(row).enumerate() {
                            @if at == 0 && !field.is_empty() {
                                th scope="row" { (text(field)) }
                            } @else {
                                td class=[class(column.right, field)] { (text(field)) }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// How a field stands: figures at the right, dates in one line.
fn class(right: bool, field: &str) -> Option<&'static str> {
    if right {
        return Some("right");
    }
    let date = field.len() == 10 && field.bytes().all(|b| b.is_ascii_digit() || b == b'-');
    date.then_some("date")
}

fn sheet(sheet: &Sheet) -> Markup {
    // The drawing is written by us, escaped where it was written, with its title and description in it.
    html! {
        figure class="drawing" {
            (PreEscaped(&sheet.svg))
            @if !sheet.caption.is_empty() { figcaption { (text(&sheet.caption)) } }
        }
    }
}

fn plots(plots: &[Plot]) -> Markup {
    html! {
        div class=(if plots.len() > 1 { "plots two" } else { "plots" }) {
            @for plot in plots {
                figure class="plot" { figcaption { (text(&plot.title)) } (PreEscaped(&plot.svg)) }
            }
        }
    }
}

fn found(found: &Found) -> Markup {
    let class = if found.waived.is_some() { "found waived" } else { found.severity };
    html! {
        article class={ "found " (class) } {
            h3 { span class="severity" { (found.severity) } " " (text(&found.title)) }
            p class="where" {
                @if let Some(link) = &found.link {
                    a href=(link) { (text(&found.place)) }
                } @else {
                    (text(&found.place))
                }
                " · " (text(&found.name))
            }
            dl {
                @for (heading, said) in &found.prose { dt { (heading) } dd { (text(said)) } }
                @if let Some(grounds) = &found.waived {
                    dt { "Waived" }
                    dd {
                        (text(&grounds.because)) " (" (text(&grounds.who))
                        @if !grounds.until.is_empty() { ", until " (grounds.until) }
                        ")"
                    }
                }
            }
            @if let Some(sketch) = &found.sketch { pre { (sketch) } }
        }
    }
}

fn checks(checks: &[Check]) -> Markup {
    html! {
        table class="checks" {
            caption { "What to look at, phase by phase" }
            thead {
                tr {
                    th scope="col" { "phase" }
                    th scope="col" { "what must be seen" }
                    th scope="col" { "day" }
                    th scope="col" { "seen" }
                    th scope="col" { "by" }
                    th scope="col" { "photo no." }
                }
            }
            tbody {
                @for (at, check) in checks.iter().enumerate() {
                    tr class=[check.hold.then_some("hold")] {
                        @if at == 0 || checks[at - 1].phase != check.phase {
                            th scope="row" { (text(&check.phase)) }
                        } @else {
                            td {}
                        }
                        td { @if check.hold { strong { "Hold: " } } (text(&check.what)) }
                        td class="date" { (check.day) }
                        td class="box" { span {} }
                        td class="sign" {}
                        td class="sign" {}
                    }
                }
            }
        }
    }
}
