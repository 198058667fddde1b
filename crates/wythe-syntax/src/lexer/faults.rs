//! What the lexer says of figures, texts and characters that are written wrong.

use wythe_findings::{Edit, Finding, Fix, codes};

use super::raw::Raw;
use super::{Lexer, lookalike};
use crate::token::Kind;

impl Lexer<'_, '_> {
    fn slice(&self, start: u32, end: u32) -> &str {
        self.text.get(start as usize..end as usize).unwrap_or("")
    }

    /// Characters that are no part of the language; neighbors share one finding.
    pub(super) fn unreadable(&mut self, start: u32, end: u32) {
        if let Some(last) = self.out.tokens.last_mut().filter(|t| t.kind == Kind::Unreadable && t.end == start) {
            last.end = end;
            self.last_end = end;
            return;
        }
        if self.curly_text(start, end) {
            return;
        }
        let found = self.slice(start, end).to_owned();
        let span = self.findings.span(start, end);
        self.findings.add(start, || {
            let shown = found.chars().next().unwrap_or('\u{fffd}');
            let name = if shown.is_control() || shown.is_whitespace() {
                format!("the character U+{:04X}", shown as u32)
            } else {
                format!("`{shown}`")
            };
            let finding = Finding::new(codes::UNREADABLE_CHARACTER, span, format!("{name} is no part of the language"))
                .label("not read");
            match lookalike::plain(shown).filter(|_| found.chars().count() == 1) {
                Some(plain) => {
                    let word = plain.trim();
                    let mend =
                        if word.is_empty() { "write a plain space".to_owned() } else { format!("write `{word}`") };
                    finding.mend(mend.clone()).fix(Fix::needs_consent(mend, span, plain))
                }
                None => finding.mend("take it out, or put it into a text between quotation marks"),
            }
        });
        let end = end + self.mark_after_fraction(start, end);
        self.push(Kind::Unreadable, start, end);
    }

    /// A text between curly quotation marks: one finding for both of them.
    fn curly_text(&mut self, start: u32, end: u32) -> bool {
        let is_curly = |c: char| matches!(c, '\u{201c}' | '\u{201d}' | '\u{201e}');
        if !self.slice(start, end).chars().next().is_some_and(is_curly) || self.in_text {
            return false;
        }
        let line = self.raw.remainder().split('\n').next().unwrap_or("");
        let Some((at, mark)) = line.char_indices().find(|(_, c)| is_curly(*c)) else {
            return false;
        };
        let close = end + at as u32;
        let after = close + mark.len_utf8() as u32;
        self.raw.bump((after - end) as usize);
        let (open, close) = (self.findings.span(start, end), self.findings.span(close, after));
        self.findings.add(start, || {
            let edits = [open, close].map(|span| Edit { span, text: "\"".to_owned() }).to_vec();
            Finding::new(codes::UNREADABLE_CHARACTER, open, "a curly quotation mark is no part of the language")
                .label("opens a text here")
                .related(close, "and closes it here")
                .mend("write `\"` on both sides")
                .fix(Fix { edits, ..Fix::needs_consent("write `\"` on both sides", open, "\"") })
        });
        self.push(Kind::BadFigure, start, after);
        true
    }

    /// The mark after `½` belongs to it: alone it would open a text.
    fn mark_after_fraction(&mut self, start: u32, end: u32) -> u32 {
        let fraction = self
            .slice(start, end)
            .chars()
            .next()
            .and_then(lookalike::plain)
            .is_some_and(|p| p.contains('/') && p.len() > 1);
        let mark = u32::from(fraction && self.raw.remainder().starts_with(['"', '\'']));
        self.raw.bump(mark as usize);
        mark
    }

    pub(super) fn unknown_escape(&mut self, start: u32, end: u32) {
        let found = self.slice(start, end).to_owned();
        let span = self.findings.span(start, end);
        self.findings.add(start, || {
            Finding::new(codes::UNKNOWN_ESCAPE, span, format!("`{found}` means nothing in a text"))
                .label("after `\\` stands `\"`, `\\`, `{`, `}`, `n` or `t`")
                .mend("write `\\\\` for the sign itself")
                .fix(Fix::needs_consent("double the sign", span, format!("\\{found}")))
        });
    }

