//! What is told of the place under the cursor, as Markdown.

mod buildup;
mod declaration;
mod layer;
mod local;
mod value;
mod wall;
mod word;

use wythe_project::Project;
use wythe_sema::Target;
use wythe_source::{FileId, Span};
use wythe_syntax::tokens;

use crate::occurrence;

pub(crate) use buildup::total_resistance;
pub(crate) use value::frame_at;

/// What is told of a place.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Hover {
    /// The place.
    pub span: Span,
    /// The text, in Markdown.
    pub text: String,
}

/// What is told of an offset; nothing in comments and between words.
pub fn hover(project: &Project, file: FileId, offset: u32) -> Option<Hover> {
    let text = project.text(file);
    let lexed = tokens(file, text);
    let at = lexed.tokens.partition_point(|t| t.end <= offset);
    let token = lexed.tokens.get(at).filter(|t| t.start <= offset);
    // A cursor at the end of a word still stands on it.
    let token = token.or_else(|| lexed.tokens.get(at.checked_sub(1)?).filter(|t| t.end == offset))?;
    let span = token.span(file);
    let work = layer::told(project, span);
    if let Some((place, target)) =
        occurrence::at(project.program(), file, offset).filter(|(s, _)| s.touches(token.start))
    {
        let told = match target {
            Target::Def(def) => declaration::told(project, def, place),
            Target::Part(def, number) => declaration::part(project, def, number),
            Target::Local(origin) => local::told(project, origin),
        };
        if let Some(told) = told {
            return Some(Hover { span: place, text: joined([Some(told), work]) });
        }
    }
    if let Some(work) = work {
        return Some(Hover { span, text: joined([Some(work), word::told(text, token)]) });
    }
    if let Some(told) = value::literal(project, file, offset) {
        return Some(told);
    }
    if let Some(told) = word::told(text, token) {
        return Some(Hover { span, text: told });
    }
    value::expression(project, file, offset)
}

/// Sections under one another.
fn joined(parts: impl IntoIterator<Item = Option<String>>) -> String {
    parts.into_iter().flatten().filter(|p| !p.is_empty()).collect::<Vec<_>>().join("\n\n---\n\n")
}

/// A piece of the language in a block of its own.
fn code(text: &str) -> String {
    format!("```wythe\n{text}\n```")
}
