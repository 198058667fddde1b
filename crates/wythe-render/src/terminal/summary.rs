//! The last line: how much was found.

use wythe_findings::{Finding, Severity};

/// How many findings of each gravity there are.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Counts {
    /// Findings that fail a check.
    pub errors: usize,
    /// Findings that fail a check on request.
    pub warnings: usize,
    /// Findings that never fail a check.
    pub information: usize,
}

impl Counts {
    /// Counts findings.
    pub fn of<'a>(findings: impl IntoIterator<Item = &'a Finding>) -> Self {
        let mut counts = Counts::default();
        for finding in findings {
            match finding.severity {
                Severity::Error => counts.errors += 1,
                Severity::Warning => counts.warnings += 1,
                Severity::Information => counts.information += 1,
            }
        }
        counts
    }

    /// How many there are in all.
    pub const fn total(self) -> usize {
        self.errors + self.warnings + self.information
    }
}

/// The counts in words; empty where nothing was found.
pub fn summary(counts: Counts, files: usize) -> String {
    let part = |count: usize, one: &str, many: &str| match count {
        0 => None,
        1 => Some(format!("1 {one}")),
        n => Some(format!("{n} {many}")),
    };
    let found = [
        part(counts.errors, "error", "errors"),
        part(counts.warnings, "warning", "warnings"),
        part(counts.information, "remark", "remarks"),
    ];
    let found: Vec<String> = found.into_iter().flatten().collect();
    if found.is_empty() {
        return String::new();
    }
    format!("{} in {}", found.join(", "), part(files, "file", "files").unwrap_or_else(|| "no file".into()))
}

#[cfg(test)]
mod tests {
    use super::{Counts, summary};

    #[test]
    fn the_summary_counts_and_is_silent_when_clean() {
        assert_eq!(summary(Counts::default(), 12), "");
        assert_eq!(summary(Counts { errors: 1, warnings: 2, information: 0 }, 1), "1 error, 2 warnings in 1 file");
    }
}
