//! Reviewdog diagnostic JSON: findings with places in bytes, and the edits that mend them.

use serde::Serialize;
use wythe_findings::{FindingName, Safety, Severity};

use super::point::{Point, Regions};
use super::{Checked, harmless, told};

#[derive(Serialize)]
struct Document {
    source: Source,
    diagnostics: Vec<Diagnostic>,
}

#[derive(Serialize)]
struct Source {
    name: &'static str,
}

#[derive(Serialize)]
struct Diagnostic {
    message: String,
    location: Location,
    severity: &'static str,
    code: Value,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    suggestions: Vec<Suggestion>,
}

#[derive(Serialize)]
struct Value {
    value: &'static str,
}

#[derive(Serialize)]
struct Location {
    path: String,
    range: Range,
}

#[derive(Serialize)]
struct Suggestion {
    range: Range,
    text: String,
}

#[derive(Serialize)]
struct Range {
    start: Position,
    end: Position,
}

/// Line and column from one, the column in bytes.
#[derive(Serialize)]
struct Position {
    line: u32,
    column: usize,
}

impl From<Point> for Position {
    fn from(point: Point) -> Self {
        Position { line: point.line, column: point.byte }
    }
}

/// The document, indented, with a line end. Of a finding's edits only safe ones within its own file are put down.
///
/// # Errors
/// None that the form can bring about.
pub fn rdjson(repositories: &[Checked<'_>]) -> serde_json::Result<String> {
    let mut diagnostics = Vec::new();
    for repository in repositories {
        let mut regions = Regions::new(repository.files);
        for finding in repository.findings {
            let file = finding.primary.span.file;
            let mut range = |span| {
                let region = regions.region(span);
                Range { start: region.start.into(), end: region.end.into() }
            };
            let safe = finding.fixes.iter().find(|fix| fix.safety == Safety::Safe);
            let edits = safe.and_then(|fix| fix.resolve(|file| Some(repository.files.text(file)))).unwrap_or_default();
            let whole = edits.iter().all(|edit| edit.span.file == file);
            let edits = edits.into_iter().filter(|_| whole);
            diagnostics.push(Diagnostic {
                message: told(finding),
                location: Location { path: harmless(&repository.files.name(file)), range: range(finding.primary.span) },
                severity: match finding.severity {
                    Severity::Error => "ERROR",
                    Severity::Warning => "WARNING",
                    Severity::Information => "INFO",
                },
                code: Value {
                    value: match &finding.name {
                        FindingName::Code(code) => code.page().number,
                        FindingName::Rule(name) => name.as_str(),
                    },
                },
                suggestions: edits.map(|edit| Suggestion { range: range(edit.span), text: edit.text }).collect(),
            });
        }
    }
    let document = Document { source: Source { name: "wythe" }, diagnostics };
    Ok(serde_json::to_string_pretty(&document)? + "\n")
}
