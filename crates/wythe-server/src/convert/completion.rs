//! What may be written, in the protocol's words.

use tower_lsp::lsp_types::{
    CompletionItem, CompletionItemKind, CompletionTextEdit, Documentation, InsertTextFormat, TextEdit,
};
use wythe_ide::complete::{Completion, Item, ItemKind};

use super::{Places, edits, markdown};

/// The items in their order.
pub(crate) fn items(places: &Places<'_>, completion: &Completion, snippets: bool) -> Vec<CompletionItem> {
    let range = places.range(completion.replaces);
    let one = |(at, item): (usize, &Item)| {
        let snippet = item.snippet && snippets;
        let text = if item.snippet && !snippets { plain(&item.insert) } else { item.insert.clone() };
        CompletionItem {
            label: item.label.clone(),
            kind: Some(kind(item.kind)),
            detail: (!item.detail.is_empty()).then(|| item.detail.clone()),
            documentation: (!item.docs.is_empty()).then(|| Documentation::MarkupContent(markdown(item.docs.clone()))),
            sort_text: Some(format!("{at:05}")),
            filter_text: Some(item.label.clone()),
            insert_text_format: Some(if snippet { InsertTextFormat::SNIPPET } else { InsertTextFormat::PLAIN_TEXT }),
            text_edit: Some(CompletionTextEdit::Edit(TextEdit { range, new_text: text })),
            additional_text_edits: (!item.extra.is_empty()).then(|| edits::of_file(places, &item.extra)),
            ..CompletionItem::default()
        }
    };
    completion.items.iter().enumerate().map(one).collect()
}

const fn kind(kind: ItemKind) -> CompletionItemKind {
    match kind {
        ItemKind::Keyword => CompletionItemKind::KEYWORD,
        ItemKind::Property => CompletionItemKind::PROPERTY,
        ItemKind::Value => CompletionItemKind::VARIABLE,
        ItemKind::Product => CompletionItemKind::CLASS,
        ItemKind::Function => CompletionItemKind::FUNCTION,
        ItemKind::Buildup => CompletionItemKind::INTERFACE,
        ItemKind::Phase => CompletionItemKind::EVENT,
        ItemKind::Member => CompletionItemKind::ENUM_MEMBER,
        ItemKind::Type => CompletionItemKind::STRUCT,
        ItemKind::Unit => CompletionItemKind::UNIT,
        ItemKind::Layer => CompletionItemKind::REFERENCE,
        ItemKind::Declaration => CompletionItemKind::MODULE,
        ItemKind::File => CompletionItemKind::FILE,
        ItemKind::Parameter => CompletionItemKind::FIELD,
    }
}

/// A snippet without its stops: what each offers, and the first of several choices.
pub(crate) fn plain(snippet: &str) -> String {
    let mut out = String::new();
    let mut rest = snippet;
    while let Some(at) = rest.find('$') {
        out.push_str(&rest[..at]);
        rest = &rest[at + 1..];
        if let Some(inner) = rest.strip_prefix('{') {
            let end = inner.find('}').unwrap_or(inner.len());
            let body = inner[..end].trim_start_matches(|c: char| c.is_ascii_digit());
            let choices = body.strip_prefix('|').map(|b| b.trim_end_matches('|').split(',').next().unwrap_or(""));
            out.push_str(choices.unwrap_or_else(|| body.trim_start_matches(':')));
            rest = inner.get(end + 1..).unwrap_or("");
        } else {
            rest = rest.trim_start_matches(|c: char| c.is_ascii_digit());
        }
    }
    out + rest
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn a_snippet_without_stops_is_text() {
        assert_eq!(plain("let ${1:name} = $0"), "let name = ");
        assert_eq!(plain("wall ${1} runs ${2|east,north|} ${3:20'}$0"), "wall  runs east 20'");
        assert_eq!(plain("grade"), "grade");
    }
}
