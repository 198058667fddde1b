//! Old findings that a repository has agreed to live with for now.
//!
//! An entry is known by name, file, item and title, so that it survives lines that move. It may say why it stands, who
//! agreed and until when. What it no longer covers, and what has run out, is found in its turn.

mod apply;
mod read;
mod write;

use std::collections::BTreeMap;

use jiff::civil::Date;
use wythe_findings::{Finding, FindingName, Severity};
use wythe_source::{FileId, Span};

/// The most characters of a title that are kept: names in it have no limit of their own.
const LONGEST_TITLE: usize = 400;

/// What a finding is known by, whatever line it stands on.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct BaselineKey {
    /// The file, from the repository's folder.
    pub file: String,
    /// The name of the code or rule.
    pub name: String,
    /// The item it belongs to; may be empty.
    pub item: String,
    /// What is wrong, with its figures.
    pub title: String,
}

impl BaselineKey {
    /// The key of a finding in a file of this name.
    pub fn of(finding: &Finding, file: String) -> Self {
        BaselineKey {
            file,
            name: finding.name.as_str().to_owned(),
            item: finding.item.clone(),
            title: finding.title.chars().take(LONGEST_TITLE).collect(),
        }
    }
}

/// How often a finding may stand, and on whose word.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct BaselineEntry {
    /// How often it may stand.
    pub count: usize,
    /// Why it is left.
    pub because: String,
    /// Who agreed.
    pub who: String,
    /// The last day it holds.
    pub until: Option<Date>,
    /// Where the entry stands in the file.
    pub place: Span,
}

/// The findings a repository has agreed to live with.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Baseline {
    entries: BTreeMap<BaselineKey, BaselineEntry>,
}

/// Why, by whom and until when new entries are let stand.
#[derive(Clone, Debug, Default)]
pub struct Grant {
    /// Why.
    pub because: String,
    /// By whom.
    pub who: String,
    /// The last day.
    pub until: Option<Date>,
}

impl Baseline {
    /// The number a baseline's file goes by in findings; no source has it.
    pub const FILE: FileId = FileId(u32::MAX - 1);

    /// The entries, in order of file, name, item and title.
    pub fn entries(&self) -> impl Iterator<Item = (&BaselineKey, &BaselineEntry)> {
        self.entries.iter()
    }

    /// Whether a finding may be put in a baseline: one that can fail a check, and that leaves no doubt what a file says.
    pub fn takes(finding: &Finding) -> bool {
        let certain = match &finding.name {
            FindingName::Code(code) => !crate::manifest::is_fixed(code.page().area),
            FindingName::Rule(_) => true,
        };
        certain && finding.severity >= Severity::Warning
    }

    /// The baseline that holds exactly these findings. What this one says of those it held before is kept.
    #[must_use]
    pub fn rewritten(&self, findings: &[Finding], name_of: impl Fn(FileId) -> String, grant: &Grant) -> Baseline {
        let mut entries: BTreeMap<BaselineKey, BaselineEntry> = BTreeMap::new();
        for finding in findings.iter().filter(|f| Baseline::takes(f)) {
            let key = BaselineKey::of(finding, name_of(finding.primary.span.file));
            let known = self.entries.get(&key);
            let entry = entries.entry(key).or_insert_with(|| BaselineEntry {
                count: 0,
                because: known.map_or(&grant.because, |k| &k.because).clone(),
                who: known.map_or(&grant.who, |k| &k.who).clone(),
                until: known.map_or(grant.until, |k| k.until),
                place: Span::new(Baseline::FILE, 0, 0),
            });
            entry.count += 1;
        }
        Baseline { entries }
    }

    /// The baseline without what no longer stands; nothing is added.
    #[must_use]
    pub fn pruned(&self, findings: &[Finding], name_of: impl Fn(FileId) -> String) -> Baseline {
        let now = Baseline::default().rewritten(findings, name_of, &Grant::default());
        let mut entries = self.entries.clone();
        entries.retain(|key, entry| {
            entry.count = entry.count.min(now.entries.get(key).map_or(0, |e| e.count));
            entry.count > 0
        });
        Baseline { entries }
    }
}
