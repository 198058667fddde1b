//! Turns the faults of a chunk into findings: one a line, and none where the lexer has spoken already.

use std::collections::BTreeSet;

use wythe_findings::{Finding, Fix, Severity, codes};
use wythe_source::Span;

use super::Source;
use super::fault::{Fault, Wanted};
use crate::collector::Collector;
use crate::keywords::Keyword;
use crate::token::{Kind, Token};

/// Reports the faults of a chunk. `noted` are the findings the rules themselves made of it.
pub(super) fn report(
    source: Source<'_>,
    tokens: &[Token],
    faults: &[Fault],
    noted: &[Finding],
    findings: &mut Collector,
) {
    let mut told = BTreeSet::new();
    let lexical = findings.len();
    for finding in noted {
        findings.add(finding.primary.span.start, || finding.clone());
    }
    for fault in faults.iter().filter(|f| f.wanted != Wanted::Unknown) {
        if findings.is_full() {
            findings.add(tokens.get(fault.at as usize).map_or(0, |t| t.start), || finding(source, tokens, *fault));
            continue;
        }
        let line = statement_around(tokens, fault.at as usize);
        let known = findings
            .up_to(lexical)
            .iter()
            .any(|f| f.severity == Severity::Error && f.primary.span.start <= line.1 && line.0 <= f.primary.span.end);
        if !known && told.insert(line) {
            findings.add(line.0, || finding(source, tokens, *fault));
        }
    }
}

/// The bytes of the statement a token of the chunk stands in.
fn statement_around(tokens: &[Token], at: usize) -> (u32, u32) {
    let edge = |t: &Token| matches!(t.kind, Kind::End | Kind::BraceOpen | Kind::BraceClose);
    let at = at.min(tokens.len());
    let mut first = at;
    while first > 0 && !tokens.get(first - 1).is_some_and(edge) {
        first -= 1;
    }
    let mut last = at;
    while last < tokens.len() && !tokens.get(last).is_some_and(edge) {
        last += 1;
    }
    let start = tokens.get(first).or(tokens.last()).map_or(0, |t| t.start);
    let end = tokens.get(last.saturating_sub(1)).map_or(start, |t| t.end);
    (start, end.max(start))
}

/// Where a fault is shown: the token itself, or, at the end of a line, the place right after its last token.
fn place(source: Source<'_>, tokens: &[Token], at: usize) -> (Span, Option<Token>) {
    let end = |t: Option<&Token>| {
        let at = t.map_or(0, |t| t.end);
        Span::new(source.file, at, at)
    };
    match tokens.get(at) {
        Some(token) if token.kind != Kind::End && token.start < token.end => (token.span(source.file), Some(*token)),
        _ => (end(at.checked_sub(1).and_then(|before| tokens.get(before))), None),
    }
}

fn finding(source: Source<'_>, tokens: &[Token], fault: Fault) -> Finding {
    let at = fault.at as usize;
    let (span, token) = place(source, tokens, at);
    let found = match token {
        Some(t) => format!("`{}`", shortened(t.text(source.text))),
        None => "the end of the line".to_owned(),
    };
    match fault.wanted {
        Wanted::OtherEnd(from) => {
            let from = tokens.get(from as usize).map_or(span, |t| t.span(source.file));
            return Finding::new(codes::HALF_EXTENT, from.to(span), "the extent is half said")
                .label("`from` without `to`")
                .related(span, "`to` and the other end are due here")
                .mend("say both ends: `from … to …`, in either order");
        }
        Wanted::SingleComparison => {
            return Finding::new(codes::COMPARISON_CHAIN, span, "comparisons do not stand in a row")
                .label("a second comparison")
                .mend("join two comparisons with `and`: `a <= b and b <= c`");
        }
        Wanted::ArgumentName(first) => {
            let first = tokens.get(first as usize).map_or(span, |t| t.span(source.file));
            return Finding::new(codes::ARGUMENT_NAME, first.to(span), "only a plain name stands before `:`")
                .label("this is not a parameter's name")
                .mend("write `name: value`, or the value alone");
        }
        _ => {}
    }
    if let Some(special) = unit_of_length(source, tokens, at, span) {
        return special;
    }
    if let Some(special) = shown_inside(source, tokens, at, span, fault.wanted) {
        return special;
    }
    let mut due = describe(fault.wanted);
    if let Some(or) = fault.or.filter(|or| *or != Wanted::Unknown) {
        due = format!("{due} or {}", describe(or));
    }
    let title = match token {
        Some(_) if matches!(fault.wanted, Wanted::LineEnd | Wanted::Operator) => {
            format!("{found} does not fit here")
        }
        Some(_) => format!("{found} stands where {due} is due"),
        None => format!("the line ends where {due} is due"),
    };
    let base = Finding::new(codes::UNEXPECTED_TOKEN, span, title);
    match fault.wanted {
        Wanted::LineEnd => base.label("after something complete").mend("put it on a line of its own, or take it out"),
        Wanted::Operator => {
            base.label("the value before it is complete").mend("put an operator between, or a line of its own")
        }
        Wanted::Declaration => base.label("no declaration starts like this").mend(format!(
            "start with one of {}",
            listed(Keyword::ALL.iter().filter(|k| k.declares()).map(|k| k.text()))
        )),
        Wanted::Clause => base
            .label(format!("clauses are {}", listed(crate::clauses::CLAUSES.iter().copied())))
            .mend("open a clause with its word, or end the line"),
        Wanted::Kind(Kind::Assign) => insert(base, span, "=", due),
        Wanted::Kind(Kind::Word(word)) => insert(base, span, word.text(), due),
        Wanted::Kind(Kind::Colon) => {
            base.label(format!("{due} is due")).mend("a property is `name: value`, a section `name { … }`")
        }
        Wanted::IfInBrackets => base
            .label("`if` stands only where a value starts")
            .mend("put the choice in brackets: `(if … then … else …)`"),
        Wanted::Name if token.is_some_and(|t| t.kind == Kind::Type) => {
            base.label("names of values start in lower case").mend(format!("write {} in lower case", found))
        }
        Wanted::TypeName | Wanted::Type if token.is_some_and(|t| t.kind == Kind::Name) => base
            .label("names of types start with a capital")
            .mend(format!("write {found} with a capital, if a type is meant")),
        Wanted::Value => base
            .label("a value is due")
            .mend("put a value here: a figure with its unit, a name, or something in brackets"),
        _ => base.label(format!("{due} is due")).mend(format!("put {due} here")),
    }
}

