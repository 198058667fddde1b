//! The language server: a thin translation of `wythe-ide` to the protocol.
//!
//! Imports `wythe-ide`, `wythe-project` and what they speak of; knows nothing of building. Handlers do one thing:
//! put a job on the queue of the one thread that owns the state. So changes are applied in the order they came,
//! and each answer is that of a client that waits for every answer. Start at [`serve_stdio`], then `backend` (the
//! methods), `queue` (the thread), `judges` (the threads beside it), `state` (what it owns), `requests` (the answers), `convert` (the types of the
//! protocol) and `encoding`, the only module that counts columns.

mod backend;
mod capabilities;
mod client;
mod convert;
mod drawing;
mod encoding;
mod input;
mod judges;
mod open;
mod page;
mod publisher;
mod queue;
mod requests;
mod settings;
mod shipped;
mod state;

use tokio::io::{AsyncRead, AsyncWrite};
use tower_lsp::{LspService, Server};

use backend::Backend;
use input::Input;

pub use drawing::{Drawing, DrawingParams, DrawnLayer, ThemeAsked};

/// How many requests may wait for their answer at once. Far more than clients send: a wait must never hold up a
/// cancellation.
const WAITING: usize = 1024;

/// How a client is served.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Service {
    /// Opens the page with the drawing as soon as the client is there.
    pub drawing: bool,
}

/// Serves a client over standard input and output until it leaves.
///
/// # Errors
/// Where the system gives no threads.
pub fn serve_stdio(service: Service) -> std::io::Result<()> {
    let runtime = tokio::runtime::Builder::new_multi_thread().worker_threads(2).enable_all().build()?;
    runtime.block_on(serve(service, tokio::io::stdin(), tokio::io::stdout()));
    // A client that has gone leaves a read of standard input behind that never ends.
    runtime.shutdown_background();
    Ok(())
}

/// Serves a client over any pair of streams until the reading one ends.
pub async fn serve(how: Service, input: impl AsyncRead + Unpin, output: impl AsyncWrite) {
    let (complaints, heard) = tokio::sync::mpsc::unbounded_channel();
    let backend = |client| Backend::new(client, heard, how);
    let service = LspService::build(backend).custom_method("wythe/drawing", Backend::drawing);
    let service = service.custom_method("wythe/cursor", Backend::cursor);
    #[cfg(debug_assertions)]
    let service = service.custom_method("wythe/breakDown", Backend::break_down);
    let (service, socket) = service.finish();
    Server::new(Input::new(input, complaints), output, socket).concurrency_level(WAITING).serve(service).await;
}
