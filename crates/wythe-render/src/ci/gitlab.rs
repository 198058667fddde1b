//! The code quality report of GitLab: a list of issues with a place and a mark.

use serde::Serialize;
use wythe_findings::Severity;

use super::fingerprint::Fingerprints;
use super::point::Regions;
use super::{Checked, harmless, said};

#[derive(Serialize)]
struct Issue {
    description: String,
    check_name: &'static str,
    fingerprint: String,
    severity: &'static str,
    location: Location,
}

#[derive(Serialize)]
struct Location {
    path: String,
    lines: Lines,
}

#[derive(Serialize)]
struct Lines {
    begin: u32,
    end: u32,
}

/// The report, indented, with a line end.
///
/// # Errors
/// None that the form can bring about.
pub fn gitlab(repositories: &[Checked<'_>]) -> serde_json::Result<String> {
    let mut marks = Fingerprints::default();
    let mut issues = Vec::new();
    for repository in repositories {
        let mut regions = Regions::new(repository.files);
        for finding in repository.findings {
            let region = regions.region(finding.primary.span);
            let path = repository.files.name(finding.primary.span.file);
            issues.push(Issue {
                description: said(finding),
                check_name: finding.name.as_str(),
                fingerprint: marks.of(finding, &path),
                severity: match finding.severity {
                    Severity::Error => "major",
                    Severity::Warning => "minor",
                    Severity::Information => "info",
                },
                location: Location {
                    path: harmless(&path),
                    lines: Lines { begin: region.start.line, end: region.end.line },
                },
            });
        }
    }
    Ok(serde_json::to_string_pretty(&issues)? + "\n")
}
