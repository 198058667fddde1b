//! From the bytes of a file to its tree.

use std::sync::Arc;

use wythe_findings::{Finding, codes};
use wythe_sema::{Declared, declare};
use wythe_source::{FileId, Span};
use wythe_syntax::ast::Module;
use wythe_syntax::limits::MAX_FILE_BYTES;
use wythe_syntax::{Parsed, decode, parse};

use crate::ReadFault;
use crate::guard::guarded;

/// A file, read.
#[derive(Clone, Debug)]
pub struct ParsedFile {
    /// Its text. Empty where it is none.
    pub text: Arc<str>,
    /// Its tree.
    pub module: Arc<Module>,
    /// Its names.
    pub declared: Arc<Declared>,
    /// What is wrong with its text.
    pub findings: Vec<Finding>,
    /// Its tokens, comments and chunks, for a file open in an editor; its module is the one above.
    pub surface: Option<Arc<Parsed>>,
}

/// What came of reading a file.
#[derive(Clone, Debug)]
pub(crate) enum Reading {
    /// It is there, though perhaps not as text.
    Present(Arc<ParsedFile>),
    /// It is not there, or must not be read.
    Absent(ReadFault),
}

impl Reading {
    pub(crate) fn present(&self) -> Option<&Arc<ParsedFile>> {
        match self {
            Reading::Present(parsed) => Some(parsed),
            Reading::Absent(_) => None,
        }
    }
}

/// Reads a file from its bytes, keeping the earlier reading where the text is the same.
pub(crate) fn read(file: FileId, bytes: Result<Vec<u8>, ReadFault>, earlier: Option<&Reading>, open: bool) -> Reading {
    let bytes = match bytes {
        Ok(bytes) => bytes,
        Err(ReadFault::TooLarge(size)) => return Reading::Present(Arc::new(empty(file, vec![too_large(file, size)]))),
        Err(fault) => return Reading::Absent(fault),
    };
    if let Some(Reading::Present(known)) = earlier
        && known.text.as_bytes() == bytes
        && known.surface.is_some() == open
    {
        return Reading::Present(known.clone());
    }
    let parsed = match decode(file, &bytes) {
        Ok(text) => guarded(file, || of_text(file, text, open)).unwrap_or_else(|fault| empty(file, vec![*fault])),
        Err(fault) => empty(file, vec![*fault]),
    };
    Reading::Present(Arc::new(parsed))
}

fn of_text(file: FileId, text: &str, open: bool) -> ParsedFile {
    let mut parsed = parse(file, text);
    let findings = parsed.findings.clone();
    let module = Arc::new(std::mem::take(&mut parsed.module));
    let lost = parsed.lost.iter().map(|ident| ident.name).collect();
    let declared = Arc::new(Declared { lost, ..declare(&module) });
    ParsedFile { text: text.into(), module, declared, findings, surface: open.then(|| Arc::new(parsed)) }
}

fn empty(file: FileId, findings: Vec<Finding>) -> ParsedFile {
    let module = Module { file, ..Module::default() };
    let declared = Arc::new(declare(&module));
    ParsedFile { text: "".into(), module: Arc::new(module), declared, findings, surface: None }
}

fn too_large(file: FileId, size: u64) -> Finding {
    Finding::new(codes::FILE_TOO_LARGE, Span::new(file, 0, 0), "the file is too large to be read")
        .label(format!("{size} bytes; {MAX_FILE_BYTES} are the limit"))
        .mend("part it into several files and join them with `use`")
}