    /// A text that its line ends. If a figure in it is followed by the mark that opens it, the fault is there.
    pub(super) fn unended_text(&mut self, start: u32, end: u32) {
        let early = self.text_ended_early(start);
        let span = self.findings.span(start, end);
        self.findings.add(start, || match early {
            Some((mark, figure)) => {
                let at = wythe_source::Span::new(span.file, mark, mark + 1);
                Finding::new(codes::TEXT_ENDS_EARLY, at, "the text ends here, at an inch mark")
                    .label("`\"` closes a text, even after a digit")
                    .related(
                        wythe_source::Span::new(span.file, span.start, span.end),
                        "so this opens another text, which nothing closes",
                    )
                    .mend(format!("write `{figure} in`, or `\\\"` for the mark"))
                    .fix(Fix::needs_consent("write `in`", at, " in"))
            }
            None => Finding::new(codes::UNENDED_TEXT, span, "the text is not closed on its line")
                .label("opened here")
                .mend("close it with `\"`; a text does not run over the end of its line")
                .fix(Fix::needs_consent(
                    "close it at the end of the line",
                    wythe_source::Span::new(span.file, end, end),
                    "\"",
                )),
        });
    }

    /// The mark of the text before, on the same line, that closes right after a digit.
    fn text_ended_early(&self, start: u32) -> Option<(u32, String)> {
        let text = self.out.tokens.iter().rev().take_while(|t| t.end > self.line_start).find(|t| {
            matches!(t.kind, Kind::Text | Kind::TextTail) && self.slice(t.start, t.end).ends_with('"') && t.end <= start
        })?;
        let body = self.slice(text.start, text.end - 1);
        let digits = body.bytes().rev().take_while(u8::is_ascii_digit).count();
        (digits > 0).then(|| (text.end - 1, body.get(body.len() - digits..).unwrap_or("").to_owned()))
    }

    pub(super) fn end_text_at_line_end(&mut self, at: u32) {
        self.in_text = false;
        let at = at.min(self.last_end.max(1));
        self.unclosed_value(at, "}\"");
        self.push(Kind::TextTail, at, at);
    }

    /// A `"` inside the `{ }` of a text: it closes the text.
    pub(super) fn end_text_in_braces(&mut self, start: u32, end: u32) {
        self.in_text = false;
        self.unclosed_value(start, "}");
        self.push(Kind::TextTail, start, end);
    }

    fn unclosed_value(&mut self, at: u32, missing: &str) {
        let open = self
            .out
            .tokens
            .iter()
            .rev()
            .find(|t| matches!(t.kind, Kind::TextHead | Kind::TextMid))
            .map_or(at, |t| t.end);
        let span = self.findings.span(open.saturating_sub(1), open);
        let end = self.findings.span(at, at);
        self.findings.add(open, || {
            Finding::new(codes::UNCLOSED_VALUE_IN_TEXT, span, "the `{` in this text is never closed")
                .label("opened here")
                .related(end, "the text ends here")
                .mend("close the value with `}`; no text stands inside the braces of a text")
                .fix(Fix::needs_consent(format!("insert `{missing}`"), end, missing))
        });
    }

    /// `{gap - 3"}`: an inch mark where only the quotation mark that ends the text may stand.
    pub(super) fn mark_in_text(&mut self, start: u32, end: u32) {
        let rest = self.raw.remainder();
        let line = rest.split('\n').next().unwrap_or("");
        let goes_on = line.find('}').is_some_and(|brace| line.get(brace..).is_some_and(|r| r.contains('"')));
        if !goes_on {
            self.push(Kind::Number, start, end - 1);
            return self.end_text_in_braces(end - 1, end);
        }
        let figure = self.slice(start, end - 1).to_owned();
        let span = self.findings.span(start, end);
        self.findings.add(start, || {
            let finding = Finding::new(codes::MARK_IN_TEXT, span, "no inch mark in the braces of a text")
                .label("`\"` would close the text")
                .cause("inside `{ }` a length is written with its unit, so that every editor sees where the text ends");
            if figure.contains('\'') {
                finding.mend("write the length in inches, such as `40-1/2 in`")
            } else {
                let text = format!("{figure} in");
                finding.mend(format!("write `{text}`")).fix(Fix::safe(format!("write `{text}`"), span, text))
            }
        });
        self.push(Kind::BadFigure, start, end);
    }

    pub(super) fn mixed(&mut self, start: u32, end: u32) {
        if self.unit_follows() {
            return self.push(Kind::Number, start, end);
        }
        let text = self.slice(start, end).to_owned();
        let span = self.findings.span(start, end);
        self.findings.add(start, || {
            let spaced = text.replacen('-', " - ", 1);
            Finding::new(codes::FIGURE_WITHOUT_UNIT, span, format!("`{text}` lacks its unit"))
                .label("a whole and a fraction, or a subtraction?")
                .mend(format!("write `{text}\"` for inches, or `{spaced}` to subtract"))
                .fix(Fix::needs_consent(format!("write `{text}\"`"), span, format!("{text}\"")))
                .fix(Fix::needs_consent(format!("write `{spaced}`"), span, spaced))
        });
        self.push(Kind::BadFigure, start, end);
    }

