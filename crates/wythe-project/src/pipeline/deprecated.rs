//! Names in use whose documentation asks to leave them.

use std::collections::BTreeMap;

use wythe_findings::{Edit, Finding, Fix, Safety, codes};
use wythe_sema::{DefId, Program, Target};
use wythe_source::{FileId, Span};
use wythe_syntax::ast::Decl;

/// How a line of documentation begins that says so.
const MARK: &str = "Deprecated:";

/// One finding for each such name that a file takes from another, at its first mention.
pub(crate) fn deprecated(program: &Program, file: FileId) -> Vec<Finding> {
    let Some(checked) = program.module(file).and_then(|data| data.checked.as_ref()) else { return Vec::new() };
    let mut places: BTreeMap<DefId, Vec<Span>> = BTreeMap::new();
    for (span, target) in &checked.mentions {
        if let Target::Def(def) = target
            && def.file != file
            && span.file == file
        {
            places.entry(*def).or_default().push(*span);
        }
    }
    let one = |(def, mut places): (DefId, Vec<Span>)| {
        places.sort_unstable();
        places.dedup();
        finding(program, def, &places)
    };
    places.into_iter().filter_map(one).collect()
}

fn finding(program: &Program, def: DefId, places: &[Span]) -> Option<Finding> {
    let data = program.module(def.file)?;
    let decl = data.module.decls.get(def.index as usize)?;
    let said = notice(decl, &data.text)?;
    let (first, others) = places.split_first()?;
    let name = decl.name.name;
    let mut finding = Finding::new(codes::DEPRECATED_NAME, *first, format!("`{name}` is deprecated"))
        .label("taken from a file whose owner asks to leave it")
        .related(decl.name.span, "declared here")
        .mend(&said);
    let is_public = |word: &&str| {
        let declared = data.module.decls.iter().find(|other| other.public && other.name.name.as_str() == *word);
        declared.is_some_and(|other| other.name.name != name)
    };
    // Where it stands under another name of its own, only the place that takes it over names it.
    let plain = |span: &&Span| {
        let text = program.module(span.file).map_or("", |here| &*here.text);
        span.text(text) == name.as_str()
    };
    if let Some(new) = said.split('`').skip(1).step_by(2).find(is_public) {
        let named = others.iter().chain([first]).filter(plain);
        let edits = named.map(|span| Edit { span: *span, text: new.to_owned() }).collect();
        finding = finding.fix(Fix::new(format!("write `{new}` instead"), edits, Safety::Unsafe));
    }
    Some(finding)
}

/// What the documentation of a declaration says after its mark, in one line.
fn notice(decl: &Decl, text: &str) -> Option<String> {
    let docs = text.get(decl.docs?.range())?;
    let lines = docs.lines().map(|line| line.trim_start().trim_start_matches('/').trim());
    let mut said = lines.skip_while(|line| !line.starts_with(MARK)).take_while(|line| !line.is_empty());
    let first = said.next()?.trim_start_matches(MARK).trim();
    let words: Vec<&str> = [first].into_iter().chain(said).filter(|line| !line.is_empty()).collect();
    Some(if words.is_empty() { "nothing is said of what to use instead".into() } else { words.join(" ") })
}
