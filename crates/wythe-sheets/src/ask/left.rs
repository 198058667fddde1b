//! How many sheets, rolls and tubes for what is left?

use super::Answer;
use crate::House;
use crate::words::say;

/// The answer for a house: what its log leaves, or the whole where it has no log.
pub fn left(house: &House<'_>) -> Answer {
    let w = house.words;
    let items = match house.progress {
        Some(progress) => wythe_bill::order::left(house.job, &progress.rest(house.job)),
        None => house.job.order.clone(),
    };
    if items.is_empty() {
        return Answer::of(vec![say!(w, "ask-left-none")]);
    }
    let mut lines = vec![if house.progress.is_some() { say!(w, "ask-left") } else { say!(w, "ask-left-all") }];
    for item in &items {
        let count = crate::sheet::order_count(house, item);
        lines.push(say!(w, "ask-left-item", count = count, what = house.telling().product(&item.product)));
    }
    if !house.job.is_complete() {
        lines.push(say!(w, "order-incomplete"));
    }
    Answer::of(lines)
}
