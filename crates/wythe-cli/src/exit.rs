//! What the command tells the shell.

use std::process::ExitCode;

use wythe_findings::{Finding, FindingName, Severity, codes};

/// How a command ended; the graver outweighs the lighter.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) enum Exit {
    /// Nothing to complain of.
    Clean = 0,
    /// Findings.
    Findings = 1,
    /// Wrong usage, or input that cannot be read.
    Unusable = 2,
    /// A fault of Wythe itself.
    Broken = 101,
}

impl Exit {
    /// What findings come to.
    pub(crate) fn of(findings: &[Finding], warnings_as_errors: bool) -> Exit {
        let least = if warnings_as_errors { Severity::Warning } else { Severity::Error };
        Exit::from_severity(findings, Some(least))
    }

    /// What findings come to where those of a severity and graver ones fail; `None` where no severity does.
    pub(crate) fn from_severity(findings: &[Finding], least: Option<Severity>) -> Exit {
        findings.iter().map(|finding| Exit::of_one(finding, least)).max().unwrap_or(Exit::Clean)
    }

    fn of_one(finding: &Finding, least: Option<Severity>) -> Exit {
        let unreadable = [codes::FILE_UNREADABLE, codes::LINK_OUTSIDE, codes::NOT_TEXT, codes::FILE_TOO_LARGE];
        match &finding.name {
            FindingName::Code(code) if *code == codes::INTERNAL_ERROR => Exit::Broken,
            FindingName::Code(code) if unreadable.contains(code) => Exit::Unusable,
            _ if least.is_some_and(|least| finding.severity >= least) => Exit::Findings,
            _ => Exit::Clean,
        }
    }
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> ExitCode {
        ExitCode::from(exit as u8)
    }
}
