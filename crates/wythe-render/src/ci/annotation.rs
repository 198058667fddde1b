//! Workflow commands, one line a finding, which a host shows at the changed line of a pull request.

use std::io::{self, Write};

use wythe_findings::Severity;

use super::point::Regions;
use super::{Checked, told};

/// Writes the findings as `::error file=…::…` lines.
///
/// # Errors
/// Where `out` fails.
pub fn github(repositories: &[Checked<'_>], out: &mut dyn Write) -> io::Result<()> {
    for repository in repositories {
        let mut regions = Regions::new(repository.files);
        for finding in repository.findings {
            let region = regions.region(finding.primary.span);
            let word = match finding.severity {
                Severity::Error => "error",
                Severity::Warning => "warning",
                Severity::Information => "notice",
            };
            let file = property(&repository.files.name(finding.primary.span.file));
            write!(out, "::{word} file={file},line={}", region.start.line)?;
            if region.end.line == region.start.line {
                write!(out, ",col={},endColumn={}", region.start.column, region.end.column)?;
            } else {
                write!(out, ",endLine={}", region.end.line)?;
            }
            let title = property(&format!("{} {}", finding.name, finding.name.as_str()));
            writeln!(out, ",title={title}::{}", message(&told(finding)))?;
        }
    }
    Ok(())
}

/// Text in which nothing ends the line or begins another command.
fn message(text: &str) -> String {
    crate::terminal::clean(text).replace('%', "%25").replace('\r', "%0D").replace('\n', "%0A")
}

/// Text in which, beside that, nothing ends the property.
fn property(text: &str) -> String {
    message(text).replace(':', "%3A").replace(',', "%2C")
}
