//! The drawing as a page in a browser, for editors that have no panel of their own.
//!
//! Served on the loopback address only, and only once it is asked for. The address carries a token that opens the page
//! one time; the page gets a key for its own questions. There are three paths and no files. `keys` admits, `site`
//! answers, `follow` draws what stands at the cursor.

mod follow;
mod keys;
mod site;

use std::io;
use std::net::{Ipv4Addr, SocketAddr};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

use tokio::net::TcpListener;
use tokio::sync::{OnceCell, watch};
use tower_lsp::Client;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::{MessageType, Position, ShowDocumentParams, Url};

use crate::client::ClientCan;
use crate::drawing::Drawing;
use crate::queue::Queue;
use keys::Keys;
use site::Site;

/// The command that opens the page. With `{"open": false}` its address is only given, once more for each call.
pub(crate) const COMMAND: &str = "wythe.server.drawingPage";

/// Where the cursor is.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Cursor {
    /// The document.
    pub uri: Url,
    /// The place in it.
    pub position: Position,
}

/// A drawing, and which it is in the row of those shown.
pub(crate) struct Shown {
    number: u64,
    drawing: Drawing,
}

/// The page, before and after somebody asks for it.
pub(crate) struct Page {
    client: Client,
    queue: Queue,
    cursor: watch::Sender<Option<Cursor>>,
    keys: Arc<Mutex<Keys>>,
    served: OnceCell<SocketAddr>,
    leads: AtomicBool,
}

impl Page {
    pub(crate) fn new(client: Client, queue: Queue) -> Page {
        let keys = Arc::default();
        let (served, leads) = (OnceCell::new(), AtomicBool::new(false));
        Page { client, queue, cursor: watch::Sender::new(None), keys, served, leads }
    }

    /// Learns what the client can do.
    pub(crate) fn meet(&self, can: &ClientCan) {
        self.leads.store(can.shows_documents, Ordering::Relaxed);
    }

    /// Takes note of where the cursor is.
    pub(crate) fn follow(&self, uri: &Url, position: Position) {
        self.cursor.send_replace(Some(Cursor { uri: uri.clone(), position }));
    }

    /// Takes note that something was typed, and where, if that is known.
    pub(crate) fn typed(&self, uri: &Url, position: Option<Position>) {
        match position {
            Some(position) => self.follow(uri, position),
            None => self.cursor.send_modify(|_| {}),
        }
    }

    /// An address that opens the page, once; where it is to be shown, the client is asked to, or told the address.
    ///
    /// # Errors
    /// Where the system gives no port, or no randomness for the token.
    pub(crate) async fn open(&self, shown: bool) -> Result<String> {
        let address = self.address().await.map_err(|error| {
            let mut out = Error::internal_error();
            out.message = format!("the drawing cannot be served: {error}").into();
            out
        })?;
        if shown {
            self.show(&address).await;
        }
        Ok(address)
    }

    async fn show(&self, address: &str) {
        if self.leads.load(Ordering::Relaxed)
            && let Ok(uri) = Url::parse(address)
        {
            let asked = ShowDocumentParams { uri, external: Some(true), take_focus: None, selection: None };
            if self.client.show_document(asked).await.unwrap_or_default() {
                return;
            }
        }
        self.client.show_message(MessageType::INFO, format!("The drawing is at {address}")).await;
    }

    async fn address(&self) -> io::Result<String> {
        let at = *self.served.get_or_try_init(|| self.serve()).await?;
        let token = self.keys.lock().unwrap_or_else(PoisonError::into_inner).token()?;
        Ok(format!("http://{at}/?token={token}"))
    }

    async fn serve(&self) -> io::Result<SocketAddr> {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).await?;
        let at = listener.local_addr()?;
        let (shown, showing) = watch::channel(None);
        tokio::spawn(follow::follow(self.queue.clone(), self.cursor.subscribe(), shown));
        tokio::spawn(site::serve(listener, Site::new(at, self.client(), self.keys.clone(), showing)));
        Ok(at)
    }

    /// The client, if it can be led to a line.
    fn client(&self) -> Option<Client> {
        self.leads.load(Ordering::Relaxed).then(|| self.client.clone())
    }
}
