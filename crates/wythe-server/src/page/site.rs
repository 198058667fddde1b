//! What is answered to the browser: the page, its drawing, and the way from a layer to its line.

use std::convert::Infallible;
use std::io;
use std::net::SocketAddr;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

use http_body_util::Full;
use hyper::body::{Bytes, Incoming};
use hyper::header::{self, HeaderMap, HeaderValue};
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper::{Method, Request, Response, StatusCode};
use hyper_util::rt::{TokioIo, TokioTimer};
use serde_json::json;
use tokio::net::TcpListener;
use tokio::sync::{Semaphore, watch};
use tower_lsp::Client;
use tower_lsp::lsp_types::{ShowDocumentParams, Url};

use super::Shown;
use super::keys::{self, Keys};

/// How many connections may be open at once.
const CONNECTIONS: usize = 32;
/// How long a browser may take to say what it wants.
const PATIENCE: Duration = Duration::from_secs(5);
/// How much it may say.
const LONGEST: usize = 16 * 1024;
/// How long a question for the next drawing is held open.
const WAIT: Duration = Duration::from_secs(25);

const PAGE: &str = include_str!("page.html");
const REFUSED: &str = "This address has been used, or is none of Wythe's. Open the drawing again from the editor.\n";

/// All that an answer needs.
pub(crate) struct Site {
    host: String,
    client: Option<Client>,
    keys: Arc<Mutex<Keys>>,
    shown: watch::Receiver<Option<Arc<Shown>>>,
}

impl Site {
    pub(crate) fn new(
        at: SocketAddr,
        client: Option<Client>,
        keys: Arc<Mutex<Keys>>,
        shown: watch::Receiver<Option<Arc<Shown>>>,
    ) -> Site {
        Site { host: at.to_string(), client, keys, shown }
    }

    fn keys(&self) -> std::sync::MutexGuard<'_, Keys> {
        self.keys.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// Answers until the server ends.
pub(crate) async fn serve(listener: TcpListener, site: Site) {
    let site = Arc::new(site);
    let places = Arc::new(Semaphore::new(CONNECTIONS));
    loop {
        let Ok(place) = places.clone().acquire_owned().await else { return };
        let stream = match listener.accept().await {
            Ok((stream, from)) if from.ip().is_loopback() => stream,
            Ok(_) => continue,
            Err(_) => {
                // No more files may be open just now.
                tokio::time::sleep(Duration::from_millis(100)).await;
                continue;
            }
        };
        let site = site.clone();
        tokio::spawn(async move {
            let service = service_fn(|request| {
                let site = site.clone();
                async move { Ok::<_, Infallible>(answer(&site, &request).await) }
            });
            let mut server = http1::Builder::new();
            server.timer(TokioTimer::new()).header_read_timeout(PATIENCE).max_buf_size(LONGEST);
            // A browser that goes away in the middle is none of ours.
            let _ = server.serve_connection(TokioIo::new(stream), service).await;
            drop(place);
        });
    }
}

type Answer = Response<Full<Bytes>>;

async fn answer(site: &Site, request: &Request<Incoming>) -> Answer {
    let headers = request.headers();
    // A name that some other site gives to this address does not pass: only the address itself is served.
    if text(headers, header::HOST.as_str()) != Some(site.host.as_str()) {
        return refused();
    }
    let query = request.uri().query().unwrap_or_default();
    match (request.method(), request.uri().path()) {
        (&Method::GET, "/") => page(site, query).unwrap_or_else(|_| refused()),
        (&Method::GET, "/drawing") if admitted(site, headers) => drawing(site, query).await,
        (&Method::POST, "/go") if admitted(site, headers) => go(site, query).await,
        _ => refused(),
    }
}

fn admitted(site: &Site, headers: &HeaderMap) -> bool {
    let key = text(headers, header::AUTHORIZATION.as_str()).and_then(|said| said.strip_prefix("Bearer "));
    let own = text(headers, "sec-fetch-site").is_none_or(|from| from == "same-origin");
    own && key.is_some_and(|key| site.keys().admits(key))
}

fn text<'h>(headers: &'h HeaderMap, name: &str) -> Option<&'h str> {
    headers.get(name)?.to_str().ok()
}

