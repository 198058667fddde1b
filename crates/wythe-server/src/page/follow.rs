//! Draws what stands at the cursor. One drawing is made at a time; places passed meanwhile are left out.

use std::sync::Arc;

use tokio::sync::watch;
use tower_lsp::lsp_types::TextDocumentIdentifier;

use super::{Cursor, Shown};
use crate::drawing::{self, DrawingParams, ThemeAsked};
use crate::queue::Queue;

/// Follows the cursor until the server ends.
pub(crate) async fn follow(
    queue: Queue,
    mut cursor: watch::Receiver<Option<Cursor>>,
    shown: watch::Sender<Option<Arc<Shown>>>,
) {
    let mut number = 0;
    // Where the cursor was before the page was asked for counts too.
    cursor.mark_changed();
    while cursor.changed().await.is_ok() {
        let Some(at) = cursor.borrow_and_update().clone() else { continue };
        let params = DrawingParams {
            text_document: TextDocumentIdentifier { uri: at.uri },
            position: at.position,
            theme: Some(ThemeAsked::Light),
        };
        // Where nothing is to be drawn, the last drawing stays.
        if let Ok(Some(drawing)) = drawing::draw(&queue, params).await {
            number += 1;
            shown.send_replace(Some(Arc::new(Shown { number, drawing })));
        }
    }
}
