//! Semantic tokens: whole, of a range, and what has changed since they were last sent.

use tower_lsp::lsp_types::{
    Range, SemanticToken, SemanticTokens, SemanticTokensDelta, SemanticTokensEdit, SemanticTokensFullDeltaResult, Url,
};
use wythe_ide::semantic::semantic_tokens;
use wythe_source::Span;

use crate::convert::Places;
use crate::state::{At, State};

/// Tokens as they were sent, with their number.
#[derive(Clone, Default)]
pub(crate) struct Sent {
    id: u64,
    tokens: Vec<SemanticToken>,
}

/// The tokens of a file.
pub(crate) fn full(state: &mut State, url: &Url) -> Option<SemanticTokens> {
    let tokens = whole(state, url)?;
    let id = state.sent_tokens.get(url).map_or(0, |s| s.id) + 1;
    state.sent_tokens.insert(url.clone(), Sent { id, tokens: tokens.clone() });
    Some(SemanticTokens { result_id: Some(id.to_string()), data: tokens })
}

/// What has changed since the client was last told.
pub(crate) fn delta(state: &mut State, url: &Url, since: &str) -> Option<SemanticTokensFullDeltaResult> {
    let earlier = state.sent_tokens.get(url).filter(|s| s.id.to_string() == since).cloned();
    let Some(earlier) = earlier else { return full(state, url).map(SemanticTokensFullDeltaResult::Tokens) };
    let now = full(state, url)?;
    let (old, new) = (&earlier.tokens, &now.data);
    let head = old.iter().zip(new).take_while(|(a, b)| a == b).count();
    let tail = old[head..].iter().rev().zip(new[head..].iter().rev()).take_while(|(a, b)| a == b).count();
    let (gone, come) = (&old[head..old.len() - tail], &new[head..new.len() - tail]);
    let edits = if gone.is_empty() && come.is_empty() {
        Vec::new()
    } else {
        // The protocol counts the five figures of each token one by one.
        vec![SemanticTokensEdit {
            start: 5 * head as u32,
            delete_count: 5 * gone.len() as u32,
            data: (!come.is_empty()).then(|| come.to_vec()),
        }]
    };
    Some(SemanticTokensFullDeltaResult::TokensDelta(SemanticTokensDelta { result_id: now.result_id, edits }))
}

/// The tokens of a range.
pub(crate) fn range(state: &State, url: &Url, range: Range) -> Option<SemanticTokens> {
    let (at, span) = state.range(url, range)?;
    Some(SemanticTokens { result_id: None, data: encoded(state, &at, span) })
}

fn whole(state: &State, url: &Url) -> Option<Vec<SemanticToken>> {
    let at = state.file(url)?;
    let span = Span::new(at.file, 0, at.project().text(at.file).len() as u32);
    Some(encoded(state, &at, span))
}

/// Each token told from the one before it.
fn encoded(state: &State, at: &At<'_>, span: Span) -> Vec<SemanticToken> {
    let text = at.project().text(at.file);
    let places: &Places<'_> = &at.places;
    let (mut line, mut column) = (0, 0);
    let mut out = Vec::new();
    for token in semantic_tokens(at.project(), span) {
        let start = places.position(at.file, token.span.start);
        let delta_line = start.line - line;
        let delta_start = if delta_line == 0 { start.character - column } else { start.character };
        (line, column) = (start.line, start.character);
        out.push(SemanticToken {
            delta_line,
            delta_start,
            length: state.can.encoding.width(token.span.text(text)),
            token_type: token.kind as u32,
            token_modifiers_bitset: u32::from(token.declares) | (u32::from(token.of_language) << 1),
        });
    }
    out
}