fn insert(base: Finding, span: Span, what: &str, due: String) -> Finding {
    let before = Span::new(span.file, span.start, span.start);
    base.label(format!("{due} is due")).mend(format!("put `{what}` here")).fix(Fix::needs_consent(
        format!("insert `{what}`"),
        before,
        format!("{what} "),
    ))
}

/// `40-1/2 in 3`: a figure after a complete length in words.
fn unit_of_length(source: Source<'_>, tokens: &[Token], at: usize, span: Span) -> Option<Finding> {
    let before = at.checked_sub(1).and_then(|b| tokens.get(b))?;
    let here = tokens.get(at)?;
    let figure = |k: Kind| matches!(k, Kind::Number | Kind::Length);
    if !figure(here.kind)
        || !(figure(before.kind) || before.kind == Kind::Word(Keyword::In) || before.kind == Kind::Name)
    {
        return None;
    }
    let number_before =
        figure(before.kind) || at.checked_sub(2).and_then(|b| tokens.get(b)).is_some_and(|t| figure(t.kind));
    number_before.then(|| {
        Finding::new(codes::TWO_FIGURES, span, "two figures in a row")
            .label("a second figure")
            .related(before.span(source.file), "the first one ends here")
            .mend("one figure and one unit to a value; feet and inches are `3' 4-1/2\"`, sides are `16\" x 16\"`")
    })
}

/// `a as in + b`: the unit shown is said last.
fn shown_inside(source: Source<'_>, tokens: &[Token], at: usize, span: Span, wanted: Wanted) -> Option<Finding> {
    let here = tokens.get(at)?;
    if !matches!(wanted, Wanted::Operator | Wanted::LineEnd | Wanted::CommaOr(_)) || !here.kind.takes_the_next_line() {
        return None;
    }
    let start = statement_around(tokens, at).0;
    let shown =
        tokens.iter().take(at).rev().take_while(|t| t.start >= start).find(|t| t.kind == Kind::Word(Keyword::As))?;
    Some(
        Finding::new(codes::UNEXPECTED_TOKEN, span, "nothing is worked out after `as`")
            .label("the unit a value is shown in is said last")
            .related(shown.span(source.file), "the unit is said here")
            .mend("put `as` at the end, or put the part with `as` in brackets"),
    )
}

fn listed<'a>(words: impl Iterator<Item = &'a str>) -> String {
    words.map(|w| format!("`{w}`")).collect::<Vec<_>>().join(", ")
}

fn shortened(text: &str) -> String {
    if text.chars().count() <= 24 {
        return text.to_owned();
    }
    text.chars().take(23).chain(['…']).collect()
}

fn describe(wanted: Wanted) -> String {
    match wanted {
        Wanted::Kind(Kind::Word(word)) => format!("`{}`", word.text()),
        Wanted::Kind(kind) => kind.describe().to_owned(),
        Wanted::Name | Wanted::ArgumentName(_) => "a name in lower case".to_owned(),
        Wanted::TypeName => "a type's name".to_owned(),
        Wanted::AnyName => "a name".to_owned(),
        Wanted::Value | Wanted::IfInBrackets => "a value".to_owned(),
        Wanted::Unit => "a unit".to_owned(),
        Wanted::Type => "a type".to_owned(),
        Wanted::Declaration => "a declaration".to_owned(),
        Wanted::Item => "a property, a section or a statement".to_owned(),
        Wanted::Verb => "a verb such as `hang` or `set`".to_owned(),
        Wanted::Clause => "a clause".to_owned(),
        Wanted::Edge => "an edge or a place".to_owned(),
        Wanted::LineEnd | Wanted::Operator | Wanted::Unknown | Wanted::SingleComparison => {
            "the end of the line".to_owned()
        }
        Wanted::CommaOr(kind) => format!("`,` or {}", kind.describe()),
        Wanted::OtherEnd(_) => "`to`".to_owned(),
        Wanted::FunctionBody => "`= value` or `{ … give value }`".to_owned(),
        Wanted::Give => "`give`".to_owned(),
    }
}
