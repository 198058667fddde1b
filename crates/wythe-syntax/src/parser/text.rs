//! Texts: plain parts with their escapes undone, and the values between them.

use super::expr::read_value;
use super::fault::{Failure, Wanted};
use super::state::{In, fail, peek, position, span_from};
use crate::ast::{ExprId, ExprKind, TextPart};
use crate::token::{Kind, Token};

/// A text.
pub(super) fn read_text<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> Result<ExprId, E> {
    let from = position(inp);
    let mut parts = Vec::new();
    match inp.peek() {
        Some(token) if matches!(token.kind, Kind::Text | Kind::TextHead) => {
            inp.skip();
            plain(inp, token, &mut parts);
            let mut open = token.kind == Kind::TextHead;
            while open {
                parts.push(TextPart::Value(read_value(inp)?));
                match inp.peek() {
                    Some(token) if matches!(token.kind, Kind::TextMid | Kind::TextTail) => {
                        inp.skip();
                        plain(inp, token, &mut parts);
                        open = token.kind == Kind::TextMid;
                    }
                    _ => return fail(inp, Wanted::Kind(Kind::TextTail)),
                }
            }
        }
        _ => return fail(inp, Wanted::Kind(Kind::Text)),
    }
    let span = span_from(inp, from);
    Ok(inp.state().push(span, ExprKind::Text(parts)))
}

/// Whether a text starts here.
#[inline]
pub(super) fn text_follows<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>) -> bool {
    matches!(peek(inp), Kind::Text | Kind::TextHead)
}

fn plain<'t, E: Failure<'t>>(inp: &mut In<'t, '_, E>, token: Token, parts: &mut Vec<TextPart>) {
    let text = undo_escapes(body(token.text(inp.state().text)));
    if !text.is_empty() || token.kind == Kind::Text {
        parts.push(TextPart::Plain(text));
    }
}

/// What stands between the marks of a piece of text: `"…"`, `"…{`, `}…{` or `}…"`.
fn body(piece: &str) -> &str {
    let inner = piece.strip_prefix(['"', '}']).unwrap_or(piece);
    let escaped = inner.bytes().rev().skip(1).take_while(|&b| b == b'\\').count() % 2 == 1;
    if escaped { inner } else { inner.strip_suffix(['"', '{']).unwrap_or(inner) }
}

/// The text meant by escapes: `\"`, `\\`, `\{`, `\}`, `\n`, `\t`; others stay as they are.
pub(crate) fn undo_escapes(raw: &str) -> String {
    if !raw.contains('\\') {
        return raw.to_owned();
    }
    let mut out = String::with_capacity(raw.len());
    let mut chars = raw.chars();
    while let Some(c) = chars.next() {
        if c != '\\' {
            out.push(c);
            continue;
        }
        match chars.next() {
            Some('n') => out.push('\n'),
            Some('t') => out.push('\t'),
            Some(same @ ('"' | '\\' | '{' | '}')) => out.push(same),
            Some(other) => out.extend(['\\', other]),
            None => out.push('\\'),
        }
    }
    out
}

/// The plain text of a whole text token, quotation marks taken off.
pub(super) fn plain_text(token_text: &str) -> String {
    undo_escapes(body(token_text))
}
