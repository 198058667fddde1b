//! One finding.

use std::io::{self, Write};
use std::ops::Range;

use ariadne::{Color, Config, Fmt as _, Label, Report, ReportKind};
use wythe_findings::{Finding, Severity};
use wythe_source::FileId;

use super::clean::clipped;
use super::{Sheets, Style, clean};

type Place = (FileId, Range<usize>);

/// The most characters of a title or label that are shown: names have no limit of their own.
const LONGEST_LABEL: usize = 400;

/// The most characters of a paragraph that are shown.
const LONGEST_PROSE: usize = 4_000;

/// How far prose stands from the edge.
const INDENT: &str = "   ";

/// Writes a finding: title, drawing, why, on site, mend, sketch.
///
/// # Errors
/// Where `out` fails.
pub fn write_finding(finding: &Finding, sheets: &mut Sheets<'_>, style: Style, out: &mut dyn Write) -> io::Result<()> {
    let color = hue(finding.severity);
    let head = format!("[{}] {}:", clean(&finding.name.to_string()), finding.severity.word());
    let title = clipped(&finding.title, LONGEST_LABEL);
    if style.color {
        writeln!(out, "{} {}", head.fg(color), title)?;
    } else {
        writeln!(out, "{head} {title}")?;
    }
    write_places(finding, sheets, style, out)?;
    let prose = [
        ("why", finding.cause.as_deref().unwrap_or("")),
        ("on site", said(finding.consequence_text())),
        ("mend", finding.mend.as_deref().unwrap_or("")),
        ("source", finding.source.as_deref().unwrap_or("")),
    ];
    for (heading, text) in prose {
        write_prose(heading, text, style, out)?;
    }
    if let Some(sketch) = &finding.sketch {
        for line in clean(sketch).lines() {
            writeln!(out, "{INDENT}{line}")?;
        }
    }
    writeln!(out)
}

/// Draws the places of a finding; those that cannot be drawn are told.
fn write_places(finding: &Finding, sheets: &mut Sheets<'_>, style: Style, out: &mut dyn Write) -> io::Result<()> {
    let color = hue(finding.severity);
    let first = finding.primary.span.file;
    let mut labels: Vec<(&wythe_findings::Label, Color)> = vec![(&finding.primary, color)];
    labels.extend(finding.related.iter().map(|label| (label, Color::Blue)));
    // One drawing a file, the file of the primary place first; in it, from the top down.
    labels.sort_by_key(|(label, _)| (label.span.file != first, label.span));
    let mut drawn = Vec::new();
    let mut told = Vec::new();
    for (label, color) in labels {
        let text = clipped(&label.text, LONGEST_LABEL);
        match sheets.drawn(label.span) {
            Some(place) => {
                let mark = Label::new((label.span.file, place)).with_color(color);
                // A place without words would not be marked where there is no color.
                drawn.push(mark.with_message(if text.is_empty() { "here" } else { text.as_ref() }));
            }
            None => told.push(format!("{}: {text}", sheets.words(label.span))),
        }
    }
    let primary: Place = (first, sheets.drawn(finding.primary.span).unwrap_or(0..0));
    let mut drawing = Vec::new();
    Report::build(ReportKind::Error, primary)
        .with_config(Config::default().with_color(style.color).with_tab_width(4))
        .with_labels(drawn)
        .finish()
        .write(&mut *sheets, &mut drawing)?;
    // The drawing's own title knows neither our words nor when to leave color out.
    let body = drawing.iter().position(|b| *b == b'\n').and_then(|end| drawing.get(end + 1..)).unwrap_or_default();
    out.write_all(body)?;
    for place in told {
        writeln!(out, "{INDENT}at {place}")?;
    }
    Ok(())
}

/// Pages of mere slips of the pen say that nothing happens on site; that is not worth a line.
fn said(consequence: &str) -> &str {
    if consequence.starts_with("None") { "" } else { consequence }
}

