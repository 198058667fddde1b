//! Findings held against a baseline.

use std::collections::BTreeMap;

use jiff::civil::Date;
use wythe_findings::{Finding, codes};
use wythe_source::FileId;

use super::{Baseline, BaselineEntry, BaselineKey};

impl Baseline {
    /// The findings the baseline does not hold, and what is wrong with the baseline itself.
    ///
    /// Entries run out on the day after `until`; without `today` none does. An entry is unmatched only where `checked`
    /// says of its file that all that could be found there was looked for.
    pub fn apply(
        &self,
        findings: Vec<Finding>,
        name_of: impl Fn(FileId) -> String,
        checked: impl Fn(&str) -> bool,
        today: Option<Date>,
    ) -> Vec<Finding> {
        let expired = |entry: &BaselineEntry| entry.until.zip(today).is_some_and(|(until, today)| until < today);
        let mut left: BTreeMap<&BaselineKey, usize> =
            self.entries.iter().map(|(key, entry)| (key, if expired(entry) { 0 } else { entry.count })).collect();
        let mut kept = Vec::new();
        for finding in findings {
            let held = Baseline::takes(&finding)
                && left.get_mut(&BaselineKey::of(&finding, name_of(finding.primary.span.file))).is_some_and(|count| {
                    let any = *count > 0;
                    *count -= usize::from(any);
                    any
                });
            if !held {
                kept.push(finding);
            }
        }
        for (key, entry) in &self.entries {
            if expired(entry) {
                kept.push(ran_out(key, entry));
            } else if left.get(key).is_some_and(|&count| count > 0) && checked(&key.file) {
                kept.push(unmatched(key, entry, left[key]));
            }
        }
        kept
    }
}

fn ran_out(key: &BaselineKey, entry: &BaselineEntry) -> Finding {
    let day = entry.until.map_or_else(String::new, |day| day.to_string());
    let title = format!("what the baseline holds of `{}` in {} ran out on {day}", key.name, key.file);
    let mut finding = Finding::new(codes::BASELINE_EXPIRED, entry.place, title)
        .label("what it held counts again")
        .mend("mend what it held, or write a later day with a reason")
        .item(key.item.clone());
    if !entry.because.is_empty() {
        let by = if entry.who.is_empty() { String::new() } else { format!(" ({})", entry.who) };
        finding = finding.cause(format!("it was let stand because: {}{by}", entry.because));
    }
    finding
}

fn unmatched(key: &BaselineKey, entry: &BaselineEntry, over: usize) -> Finding {
    let title = if over == entry.count {
        format!("`{}` no longer stands in {}", key.name, key.file)
    } else {
        format!("`{}` stands in {} {} times and not {}", key.name, key.file, entry.count - over, entry.count)
    };
    Finding::new(codes::BASELINE_UNMATCHED, entry.place, title)
        .label(key.title.clone())
        .mend("`wythe baseline --prune` takes it out")
        .item(key.item.clone())
}
