//! Hover, signature help, hints, lenses, links, folds, selections, symbols: what is shown about a text.

use serde_json::json;
use tower_lsp::lsp_types::{
    CodeLens, Command, DocumentLink, DocumentSymbolResponse, Documentation, FoldingRange, FoldingRangeKind, Hover,
    HoverContents, InlayHint, InlayHintKind, InlayHintLabel, ParameterInformation, ParameterLabel, Position, Range,
    SelectionRange, SignatureHelp, SignatureInformation, SymbolInformation, Url,
};
use wythe_ide::folding::FoldKind;
use wythe_ide::hints::HintKind;
use wythe_ide::lens::LensCommand;
use wythe_ide::links::LinkTarget;

use crate::convert::{Places, markdown, symbols};
use crate::state::State;

/// What is told of a place.
pub(crate) fn hover(state: &State, url: &Url, position: Position) -> Option<Hover> {
    let at = state.at(url, position)?;
    let told = wythe_ide::hover::hover(at.project(), at.file, at.offset)?;
    let range = Some(at.places.range(told.span));
    Some(Hover { contents: HoverContents::Markup(markdown(told.text)), range })
}

/// The parameters of the call around a place.
pub(crate) fn signature(state: &State, url: &Url, position: Position) -> Option<SignatureHelp> {
    let at = state.at(url, position)?;
    let help = wythe_ide::signature::signature_help(at.project(), at.file, at.offset)?;
    // The protocol counts the label in UTF-16 units, whatever positions are counted in.
    let units = |byte: usize| help.label[..byte].encode_utf16().count() as u32;
    let params = help.params.iter().map(|(range, contract)| ParameterInformation {
        label: ParameterLabel::LabelOffsets([units(range.start), units(range.end)]),
        documentation: (!contract.is_empty()).then(|| Documentation::MarkupContent(markdown(format!("`{contract}`")))),
    });
    let signature = SignatureInformation {
        parameters: Some(params.collect()),
        documentation: (!help.docs.is_empty()).then(|| Documentation::MarkupContent(markdown(help.docs.clone()))),
        active_parameter: help.active.map(|n| n as u32),
        label: help.label.clone(),
    };
    Some(SignatureHelp {
        signatures: vec![signature],
        active_signature: Some(0),
        active_parameter: help.active.map(|n| n as u32),
    })
}

/// Figures beside the text.
pub(crate) fn hints(state: &State, url: &Url, range: Range) -> Option<Vec<InlayHint>> {
    let (at, span) = state.range(url, range)?;
    let all = wythe_ide::hints::hints(at.project(), span).into_iter().filter(|h| state.settings.hints.shows(h.kind));
    let hints = all.map(|h| InlayHint {
        position: at.places.position(at.file, h.offset),
        label: InlayHintLabel::String(h.text),
        kind: (h.kind == HintKind::Value).then_some(InlayHintKind::TYPE),
        text_edits: None,
        tooltip: None,
        padding_left: Some(true),
        padding_right: None,
        data: None,
    });
    Some(hints.collect())
}

/// Lines above declarations.
pub(crate) fn lenses(state: &State, url: &Url) -> Option<Vec<CodeLens>> {
    let at = state.file(url)?;
    let all = wythe_ide::lens::lenses(at.project(), at.file).into_iter();
    let lenses = all.map(|lens| {
        let place = |span| at.places.location(span).map(|l| json!(l)).unwrap_or_default();
        let (command, arguments) = match lens.command {
            LensCommand::None => ("", Vec::new()),
            LensCommand::ShowFindings => ("wythe.showFindings", vec![json!(url)]),
            LensCommand::RunTest(span) => ("wythe.runTest", vec![place(span)]),
            LensCommand::OpenDrawing(span) => ("wythe.openDrawing", vec![place(span)]),
            LensCommand::ShowReferences(span, all) => {
                let all: Vec<_> = all.into_iter().map(place).collect();
                ("wythe.showReferences", vec![place(span), json!(all)])
            }
        };
        let command = Command { title: lens.title, command: command.into(), arguments: Some(arguments) };
        CodeLens { range: at.places.range(lens.span), command: Some(command), data: None }
    });
    Some(lenses.collect())
}

/// Paths and packs that lead to files.
pub(crate) fn links(state: &State, url: &Url) -> Option<Vec<DocumentLink>> {
    let at = state.file(url)?;
    let all = wythe_ide::links::links(at.project(), at.file).into_iter();
    let links = all.filter_map(|link| {
        let target = match link.to {
            LinkTarget::File(file) => at.places.url(file),
            LinkTarget::Data(path) => Url::from_file_path(path.under(at.repository.root.as_ref()?)).ok(),
        };
        Some(DocumentLink { range: at.places.range(link.span), target: Some(target?), tooltip: None, data: None })
    });
    Some(links.collect())
}

/// What can be folded.
pub(crate) fn folds(state: &State, url: &Url) -> Option<Vec<FoldingRange>> {
    let at = state.file(url)?;
    let all = wythe_ide::folding::folds(at.project(), at.file).into_iter();
    let folds = all.map(|fold| FoldingRange {
        start_line: fold.first,
        // The closing brace stays in sight.
        end_line: if fold.kind == FoldKind::Region && state.can.line_folds {
            fold.last.saturating_sub(1).max(fold.first)
        } else {
            fold.last
        },
        kind: Some(match fold.kind {
            FoldKind::Region => FoldingRangeKind::Region,
            FoldKind::Comment => FoldingRangeKind::Comment,
            FoldKind::Uses => FoldingRangeKind::Imports,
        }),
        ..FoldingRange::default()
    });
    Some(folds.collect())
}

/// Growing selections, one for each position.
pub(crate) fn selections(state: &State, url: &Url, positions: &[Position]) -> Option<Vec<SelectionRange>> {
    let mut out = Vec::new();
    for position in positions {
        let at = state.at(url, *position)?;
        let spans = wythe_ide::selection::selection(at.project(), at.file, at.offset);
        let outward = spans.into_iter().rev().fold(None, |parent: Option<SelectionRange>, span| {
            Some(SelectionRange { range: at.places.range(span), parent: parent.map(Box::new) })
        });
        out.push(outward.unwrap_or(SelectionRange { range: Range::new(*position, *position), parent: None }));
    }
    Some(out)
}

/// The outline of a file.
pub(crate) fn outline(state: &State, url: &Url) -> Option<DocumentSymbolResponse> {
    let at = state.file(url)?;
    let all = wythe_ide::symbols::document(at.project(), at.file);
    if state.can.symbol_tree {
        return Some(DocumentSymbolResponse::Nested(all.iter().map(|s| symbols::tree(&at.places, s)).collect()));
    }
    let mut flat = Vec::new();
    for symbol in &all {
        symbols::flat(&at.places, symbol, None, &mut flat);
    }
    Some(DocumentSymbolResponse::Flat(flat))
}

/// Names in every repository.
pub(crate) fn workspace_symbols(state: &State, query: &str) -> Vec<SymbolInformation> {
    /// More than a list can show.
    const MOST: usize = 512;
    let mut out = Vec::new();
    for repository in state.repositories() {
        let places = Places::new(state, repository);
        for symbol in wythe_ide::symbols::workspace(&repository.project, query).into_iter().take(MOST) {
            symbols::flat(&places, &symbol, None, &mut out);
        }
    }
    out
}
