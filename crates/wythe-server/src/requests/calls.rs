//! Who calls a build-up or a function, and what it calls.

use tower_lsp::lsp_types::{CallHierarchyIncomingCall, CallHierarchyItem, CallHierarchyOutgoingCall, Position, Url};
use wythe_ide::calls::{self, CallItem};
use wythe_ide::occurrence;
use wythe_sema::Target;

use crate::convert::{Places, symbols};
use crate::state::{At, State};

/// The declaration at a place.
pub(crate) fn prepare(state: &State, url: &Url, position: Position) -> Option<Vec<CallHierarchyItem>> {
    let at = state.at(url, position)?;
    let item = calls::prepare(at.project(), at.file, at.offset)?;
    Some(vec![converted(&at.places, &item)?])
}

/// Who names it.
pub(crate) fn incoming(state: &State, item: &CallHierarchyItem) -> Option<Vec<CallHierarchyIncomingCall>> {
    let (at, def) = again(state, item)?;
    let calls = calls::incoming(at.project(), def).into_iter().filter_map(|call| {
        let from_ranges = call.places.iter().map(|s| at.places.range(*s)).collect();
        Some(CallHierarchyIncomingCall { from: converted(&at.places, &call.item)?, from_ranges })
    });
    Some(calls.collect())
}

/// What it names.
pub(crate) fn outgoing(state: &State, item: &CallHierarchyItem) -> Option<Vec<CallHierarchyOutgoingCall>> {
    let (at, def) = again(state, item)?;
    let calls = calls::outgoing(at.project(), def).into_iter().filter_map(|call| {
        let from_ranges = call.places.iter().map(|s| at.places.range(*s)).collect();
        Some(CallHierarchyOutgoingCall { to: converted(&at.places, &call.item)?, from_ranges })
    });
    Some(calls.collect())
}

/// The declaration of an item given out earlier, found by its place.
fn again<'s>(state: &'s State, item: &CallHierarchyItem) -> Option<(At<'s>, wythe_sema::DefId)> {
    let at = state.at(&item.uri, item.selection_range.start)?;
    match occurrence::at(at.project().program(), at.file, at.offset)? {
        (_, Target::Def(def)) => Some((at, def)),
        _ => {
            // A test bears no name that could be named.
            let decls = &at.project().program().module(at.file)?.module.decls;
            let index = decls.iter().position(|d| d.name.span.touches(at.offset))? as u32;
            let def = wythe_sema::DefId { file: at.file, index };
            Some((at, def))
        }
    }
}

fn converted(places: &Places<'_>, item: &CallItem) -> Option<CallHierarchyItem> {
    Some(CallHierarchyItem {
        name: item.name.clone(),
        kind: symbols::kind(item.kind),
        tags: None,
        detail: Some(item.detail.clone()),
        uri: places.url(item.name_span.file)?,
        range: places.range(item.span),
        selection_range: places.range(item.name_span),
        data: None,
    })
}
