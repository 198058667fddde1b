//! Gathers the findings of one file and keeps their number within bounds.

use wythe_findings::{Finding, codes};
use wythe_source::{FileId, Span};

use crate::limits::MAX_FINDINGS;

/// Findings of one file, in the order made.
#[derive(Debug)]
pub(crate) struct Collector {
    file: FileId,
    findings: Vec<Finding>,
    left_out: usize,
    last_left_out: u32,
}

impl Collector {
    pub(crate) fn new(file: FileId) -> Self {
        Collector { file, findings: Vec::new(), left_out: 0, last_left_out: 0 }
    }

    pub(crate) fn span(&self, start: u32, end: u32) -> Span {
        Span::new(self.file, start, end)
    }

    /// Adds a finding; `make` is not called once the file has too many.
    pub(crate) fn add(&mut self, at: u32, make: impl FnOnce() -> Finding) {
        if self.findings.len() < MAX_FINDINGS {
            self.findings.push(make());
        } else {
            self.left_out += 1;
            self.last_left_out = at;
        }
    }

    pub(crate) fn len(&self) -> usize {
        self.findings.len()
    }

    /// Whether what is added from now on is only counted.
    pub(crate) fn is_full(&self) -> bool {
        self.findings.len() >= MAX_FINDINGS
    }

    /// The findings made before a mark.
    pub(crate) fn up_to(&self, mark: usize) -> &[Finding] {
        self.findings.get(..mark).unwrap_or(&[])
    }

    pub(crate) fn finish(mut self) -> Vec<Finding> {
        self.findings.sort_by_key(|f| f.primary.span);
        if self.left_out > 0 {
            let span = Span::new(self.file, self.last_left_out, self.last_left_out);
            self.findings.push(
                Finding::new(codes::TOO_MANY_FINDINGS, span, format!("{} more findings are not shown", self.left_out))
                    .cause(format!("a file lists {MAX_FINDINGS} findings at most"))
                    .mend("mend the first ones and check again"),
            );
        }
        self.findings
    }
}
