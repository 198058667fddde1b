//! JUnit XML: suites of cases, some of which failed.

use std::collections::BTreeMap;
use std::io;

use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesText, Event};
use wythe_findings::Severity;

use super::point::Regions;
use super::{Checked, harmless, said, told};

/// Why a case failed.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Failure {
    /// The kind of failure: the name of a code or rule.
    pub kind: String,
    /// In one line.
    pub message: String,
    /// In full.
    pub text: String,
}

/// One case.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Case {
    /// Its name.
    pub name: String,
    /// Why it failed; empty if it did not.
    pub failures: Vec<Failure>,
}

/// The cases of one file.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Suite {
    /// The name of the file.
    pub name: String,
    /// The cases.
    pub cases: Vec<Case>,
}

/// A suite for each file checked, and for each file in which something was found beside those: one case a finding that
/// may fail a check, or one that passed.
pub fn suites_of(repositories: &[Checked<'_>]) -> Vec<Suite> {
    let mut suites: BTreeMap<String, Vec<Case>> = BTreeMap::new();
    for repository in repositories {
        suites.extend(repository.checked.iter().map(|name| (name.clone(), Vec::new())));
        let mut regions = Regions::new(repository.files);
        for finding in repository.findings.iter().filter(|f| f.severity >= Severity::Warning) {
            let start = regions.region(finding.primary.span).start;
            let file = repository.files.name(finding.primary.span.file);
            let place = format!("{}:{}", start.line, start.column);
            let failure = Failure {
                kind: finding.name.as_str().to_owned(),
                message: format!("{} {}: {}", finding.name, finding.severity.word(), said(finding)),
                text: format!("{file}:{place}\n{}", told(finding)),
            };
            let name = format!("{} at {place}", finding.name.as_str());
            suites.entry(file).or_default().push(Case { name, failures: vec![failure] });
        }
    }
    let passed = || vec![Case { name: "checked".into(), failures: Vec::new() }];
    let suite =
        |(name, cases): (String, Vec<Case>)| Suite { name, cases: if cases.is_empty() { passed() } else { cases } };
    suites.into_iter().map(suite).collect()
}

/// The document, with a line end.
///
/// # Errors
/// None that a text in memory can bring about.
pub fn junit(name: &str, suites: &[Suite]) -> io::Result<String> {
    let mut writer = Writer::new_with_indent(Vec::new(), b' ', 2);
    writer.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))?;
    let [cases, failed] = counts(suites.iter().flat_map(|suite| &suite.cases));
    writer
        .create_element("testsuites")
        .with_attributes([("name", name), ("tests", &cases), ("failures", &failed)])
        .write_inner_content(|writer| suites.iter().try_for_each(|one| suite(writer, one)))?;
    let mut text = String::from_utf8(writer.into_inner()).map_err(io::Error::other)?;
    text.push('\n');
    Ok(text)
}

fn suite(writer: &mut Writer<Vec<u8>>, suite: &Suite) -> io::Result<()> {
    let [cases, failed] = counts(&suite.cases);
    let name = fit(&suite.name);
    let attributes = [("name", name.as_str()), ("tests", &cases), ("failures", &failed)];
    writer
        .create_element("testsuite")
        .with_attributes(attributes)
        .write_inner_content(|writer| suite.cases.iter().try_for_each(|one| case(writer, one, &name)))?;
    Ok(())
}

fn case(writer: &mut Writer<Vec<u8>>, case: &Case, file: &str) -> io::Result<()> {
    let name = fit(&case.name);
    let element = writer.create_element("testcase").with_attributes([("classname", file), ("name", name.as_str())]);
    if case.failures.is_empty() {
        element.write_empty()?;
        return Ok(());
    }
    element.write_inner_content(|writer| {
        case.failures.iter().try_for_each(|failure| {
            let (message, kind, text) = (fit(&failure.message), fit(&failure.kind), fit(&failure.text));
            writer
                .create_element("failure")
                .with_attributes([("message", message.as_str()), ("type", kind.as_str())])
                .write_text_content(BytesText::new(&text))
                .map(drop)
        })
    })?;
    Ok(())
}

fn counts<'c>(cases: impl IntoIterator<Item = &'c Case>) -> [String; 2] {
    let (mut all, mut failed) = (0_usize, 0_usize);
    for case in cases {
        all += 1;
        failed += usize::from(!case.failures.is_empty());
    }
    [all.to_string(), failed.to_string()]
}

/// Text without the characters XML 1.0 has no way to write (section 2.2).
fn fit(text: &str) -> String {
    harmless(text).replace(['\u{fffe}', '\u{ffff}'], "\u{fffd}")
}
