//! What the server says unasked: findings, log lines, progress, calls to ask again. One task says it, in order.

use tokio::sync::mpsc::{UnboundedReceiver, UnboundedSender, unbounded_channel};
use tower_lsp::Client;
use tower_lsp::lsp_types::notification::Progress;
use tower_lsp::lsp_types::request::WorkDoneProgressCreate;
use tower_lsp::lsp_types::{
    Diagnostic, MessageType, NumberOrString, ProgressParams, ProgressParamsValue, Url, WorkDoneProgress,
    WorkDoneProgressBegin, WorkDoneProgressCreateParams, WorkDoneProgressEnd, WorkDoneProgressReport,
};

/// Something to be said to the client.
enum Word {
    Findings(Url, Vec<Diagnostic>, Option<i32>),
    Log(String),
    Begin(String, String),
    Report(String, u32, String),
    End(String),
    /// Diagnostics are to be asked for again, and hints and lenses too.
    AskAgain {
        diagnostics: bool,
        hints: bool,
        lenses: bool,
    },
}

/// The mouth of the server. Clones speak through the same one.
#[derive(Clone)]
pub(crate) struct Publisher {
    words: UnboundedSender<Word>,
}

impl Publisher {
    /// Starts the task that speaks.
    pub(crate) fn start(client: Client) -> Publisher {
        let (words, waiting) = unbounded_channel();
        tokio::spawn(speak(client, waiting));
        Publisher { words }
    }

    /// Says what is found in a file.
    pub(crate) fn findings(&self, url: Url, findings: Vec<Diagnostic>, version: Option<i32>) {
        let _ = self.words.send(Word::Findings(url, findings, version));
    }

    /// Writes a line to the client's log.
    pub(crate) fn log(&self, line: impl Into<String>) {
        let _ = self.words.send(Word::Log(line.into()));
    }

    /// Says that long work begins.
    pub(crate) fn begin(&self, token: &str, title: &str) {
        let _ = self.words.send(Word::Begin(token.to_owned(), title.to_owned()));
    }

    /// Says how far long work has come, in hundredths and in words.
    pub(crate) fn report(&self, token: &str, share: u32, words: String) {
        let _ = self.words.send(Word::Report(token.to_owned(), share, words));
    }

    /// Says that long work has ended.
    pub(crate) fn end(&self, token: &str) {
        let _ = self.words.send(Word::End(token.to_owned()));
    }

    /// Asks the client to ask again.
    pub(crate) fn ask_again(&self, diagnostics: bool, hints: bool, lenses: bool) {
        let _ = self.words.send(Word::AskAgain { diagnostics, hints, lenses });
    }
}

async fn speak(client: Client, mut waiting: UnboundedReceiver<Word>) {
    while let Some(word) = waiting.recv().await {
        match word {
            Word::Findings(url, findings, version) => client.publish_diagnostics(url, findings, version).await,
            Word::Log(line) => client.log_message(MessageType::LOG, line).await,
            Word::Begin(token, title) => {
                let token = NumberOrString::String(token);
                // The answer is not waited for: a client that never gives one must not hold up the findings.
                let asked = client.clone();
                let create = WorkDoneProgressCreateParams { token: token.clone() };
                tokio::spawn(async move { asked.send_request::<WorkDoneProgressCreate>(create).await });
                let begin = WorkDoneProgressBegin { title, percentage: Some(0), ..WorkDoneProgressBegin::default() };
                progress(&client, token, WorkDoneProgress::Begin(begin)).await;
            }
            Word::Report(token, share, words) => {
                let report = WorkDoneProgressReport {
                    percentage: Some(share),
                    message: Some(words),
                    ..WorkDoneProgressReport::default()
                };
                progress(&client, NumberOrString::String(token), WorkDoneProgress::Report(report)).await;
            }
            Word::End(token) => {
                let end = WorkDoneProgress::End(WorkDoneProgressEnd::default());
                progress(&client, NumberOrString::String(token), end).await;
            }
            Word::AskAgain { diagnostics, hints, lenses } => {
                let client = client.clone();
                tokio::spawn(async move {
                    if diagnostics {
                        let _ = client.workspace_diagnostic_refresh().await;
                    }
                    if hints {
                        let _ = client.inlay_hint_refresh().await;
                    }
                    if lenses {
                        let _ = client.code_lens_refresh().await;
                    }
                });
            }
        }
    }
}

async fn progress(client: &Client, token: NumberOrString, value: WorkDoneProgress) {
    let value = ProgressParamsValue::WorkDone(value);
    client.send_notification::<Progress>(ProgressParams { token, value }).await;
}