fn write_prose(heading: &str, text: &str, style: Style, out: &mut dyn Write) -> io::Result<()> {
    if text.is_empty() {
        return Ok(());
    }
    let text = clipped(text, LONGEST_PROSE);
    let flowing = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let first = format!("{INDENT}{heading:<9}");
    let options = textwrap::Options::new(style.width).subsequent_indent("            ").break_words(false);
    let options = options.initial_indent(&first).word_separator(textwrap::WordSeparator::AsciiSpace);
    for line in textwrap::wrap(&flowing, options) {
        writeln!(out, "{line}")?;
    }
    Ok(())
}

const fn hue(severity: Severity) -> Color {
    match severity {
        Severity::Error => Color::Red,
        Severity::Warning => Color::Yellow,
        Severity::Information => Color::Cyan,
    }
}

#[cfg(test)]
mod tests {
    use wythe_findings::{Finding, codes};
    use wythe_source::{FileId, Span};

    use super::write_finding;
    use crate::Files;
    use crate::terminal::{Sheets, Style};

    struct Two;

    const HOUSE: &str = "// 52 °F ½\nlet a = \"°\" + lost\nlet b = 2\n";
    const LIBRARY: &str = "// ° ° °\n\tpub let kept = 1\n";

    impl Files for Two {
        fn name(&self, file: FileId) -> String {
            if file.0 == 0 { "houses/a.wythe".into() } else { "library/\u{1b}b.wythe".into() }
        }

        fn text(&self, file: FileId) -> &str {
            if file.0 == 0 { HOUSE } else { LIBRARY }
        }
    }

    fn place(file: u32, text: &str, word: &str) -> Span {
        let start = text.find(word).unwrap() as u32;
        Span::new(FileId(file), start, start + word.len() as u32)
    }

    fn drawn(finding: &Finding) -> String {
        let mut out = Vec::new();
        let style = Style { color: false, width: 60 };
        write_finding(finding, &mut Sheets::new(&Two), style, &mut out).unwrap();
        String::from_utf8(out).unwrap()
    }

    #[test]
    fn places_in_two_files_are_drawn_after_wide_characters() {
        let finding = Finding::new(codes::UNKNOWN_NAME, place(0, HOUSE, "lost"), "`lost` is not known here")
            .label("not declared")
            .related(place(1, LIBRARY, "kept"), "this one is")
            .cause("A name is known in its file, and in files that use it from there by a line of their own.")
            .mend("write `kept`");
        insta::assert_snapshot!(drawn(&finding));
    }

    #[test]
    fn the_end_of_a_file_and_a_place_over_lines_can_be_drawn() {
        let end = Span::new(FileId(0), HOUSE.len() as u32, HOUSE.len() as u32);
        let whole = Span::new(FileId(0), 0, HOUSE.len() as u32);
        let finding =
            Finding::new(codes::UNCLOSED_BRACE, end, "a brace is never closed").label("closed here at the latest");
        insta::assert_snapshot!(drawn(&finding.related(whole, "all of this")));
    }

    #[test]
    fn a_place_that_does_not_fit_is_no_harm() {
        let inside = Span::new(FileId(0), 7, 8);
        let beyond = Span::new(FileId(0), 9_000, 9_001);
        let finding =
            Finding::new(codes::UNKNOWN_NAME, beyond, "t").related(inside, "half a character").label("beyond");
        insta::assert_snapshot!(drawn(&finding));
    }

    struct Long(String);

    impl Files for Long {
        fn name(&self, _: FileId) -> String {
            "long.wythe".into()
        }

        fn text(&self, _: FileId) -> &str {
            &self.0
        }
    }

    #[test]
    fn a_line_of_a_million_characters_is_told_and_not_drawn() {
        let files = Long("x".repeat(1_000_000));
        let finding = Finding::new(codes::UNKNOWN_NAME, Span::new(FileId(0), 500_000, 500_001), "t").label("here");
        let mut out = Vec::new();
        write_finding(&finding, &mut Sheets::new(&files), Style { color: false, width: 80 }, &mut out).unwrap();
        let text = String::from_utf8(out).unwrap();
        assert!(text.contains("at long.wythe:1:500001: here") && text.len() < 1_000, "{text}");
    }
}
