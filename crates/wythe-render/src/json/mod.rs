//! Findings as JSON, in the form that `spec/schema/findings.schema.json` describes.

mod place;

use serde::Serialize;
use wythe_findings::{Finding, FindingName, Fix, Safety};
use wythe_source::FileId;

use crate::Files;
use crate::terminal::Counts;
use place::{Place, Places};

/// The version of the form. It changes when a field is taken away or changes its meaning.
pub const FORM: u32 = 1;

/// A finding as it stands in the document.
#[derive(Serialize)]
struct Written {
    code: Option<&'static str>,
    name: &'static str,
    severity: &'static str,
    title: String,
    place: Place,
    label: String,
    related: Vec<WrittenLabel>,
    cause: Option<String>,
    consequence: Option<String>,
    mend: Option<String>,
    item: Option<String>,
    source: Option<String>,
    fixes: Vec<WrittenFix>,
}

#[derive(Serialize)]
struct WrittenLabel {
    place: Place,
    text: String,
}

#[derive(Serialize)]
struct WrittenFix {
    title: String,
    safety: &'static str,
    edits: Vec<WrittenEdit>,
}

#[derive(Serialize)]
struct WrittenEdit {
    place: Place,
    text: String,
}

#[derive(Serialize)]
struct Summary {
    errors: usize,
    warnings: usize,
    information: usize,
    files: usize,
}

#[derive(Serialize)]
struct Document {
    form: u32,
    version: &'static str,
    findings: Vec<Written>,
    summary: Summary,
}

/// Gathers findings, of one repository or several, into one document.
#[derive(Default)]
pub struct Findings {
    written: Vec<Written>,
    counts: Counts,
    files: usize,
}

impl Findings {
    /// Adds the findings of a repository and the number of files checked in it.
    pub fn add(&mut self, findings: &[Finding], files: &dyn Files, checked: usize) {
        let mut places = Places::new(files);
        let counts = Counts::of(findings);
        self.counts.errors += counts.errors;
        self.counts.warnings += counts.warnings;
        self.counts.information += counts.information;
        self.files += checked;
        self.written.extend(findings.iter().map(|finding| written(finding, &mut places, files)));
    }

    /// The document, indented, with a line end.
    ///
    /// # Errors
    /// None that the form can bring about.
    pub fn document(self, version: &'static str) -> serde_json::Result<String> {
        let Counts { errors, warnings, information } = self.counts;
        let summary = Summary { errors, warnings, information, files: self.files };
        let document = Document { form: FORM, version, findings: self.written, summary };
        Ok(serde_json::to_string_pretty(&document)? + "\n")
    }
}

impl Findings {
    /// The findings alone, each in a line of its own.
    ///
    /// # Errors
    /// None that the form can bring about.
    pub fn lines(self) -> serde_json::Result<String> {
        self.written.iter().try_fold(String::new(), |out, finding| Ok(out + &serde_json::to_string(finding)? + "\n"))
    }
}

fn written(finding: &Finding, places: &mut Places<'_>, files: &dyn Files) -> Written {
    let some = |text: &str| (!text.is_empty()).then(|| text.to_owned());
    Written {
        code: match &finding.name {
            FindingName::Code(code) => Some(code.page().number),
            FindingName::Rule(_) => None,
        },
        name: finding.name.as_str(),
        severity: finding.severity.word(),
        title: finding.title.clone(),
        place: places.place(finding.primary.span),
        label: finding.primary.text.clone(),
        related: finding
            .related
            .iter()
            .map(|label| WrittenLabel { place: places.place(label.span), text: label.text.clone() })
            .collect(),
        cause: finding.cause.clone(),
        consequence: some(finding.consequence_text()),
        mend: finding.mend.clone(),
        item: some(&finding.item),
        source: finding.source.clone(),
        fixes: finding.fixes.iter().filter_map(|fix| written_fix(fix, places, files)).collect(),
    }
}

fn written_fix(fix: &Fix, places: &mut Places<'_>, files: &dyn Files) -> Option<WrittenFix> {
    let edits = fix.resolve(|file: FileId| Some(files.text(file)))?;
    Some(WrittenFix {
        title: fix.title.clone(),
        safety: match fix.safety {
            Safety::Safe => "safe",
            Safety::Unsafe => "unsafe",
        },
        edits: edits.into_iter().map(|edit| WrittenEdit { place: places.place(edit.span), text: edit.text }).collect(),
    })
}