    pub(super) fn date(&mut self, start: u32, end: u32) {
        if end - start == 10 {
            return self.push(Kind::Date, start, end);
        }
        let text = self.slice(start, end).to_owned();
        let span = self.findings.span(start, end);
        self.findings.add(start, || {
            let mut parts = text.split('-');
            let mut part = || parts.next().unwrap_or("");
            let full = format!("{}-{:0>2}-{:0>2}", part(), part(), part());
            Finding::new(codes::DATE_SHAPE, span, "a date has two digits for month and day")
                .label("year, month, day")
                .mend(format!("write `{full}`"))
                .fix(Fix::safe(format!("write `{full}`"), span, full))
        });
        self.push(Kind::BadFigure, start, end);
    }

    pub(super) fn bad_length(&mut self, raw: Raw, start: u32, end: u32) {
        let text = self.slice(start, end).to_owned();
        let span = self.findings.span(start, end);
        let in_text = self.in_text;
        self.findings.add(start, || {
            let squeezed: String = text.split_whitespace().collect::<Vec<_>>().join(" ");
            let (code, title, label, mended) = match raw {
                Raw::MarkMissing => (
                    codes::LENGTH_WITHOUT_MARK,
                    "a length without its mark",
                    "no unit after the feet",
                    format!("{squeezed}\""),
                ),
                Raw::FeetDash => {
                    let mended = squeezed.replacen("'-", "' ", 1).replacen("' -", "' ", 1);
                    (codes::DASH_AFTER_FEET, "a dash between feet and inches", "`-` would take the inches away", mended)
                }
                Raw::FractionApart => {
                    let cut = squeezed.rfind(' ').unwrap_or(0);
                    let mended =
                        format!("{}-{}", squeezed.get(..cut).unwrap_or(""), squeezed.get(cut + 1..).unwrap_or(""));
                    (codes::FRACTION_APART, "the fraction stands apart from its inches", "two figures in a row", mended)
                }
                _ => (
                    codes::TWO_UNITS,
                    "two units to one length",
                    "one unit a length, when it is written in words",
                    two_units(&squeezed),
                ),
            };
            let finding = Finding::new(code, span, title).label(label);
            if in_text {
                finding.mend("inside the braces of a text write the length in inches, such as `40-1/2 in`")
            } else {
                finding.mend(format!("write `{mended}`")).fix(Fix::needs_consent(
                    format!("write `{mended}`"),
                    span,
                    mended,
                ))
            }
        });
        self.push(Kind::BadFigure, start, end);
    }

    /// `16"x16"`: cut it where the sign would stand, so that the rest of the line reads.
    pub(super) fn glued_size(&mut self, start: u32, end: u32) {
        let rest = self.raw.remainder();
        let bytes = rest.as_bytes();
        let more = bytes.iter().take_while(|b| b.is_ascii_digit() || matches!(b, b'-' | b'/' | b'.' | b'\'')).count();
        let marked = bytes.get(more) == Some(&b'"') && !self.in_text;
        let tail = if marked {
            more + 1
        } else if bytes.first() == Some(&b'\'') {
            more
        } else {
            0
        };
        let first = self.out.tokens.last().map_or(start, |t| t.start);
        let whole = self.findings.span(first, end + tail as u32);
        let sign = self.findings.span(self.last_end, start + 1);
        self.findings.add(first, || {
            Finding::new(codes::GLUED_SIZE, whole, "a size needs spaces around its `x`")
                .label("without them it reads as a name")
                .mend("put a space on either side of `x`")
                .fix(Fix::safe("put spaces around `x`", sign, " x "))
        });
        self.raw.bump(tail);
        self.push(Kind::Word(crate::keywords::Keyword::X), start, start + 1);
        let kind = if tail > 0 { Kind::Length } else { Kind::Number };
        self.push(kind, start + 1, end + tail as u32);
    }
}

/// `3 ft 4 1/2 in` as `3' 4-1/2"`.
fn two_units(text: &str) -> String {
    let (feet, inches) = text.split_once("ft").unwrap_or((text, ""));
    let inches = inches.trim().trim_end_matches("in").trim().replacen(' ', "-", 1);
    format!("{}' {inches}\"", feet.trim())
}
