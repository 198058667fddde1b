//! What a client sends, with the messages taken out that are none.
//!
//! The transport below ends a session at the first body it cannot read. Here such a body is passed over and told in
//! the log, and the session goes on with the next message.

use std::io;
use std::pin::Pin;
use std::task::{Context, Poll};

use serde::Deserialize;
use serde::de::IgnoredAny;
use serde_json::Value;
use tokio::io::{AsyncRead, ReadBuf};
use tokio::sync::mpsc::UnboundedSender;

/// The longest header, in bytes.
const MAX_HEADER: usize = 16 * 1024;
/// The longest body, in bytes.
const MAX_BODY: usize = 512 * 1024 * 1024;

/// A stream of messages without those that are none.
pub(crate) struct Input<R> {
    below: R,
    /// What has come and has not been looked at.
    raw: Vec<u8>,
    /// Messages to be handed on, and how much of them has been.
    sound: Vec<u8>,
    given: usize,
    /// How much of a body that is too long is still to come.
    skip: usize,
    ended: bool,
    complaints: UnboundedSender<String>,
}

/// Enough of a message to know that the transport can read it.
#[derive(Deserialize)]
struct Message {
    jsonrpc: Option<String>,
    method: Option<String>,
    id: Option<Value>,
    result: Option<IgnoredAny>,
    error: Option<Fault>,
}

#[derive(Deserialize)]
struct Fault {
    #[serde(rename = "code")]
    _code: i64,
    #[serde(rename = "message")]
    _message: String,
}

impl<R> Input<R> {
    pub(crate) fn new(below: R, complaints: UnboundedSender<String>) -> Self {
        Input { below, raw: Vec::new(), sound: Vec::new(), given: 0, skip: 0, ended: false, complaints }
    }

    fn complain(&self, words: impl Into<String>) {
        // Who hears the log may be gone; then nobody is left to be told.
        let _ = self.complaints.send(format!("a message was passed over: {}", words.into()));
    }

    /// Takes whole messages out of what has come.
    fn sort(&mut self) {
        loop {
            let skipped = self.skip.min(self.raw.len());
            self.raw.drain(..skipped);
            self.skip -= skipped;
            if self.skip > 0 {
                return;
            }
            let Some(end) = self.raw.windows(4).take(MAX_HEADER).position(|w| w == b"\r\n\r\n").map(|at| at + 4) else {
                if self.raw.len() > MAX_HEADER {
                    self.complain("it has no header");
                    self.raw.clear();
                }
                return;
            };
            let Some(length) = length(&self.raw[..end]) else {
                self.complain("its header does not say how long it is");
                self.raw.drain(..end);
                continue;
            };
            if length > MAX_BODY {
                self.complain(format!("it is {length} bytes long"));
                self.raw.drain(..end);
                self.skip = length;
                continue;
            }
            let Some(body) = self.raw.get(end..end + length) else { return };
            match fault(body) {
                None => {
                    self.sound.extend_from_slice(format!("Content-Length: {length}\r\n\r\n").as_bytes());
                    self.sound.extend_from_slice(body);
                }
                Some(fault) => self.complain(fault),
            }
            self.raw.drain(..end + length);
        }
    }
}

/// The length a header says.
fn length(header: &[u8]) -> Option<usize> {
    let text = std::str::from_utf8(header).ok()?;
    text.lines().find_map(|line| {
        let (name, value) = line.split_once(':')?;
        name.trim().eq_ignore_ascii_case("content-length").then(|| value.trim().parse().ok())?
    })
}

/// What is wrong with a body, if anything is.
fn fault(body: &[u8]) -> Option<String> {
    let message: Message = match serde_json::from_slice(body) {
        Ok(message) => message,
        Err(error) => return Some(format!("{error}")),
    };
    if message.jsonrpc.as_deref() != Some("2.0") {
        return Some("it is no message of the protocol".into());
    }
    let id_is_sound = match &message.id {
        None | Some(Value::String(_) | Value::Null) => true,
        Some(Value::Number(n)) => n.is_i64(),
        Some(_) => false,
    };
    if !id_is_sound {
        return Some("its id is none".into());
    }
    let answers = message.id.is_some() && message.result.is_some() != message.error.is_some();
    // A result of `null` cannot be told from none here; an id without a method is an answer then.
    let answers = answers || (message.id.is_some() && message.error.is_none());
    (message.method.is_none() && !answers).then(|| "it neither asks nor answers".into())
}

impl<R: AsyncRead + Unpin> AsyncRead for Input<R> {
    fn poll_read(mut self: Pin<&mut Self>, context: &mut Context<'_>, into: &mut ReadBuf<'_>) -> Poll<io::Result<()>> {
        let this = &mut *self;
        loop {
            if this.given < this.sound.len() {
                let count = into.remaining().min(this.sound.len() - this.given);
                into.put_slice(&this.sound[this.given..this.given + count]);
                this.given += count;
                if this.given == this.sound.len() {
                    this.sound.clear();
                    this.given = 0;
                }
                return Poll::Ready(Ok(()));
            }
            if this.ended {
                return Poll::Ready(Ok(()));
            }
            let mut chunk = [0; 16 * 1024];
            let mut read = ReadBuf::new(&mut chunk);
            match Pin::new(&mut this.below).poll_read(context, &mut read) {
                Poll::Pending => return Poll::Pending,
                Poll::Ready(Err(error)) => return Poll::Ready(Err(error)),
                Poll::Ready(Ok(())) if read.filled().is_empty() => this.ended = true,
                Poll::Ready(Ok(())) => {
                    this.raw.extend_from_slice(read.filled());
                    this.sort();
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::fault;

    #[test]
    fn what_the_transport_can_read_is_let_through() {
        for sound in [
            r#"{"jsonrpc":"2.0","method":"initialized","params":{}}"#,
            r#"{"jsonrpc":"2.0","id":1,"method":"shutdown"}"#,
            r#"{"jsonrpc":"2.0","id":"a","result":null}"#,
            r#"{"jsonrpc":"2.0","id":2,"error":{"code":-32601,"message":"no"}}"#,
        ] {
            assert_eq!(fault(sound.as_bytes()), None, "{sound}");
        }
        for broken in [
            "",
            "{",
            "[1, 2]",
            "nonsense",
            r#"{"jsonrpc":"2.0"}"#,
            r#"{"jsonrpc":"1.0","method":"x"}"#,
            r#"{"jsonrpc":"2.0","method":3}"#,
            r#"{"jsonrpc":"2.0","id":1.5,"method":"x"}"#,
            r#"{"jsonrpc":"2.0","id":1,"error":3}"#,
        ] {
            assert!(fault(broken.as_bytes()).is_some(), "{broken}");
        }
    }
}
