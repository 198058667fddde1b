//! SARIF 2.1.0 (OASIS Static Analysis Results Interchange Format).

use std::collections::BTreeMap;
use std::fmt::Write as _;

use serde_json::{Value, json};
use wythe_findings::{Finding, FindingName, Fix, Severity};
use wythe_source::Span;

use super::fingerprint::Fingerprints;
use super::point::Regions;
use super::{Checked, harmless, told};
use crate::Files;

/// The document, indented, with a line end.
///
/// # Errors
/// None that the form can bring about.
pub fn sarif(repositories: &[Checked<'_>], version: &str) -> serde_json::Result<String> {
    // A rule of the language may bear the name of a code: the numbers of the codes keep them apart.
    let mut rules: BTreeMap<String, &FindingName> = BTreeMap::new();
    for finding in repositories.iter().flat_map(|repository| repository.findings) {
        rules.insert(finding.name.to_string(), &finding.name);
    }
    let index: BTreeMap<&str, usize> = rules.keys().enumerate().map(|(at, id)| (id.as_str(), at)).collect();
    let mut marks = Fingerprints::default();
    let mut results = Vec::new();
    for repository in repositories {
        let mut regions = Regions::new(repository.files);
        for finding in repository.findings {
            let at = index.get(finding.name.to_string().as_str()).copied().unwrap_or_default();
            results.push(result(finding, at, repository.files, &mut regions, &mut marks));
        }
    }
    let document = json!({
        "$schema": "https://json.schemastore.org/sarif-2.1.0.json",
        "version": "2.1.0",
        "runs": [{
            "tool": { "driver": {
                "name": "wythe",
                "version": version,
                "rules": rules.iter().map(|(id, name)| rule(id, name)).collect::<Vec<_>>(),
            }},
            "columnKind": "unicodeCodePoints",
            "results": results,
        }],
    });
    Ok(serde_json::to_string_pretty(&document)? + "\n")
}

fn rule(id: &str, name: &FindingName) -> Value {
    match name {
        FindingName::Rule(name) => json!({ "id": id, "name": name.as_str() }),
        FindingName::Code(code) => {
            let page = code.page();
            let section = |heading| page.section(heading).unwrap_or("");
            json!({
                "id": id,
                "name": page.name,
                "shortDescription": { "text": page.title },
                "fullDescription": { "text": section("What it means") },
                "help": { "text": format!("On site: {}\nMend: {}", section("On site"), section("Mend")) },
                "defaultConfiguration": { "level": level(page.severity) },
            })
        }
    }
}

const fn level(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Information => "note",
    }
}

fn result(
    finding: &Finding,
    rule: usize,
    files: &dyn Files,
    regions: &mut Regions<'_>,
    marks: &mut Fingerprints,
) -> Value {
    let file = files.name(finding.primary.span.file);
    let mut location = physical(finding.primary.span, files, regions);
    if !finding.primary.text.is_empty() {
        location["message"] = json!({ "text": harmless(&finding.primary.text) });
    }
    if !finding.item.is_empty() {
        location["logicalLocations"] = json!([{ "fullyQualifiedName": harmless(&finding.item) }]);
    }
    let mut out = json!({
        "ruleId": finding.name.to_string(),
        "ruleIndex": rule,
        "level": level(finding.severity),
        "message": { "text": told(finding) },
        "locations": [location],
        "partialFingerprints": { "wythe/v1": marks.of(finding, &file) },
    });
    if !finding.related.is_empty() {
        let related = finding.related.iter().map(|label| {
            let mut place = physical(label.span, files, regions);
            place["message"] = json!({ "text": harmless(&label.text) });
            place
        });
        out["relatedLocations"] = related.collect();
    }
    let fixes: Vec<Value> = finding.fixes.iter().filter_map(|fix| written_fix(fix, files, regions)).collect();
    if !fixes.is_empty() {
        out["fixes"] = fixes.into();
    }
    out
}

fn physical(span: Span, files: &dyn Files, regions: &mut Regions<'_>) -> Value {
    json!({ "physicalLocation": {
        "artifactLocation": { "uri": uri(&files.name(span.file)) },
        "region": region(span, regions),
    }})
}

fn region(span: Span, regions: &mut Regions<'_>) -> Value {
    let region = regions.region(span);
    json!({
        "startLine": region.start.line,
        "startColumn": region.start.column,
        "endLine": region.end.line,
        "endColumn": region.end.column,
    })
}

/// A fix as the replacements of each file it touches.
fn written_fix(fix: &Fix, files: &dyn Files, regions: &mut Regions<'_>) -> Option<Value> {
    let mut changes: BTreeMap<String, Vec<Value>> = BTreeMap::new();
    for edit in fix.resolve(|file| Some(files.text(file)))? {
        changes.entry(files.name(edit.span.file)).or_default().push(json!({
            "deletedRegion": region(edit.span, regions),
            "insertedContent": { "text": edit.text },
        }));
    }
    let changes = changes
        .into_iter()
        .map(|(file, replacements)| json!({ "artifactLocation": { "uri": uri(&file) }, "replacements": replacements }));
    Some(json!({
        "description": { "text": harmless(&fix.title) },
        "artifactChanges": changes.collect::<Vec<_>>(),
    }))
}

/// A path as a relative reference: what RFC 3986 does not let stand in a path is written in hexadecimal digits.
fn uri(path: &str) -> String {
    let mut out = String::with_capacity(path.len());
    for byte in path.bytes() {
        if byte.is_ascii_alphanumeric() || b"-._~/!$&'()*+,;=@".contains(&byte) {
            out.push(byte as char);
        } else {
            // Writing to a text cannot fail.
            let _ = write!(out, "%{byte:02X}");
        }
    }
    out
}
