//! Outlines and names across the project.

use tower_lsp::lsp_types::{DocumentSymbol, SymbolInformation, SymbolKind};
use wythe_ide::symbols::{Outline, SymbolKind as Kind};

use super::Places;

/// The sort of a symbol in the protocol's words.
pub(crate) const fn kind(kind: Kind) -> SymbolKind {
    match kind {
        Kind::Value => SymbolKind::VARIABLE,
        Kind::Function => SymbolKind::FUNCTION,
        Kind::Unit => SymbolKind::CONSTANT,
        Kind::Record => SymbolKind::STRUCT,
        Kind::Enum => SymbolKind::ENUM,
        Kind::Member => SymbolKind::ENUM_MEMBER,
        Kind::Product => SymbolKind::CLASS,
        Kind::Buildup => SymbolKind::INTERFACE,
        Kind::Joint => SymbolKind::OPERATOR,
        Kind::Phase => SymbolKind::EVENT,
        Kind::Site => SymbolKind::NAMESPACE,
        Kind::Foundation => SymbolKind::MODULE,
        Kind::Part => SymbolKind::FIELD,
        Kind::Section => SymbolKind::PROPERTY,
        Kind::Rule => SymbolKind::KEY,
        Kind::Ledger => SymbolKind::ARRAY,
        Kind::Test => SymbolKind::METHOD,
    }
}

/// A tree of symbols.
#[allow(deprecated, reason = "the protocol's type has a field that is deprecated and must be filled")]
pub(crate) fn tree(places: &Places<'_>, outline: &Outline) -> DocumentSymbol {
    let children: Vec<_> = outline.children.iter().map(|c| tree(places, c)).collect();
    DocumentSymbol {
        name: if outline.name.is_empty() { "(no name)".into() } else { outline.name.clone() },
        detail: (!outline.detail.is_empty()).then(|| outline.detail.clone()),
        kind: kind(outline.kind),
        tags: None,
        deprecated: None,
        range: places.range(outline.span.to(outline.name_span)),
        selection_range: places.range(outline.name_span),
        children: (!children.is_empty()).then_some(children),
    }
}

/// A list of symbols, each with the name of what holds it.
#[allow(deprecated, reason = "the protocol's type has a field that is deprecated and must be filled")]
pub(crate) fn flat(places: &Places<'_>, outline: &Outline, within: Option<&str>, out: &mut Vec<SymbolInformation>) {
    if let Some(location) = places.location(outline.name_span) {
        out.push(SymbolInformation {
            name: outline.name.clone(),
            kind: kind(outline.kind),
            tags: None,
            deprecated: None,
            location,
            container_name: within.map(str::to_owned),
        });
    }
    for child in &outline.children {
        flat(places, child, Some(&outline.name), out);
    }
}
