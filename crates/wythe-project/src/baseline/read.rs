//! A baseline from its file.

use std::collections::BTreeMap;

use jiff::civil::Date;
use serde::Deserialize;
use toml::Spanned;
use wythe_findings::{Finding, codes};
use wythe_source::Span;

use super::{Baseline, BaselineEntry, BaselineKey};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    form: Spanned<u32>,
    #[serde(default)]
    finding: Vec<Spanned<WrittenEntry>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenEntry {
    file: String,
    name: String,
    #[serde(default)]
    item: String,
    title: String,
    #[serde(default = "one")]
    count: usize,
    #[serde(default)]
    because: String,
    #[serde(default)]
    who: String,
    until: Option<Spanned<toml::value::Datetime>>,
}

const fn one() -> usize {
    1
}

impl Baseline {
    /// Reads the text of a baseline.
    ///
    /// # Errors
    /// Where it cannot be read, the finding that says so, placed in [`Baseline::FILE`].
    pub fn read(text: &str) -> Result<Baseline, Box<Finding>> {
        let fault = |range: std::ops::Range<usize>, label: String| {
            let place = Span::new(Baseline::FILE, range.start as u32, range.end as u32);
            Box::new(Finding::new(codes::BASELINE_UNREADABLE, place, "the baseline cannot be read").label(label))
        };
        let written: Written = toml::from_str(text)
            .map_err(|error| fault(error.span().unwrap_or(0..0), error.message().trim().to_owned()))?;
        if *written.form.get_ref() != Baseline::FORM {
            return Err(fault(written.form.span(), format!("this version reads form {}", Baseline::FORM)));
        }
        let mut entries = BTreeMap::new();
        for entry in written.finding {
            let range = entry.span();
            let place = Span::new(Baseline::FILE, range.start as u32, range.end as u32);
            let entry = entry.into_inner();
            let until = match &entry.until {
                None => None,
                Some(day) => Some(plain_day(day.get_ref()).ok_or_else(|| fault(day.span(), "a day is due".into()))?),
            };
            let key = BaselineKey { file: entry.file, name: entry.name, item: entry.item, title: entry.title };
            let value = BaselineEntry { count: entry.count, because: entry.because, who: entry.who, until, place };
            if entries.insert(key, value).is_some() {
                return Err(fault(range, "this finding stands in the baseline twice".into()));
            }
        }
        Ok(Baseline { entries })
    }
}

fn plain_day(value: &toml::value::Datetime) -> Option<Date> {
    match (value.date, value.time, value.offset) {
        (Some(d), None, None) => Date::new(d.year as i16, d.month as i8, d.day as i8).ok(),
        _ => None,
    }
}
