//! One fault of a shared assembly is one finding: the parts built so are listed, and repeats are merged.

use std::fmt::Write as _;

use rustc_hash::FxHashMap;
use wythe_findings::{Finding, FindingName, Label};
use wythe_model::{Assembly, AssemblyId, Foundation};
use wythe_source::{Span, Symbol};

/// Names in a row: `south, east and north`; a long row is cut and counted.
pub(crate) fn list(names: &[Symbol]) -> String {
    const MOST: usize = 12;
    let mut out = String::new();
    let shown = &names[..names.len().min(MOST)];
    for (at, name) in shown.iter().enumerate() {
        if at > 0 {
            out.push_str(if at + 1 == names.len() { " and " } else { ", " });
        }
        out.push_str(name.as_str());
    }
    if names.len() > shown.len() {
        let _ = write!(out, " and {} more", names.len() - shown.len());
    }
    out
}

/// The finding with its item and the parts built with the assembly.
pub(crate) fn of_assembly(
    f: &Foundation,
    id: AssemblyId,
    assembly: &Assembly,
    face: &str,
    finding: Finding,
) -> Finding {
    let item = format!("{}.{}.{face}", f.name, assembly.name);
    let places = f.built_with(id);
    let finding = finding.item(item);
    if places.is_empty() {
        finding
    } else {
        finding.related(assembly.call, format!("built so in {}: {}", f.name, list(&places)))
    }
}

/// Joins findings of the same name at the same place with the same title, and puts them in order of place.
///
/// The places and remarks of all are kept. Used over one foundation, whose assemblies may come from one
/// build-up, and again over a repository, whose houses share a library.
pub fn merge(findings: Vec<Finding>) -> Vec<Finding> {
    let mut seen: FxHashMap<(FindingName, Span, String), usize> = FxHashMap::default();
    let mut out: Vec<Finding> = Vec::with_capacity(findings.len());
    for finding in findings {
        let key = (finding.name.clone(), finding.primary.span, finding.title.clone());
        match seen.get(&key) {
            Some(&at) => add_labels(&mut out[at], finding.related),
            None => {
                seen.insert(key, out.len());
                out.push(finding);
            }
        }
    }
    out.sort_by(|a, b| a.order_key().cmp(&b.order_key()));
    out
}

fn add_labels(to: &mut Finding, labels: Vec<Label>) {
    for label in labels {
        if !to.related.contains(&label) {
            to.related.push(label);
        }
    }
}