fn field<'q>(query: &'q str, name: &str) -> Option<&'q str> {
    query.split('&').find_map(|pair| pair.strip_prefix(name)?.strip_prefix('='))
}

fn page(site: &Site, query: &str) -> io::Result<Answer> {
    let Some(key) = site.keys().redeem(field(query, "token").unwrap_or_default())? else { return Ok(refused()) };
    let nonce = keys::secret()?;
    let html = PAGE.replace("{nonce}", &nonce).replace("{key}", &key);
    let policy = format!(
        "default-src 'none'; script-src 'nonce-{nonce}'; style-src 'nonce-{nonce}'; connect-src 'self'; \
         base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
    );
    let mut out = answered(StatusCode::OK, "text/html; charset=utf-8", html);
    if let Ok(policy) = HeaderValue::from_str(&policy) {
        out.headers_mut().insert(header::CONTENT_SECURITY_POLICY, policy);
    }
    Ok(out)
}

/// The drawing after the one the page has; nothing, where none comes for a while.
async fn drawing(site: &Site, query: &str) -> Answer {
    let after: u64 = field(query, "after").and_then(|n| n.parse().ok()).unwrap_or_default();
    let mut shown = site.shown.clone();
    let newer = shown.wait_for(|shown| shown.as_ref().is_some_and(|s| s.number > after));
    let Ok(Ok(newer)) = tokio::time::timeout(WAIT, newer).await.map(|n| n.map(|n| n.clone())) else {
        return answered(StatusCode::NO_CONTENT, "text/plain", String::new());
    };
    let Some(newer) = newer else { return refused() };
    let d = &newer.drawing;
    let links: Vec<&str> = d.layers.iter().map(|layer| layer.origin.as_str()).collect();
    let body = json!({ "number": newer.number, "title": d.title, "svg": d.svg, "marked": d.marked, "links": links });
    answered(StatusCode::OK, "application/json", body.to_string())
}

/// Leads the editor to the line of a layer, and says which line that is.
async fn go(site: &Site, query: &str) -> Answer {
    let shown = site.shown.borrow().clone();
    let origin = field(query, "origin").unwrap_or_default();
    let layer = shown.as_ref().and_then(|s| s.drawing.layers.iter().find(|layer| layer.origin == origin));
    let Some((layer, uri)) = layer.and_then(|layer| Some((layer, Url::parse(&layer.uri).ok()?))) else {
        return answered(StatusCode::NOT_FOUND, "text/plain", "The drawing has changed.\n".into());
    };
    let file = uri.path_segments().and_then(|mut parts| parts.next_back()).unwrap_or_default().to_owned();
    let place = format!("{file}, line {}", layer.range.start.line + 1);
    let params =
        ShowDocumentParams { uri, external: Some(false), take_focus: Some(true), selection: Some(layer.range) };
    let followed = match &site.client {
        Some(client) => matches!(tokio::time::timeout(PATIENCE, client.show_document(params)).await, Ok(Ok(true))),
        None => false,
    };
    answered(StatusCode::OK, "application/json", json!({ "place": place, "followed": followed }).to_string())
}

fn refused() -> Answer {
    answered(StatusCode::FORBIDDEN, "text/plain; charset=utf-8", REFUSED.into())
}

fn answered(status: StatusCode, kind: &'static str, body: String) -> Answer {
    let mut out = Response::new(Full::from(body));
    *out.status_mut() = status;
    let set: [(&'static str, &'static str); 6] = [
        ("content-type", kind),
        ("cache-control", "no-store"),
        ("referrer-policy", "no-referrer"),
        ("x-content-type-options", "nosniff"),
        ("cross-origin-resource-policy", "same-origin"),
        ("cross-origin-opener-policy", "same-origin"),
    ];
    for (name, value) in set {
        out.headers_mut().insert(name, HeaderValue::from_static(value));
    }
    out
}
