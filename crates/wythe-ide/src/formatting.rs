//! The layout of the language: a whole file, a range, and a line as it is typed.

use wythe_findings::Edit;
use wythe_project::Project;
use wythe_source::{FileId, Span};
use wythe_syntax::{INDENT, Kind, format_parsed, format_range as range_of, parse, tokens};

/// The edits that put a file into the layout of the language, each no larger than the lines that differ.
pub fn format(project: &Project, file: FileId) -> Vec<Edit> {
    let text = project.text(file);
    let printed = format_parsed(text, &parse(file, text));
    difference(file, text, &printed)
}

/// The edits that lay out the declarations a range touches.
pub fn format_range(project: &Project, range: Span) -> Vec<Edit> {
    let text = project.text(range.file);
    let parsed = parse(range.file, text);
    match range_of(text, &parsed, range.start..range.end) {
        None => Vec::new(),
        Some((replaced, printed)) => {
            let span = Span::new(range.file, replaced.start, replaced.end);
            vec![Edit { span, text: printed }]
        }
    }
}

/// The edit that sets the line at an offset to its depth, after a line end or a `}` has been typed.
pub fn format_on_type(project: &Project, file: FileId, offset: u32, typed: char) -> Vec<Edit> {
    let text = project.text(file);
    let start = text.get(..offset as usize).and_then(|t| t.rfind('\n')).map_or(0, |n| n + 1);
    let line = text.get(start..).and_then(|t| t.lines().next()).unwrap_or("");
    let indent = line.len() - line.trim_start_matches([' ', '\t']).len();
    let rest = line.trim_start_matches([' ', '\t']);
    if typed == '}' && !rest.starts_with('}') {
        return Vec::new();
    }
    let lexed = tokens(file, text);
    // A line inside a text is left as it is.
    if lexed.tokens.iter().any(|t| t.start < start as u32 && t.end > start as u32) {
        return Vec::new();
    }
    let mut depth = 0usize;
    for token in lexed.tokens.iter().take_while(|t| (t.start as usize) < start) {
        match token.kind {
            Kind::BraceOpen | Kind::ParenOpen | Kind::BracketOpen => depth += 1,
            Kind::BraceClose | Kind::ParenClose | Kind::BracketClose => depth = depth.saturating_sub(1),
            _ => {}
        }
    }
    if rest.starts_with(['}', ')', ']']) {
        depth = depth.saturating_sub(1);
    }
    let due = " ".repeat(depth * INDENT);
    if line.get(..indent) == Some(due.as_str()) {
        return Vec::new();
    }
    vec![Edit { span: Span::new(file, start as u32, (start + indent) as u32), text: due }]
}

/// One edit over the lines that differ; nothing where the texts are the same.
fn difference(file: FileId, old: &str, new: &str) -> Vec<Edit> {
    if old == new {
        return Vec::new();
    }
    let same_lines = |a: &str, b: &str| {
        a.split_inclusive('\n')
            .zip(b.split_inclusive('\n'))
            .take_while(|(x, y)| x == y)
            .map(|(x, _)| x.len())
            .sum::<usize>()
    };
    let head = same_lines(old, new);
    let (old_rest, new_rest) = (&old[head..], &new[head..]);
    let tail: usize = old_rest
        .split_inclusive('\n')
        .rev()
        .zip(new_rest.split_inclusive('\n').rev())
        .take_while(|(x, y)| x == y)
        .map(|(x, _)| x.len())
        .sum();
    let span = Span::new(file, head as u32, (old.len() - tail) as u32);
    vec![Edit { span, text: new_rest[..new_rest.len() - tail].to_owned() }]
}
