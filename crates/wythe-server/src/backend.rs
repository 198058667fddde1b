//! The methods of the protocol. Each puts one job on the queue before its first wait, so that the order of jobs is
//! the order of messages; nothing is worked out here.

use std::sync::Arc;
use std::time::Duration;

use serde_json::Value;
use tokio::sync::mpsc::UnboundedReceiver;
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::*;
use tower_lsp::{Client, LanguageServer, async_trait};

use crate::Service;
use crate::capabilities::offered;
use crate::client::ClientCan;
use crate::drawing::{self, Drawing, DrawingParams};
use crate::page::{self, Page};
use crate::publisher::Publisher;
use crate::queue::Queue;
use crate::requests::{actions, calls, commands, completion, diagnostics, editing, navigation, reading, semantic};
use crate::settings::Settings;
use crate::shipped::Shipped;
use crate::state::{Need, State};

/// How often the disk is looked at for a client that does not watch it.
const LOOK: Duration = Duration::from_secs(2);

/// The server as the protocol sees it.
pub(crate) struct Backend {
    client: Client,
    queue: Queue,
    page: Arc<Page>,
    how: Service,
}

impl Backend {
    pub(crate) fn new(client: Client, mut heard: UnboundedReceiver<String>, how: Service) -> Backend {
        let publisher = Publisher::start(client.clone());
        let log = publisher.clone();
        tokio::spawn(async move {
            while let Some(complaint) = heard.recv().await {
                log.log(complaint);
            }
        });
        let queue = Queue::start(publisher);
        let page = Arc::new(Page::new(client.clone(), queue.clone()));
        Backend { client, queue, page, how }
    }

    /// `wythe/drawing`
    pub(crate) async fn drawing(&self, params: DrawingParams) -> Result<Option<Drawing>> {
        drawing::draw(&self.queue, params).await
    }

    /// `wythe/cursor`, by which a client says where the cursor is.
    pub(crate) async fn cursor(&self, params: TextDocumentPositionParams) {
        self.page.follow(&params.text_document.uri, params.position);
    }

    /// `wythe/breakDown`, which a build for tests has: the work breaks down, so that what comes of that can be seen.
    #[cfg(debug_assertions)]
    pub(crate) async fn break_down(&self, params: Value) -> Result<()> {
        if params["where"] == "change" {
            self.queue.tell(|_| panic!("asked to, in a change"));
            return Ok(());
        }
        self.queue.ask(Need::Nothing, |_| panic!("asked to, in a request")).await
    }
}

/// Takes settings as the client gives them.
fn set(queue: &Queue, given: Value) {
    queue.tell(move |state| match Settings::read(&given) {
        Ok(settings) => {
            state.settings = settings;
            let (hints, diagnostics) = (state.can.refresh_hints, state.can.refresh_diagnostics);
            state.publisher().ask_again(diagnostics && !state.pushes(), hints, false);
        }
        Err(error) => state.publisher().log(error),
    });
}

impl Drop for Backend {
    fn drop(&mut self) {
        self.queue.tell(State::leave);
    }
}

fn folders(params: &InitializeParams) -> Vec<std::path::PathBuf> {
    let given = params.workspace_folders.iter().flatten().filter_map(|f| f.uri.to_file_path().ok());
    let mut out: Vec<_> = given.collect();
    if out.is_empty() {
        out.extend(params.root_uri.as_ref().and_then(|uri| uri.to_file_path().ok()));
    }
    out
}

#[async_trait]
impl LanguageServer for Backend {
    async fn initialize(&self, params: InitializeParams) -> Result<InitializeResult> {
        self.page.meet(&ClientCan::read(&params.capabilities));
        self.queue
            .ask(Need::Nothing, move |state| {
                state.can = ClientCan::read(&params.capabilities);
                if let Some(given) = &params.initialization_options {
                    match Settings::read(given) {
                        Ok(settings) => state.settings = settings,
                        Err(error) => state.publisher().log(error),
                    }
                }
                state.shipped = Shipped::put();
                for folder in folders(&params) {
                    state.add_folder(&folder);
                }
                let name = "wythe".to_owned();
                InitializeResult {
                    capabilities: offered(&state.can, !state.pushes()),
                    server_info: Some(ServerInfo { name, version: Some(env!("CARGO_PKG_VERSION").into()) }),
                }
            })
            .await
    }

    async fn initialized(&self, _: InitializedParams) {
        self.queue.tell(State::check_the_rest);
        if self.how.drawing {
            let page = self.page.clone();
            tokio::spawn(async move { page.open(true).await });
        }
        let (client, queue) = (self.client.clone(), self.queue.clone());
        tokio::spawn(async move {
            let can = queue.ask(Need::Nothing, |state| state.can).await.unwrap_or_default();
            if can.watches_files {
                let watch = |glob: &str| serde_json::json!({ "globPattern": glob });
                let watchers = ["**/*.wythe", "**/wythe.toml", "**/*.csv", "**/*.epw"].map(watch);
                let registration = Registration {
                    id: "wythe/watch".into(),
                    method: "workspace/didChangeWatchedFiles".into(),
                    register_options: Some(serde_json::json!({ "watchers": watchers })),
                };
                if client.register_capability(vec![registration]).await.is_ok() {
                    return;
                }
            }
            loop {
                tokio::time::sleep(LOOK).await;
                queue.tell(|state| state.look_around());
            }
        });
    }

    async fn shutdown(&self) -> Result<()> {
        self.queue.ask(Need::Nothing, |_| ()).await
    }

    async fn did_open(&self, params: DidOpenTextDocumentParams) {
        self.queue.tell(move |state| state.open(params.text_document));
    }

    async fn did_change(&self, params: DidChangeTextDocumentParams) {
        let document = params.text_document;
        // Clients that tell nothing of the cursor are followed by what is typed.
        let typed = params.content_changes.last().and_then(|change| change.range).map(|range| range.start);
        let uri = document.uri.clone();
        self.queue.tell(move |state| state.change(&document.uri, document.version, params.content_changes));
        self.page.typed(&uri, typed);
    }

    async fn did_save(&self, params: DidSaveTextDocumentParams) {
        self.queue.tell(move |state| {
            let event = FileEvent::new(params.text_document.uri, FileChangeType::CHANGED);
            state.watched(vec![event]);
        });
    }

    async fn did_close(&self, params: DidCloseTextDocumentParams) {
        self.queue.tell(move |state| state.close(&params.text_document.uri));
    }

    async fn did_change_watched_files(&self, params: DidChangeWatchedFilesParams) {
        self.queue.tell(move |state| state.watched(params.changes));
    }

    async fn did_change_workspace_folders(&self, params: DidChangeWorkspaceFoldersParams) {
        self.queue.tell(move |state| {
            let path = |f: &WorkspaceFolder| f.uri.to_file_path().ok();
            for folder in params.event.removed.iter().filter_map(path) {
                state.remove_folder(&folder);
            }
            for folder in params.event.added.iter().filter_map(path) {
                state.add_folder(&folder);
            }
        });
    }

    async fn did_change_configuration(&self, params: DidChangeConfigurationParams) {
        if !params.settings.is_null() {
            return set(&self.queue, params.settings);
        }
        let (client, queue) = (self.client.clone(), self.queue.clone());
        tokio::spawn(async move {
            let can = queue.ask(Need::Nothing, |state| state.can).await.unwrap_or_default();
            let item = ConfigurationItem { scope_uri: None, section: Some("wythe".into()) };
            if can.configuration
                && let Ok(mut given) = client.configuration(vec![item]).await
                && let Some(given) = given.pop()
            {
                set(&queue, given);
            }
        });
    }

    async fn hover(&self, params: HoverParams) -> Result<Option<Hover>> {
        let at = params.text_document_position_params;
        self.queue
            .ask(Need::File(at.text_document.uri.clone()), move |state| {
                reading::hover(state, &at.text_document.uri, at.position)
            })
            .await
    }

    async fn completion(&self, params: CompletionParams) -> Result<Option<CompletionResponse>> {
        let at = params.text_document_position;
        self.queue.ask(Need::Names, move |state| completion::complete(state, &at.text_document.uri, at.position)).await
    }

    async fn signature_help(&self, params: SignatureHelpParams) -> Result<Option<SignatureHelp>> {
        let at = params.text_document_position_params;
        self.queue.ask(Need::Words, move |state| reading::signature(state, &at.text_document.uri, at.position)).await
    }

    async fn goto_definition(&self, params: GotoDefinitionParams) -> Result<Option<GotoDefinitionResponse>> {
        let at = params.text_document_position_params;
        self.queue
            .ask(Need::Words, move |state| navigation::definition(state, &at.text_document.uri, at.position))
            .await
    }

    async fn goto_type_definition(
        &self,
        params: request::GotoTypeDefinitionParams,
    ) -> Result<Option<request::GotoTypeDefinitionResponse>> {
        let at = params.text_document_position_params;
        self.queue
            .ask(Need::Words, move |state| navigation::type_definition(state, &at.text_document.uri, at.position))
            .await
    }

    async fn references(&self, params: ReferenceParams) -> Result<Option<Vec<Location>>> {
        let at = params.text_document_position;
        let with = params.context.include_declaration;
        self.queue
            .ask(Need::Types, move |state| navigation::references(state, &at.text_document.uri, at.position, with))
            .await
    }

    async fn document_highlight(&self, params: DocumentHighlightParams) -> Result<Option<Vec<DocumentHighlight>>> {
        let at = params.text_document_position_params;
        self.page.follow(&at.text_document.uri, at.position);
        self.queue
            .ask(Need::Words, move |state| navigation::highlights(state, &at.text_document.uri, at.position))
            .await
    }

    async fn document_symbol(&self, params: DocumentSymbolParams) -> Result<Option<DocumentSymbolResponse>> {
        self.queue.ask(Need::Words, move |state| reading::outline(state, &params.text_document.uri)).await
    }

    async fn symbol(&self, params: WorkspaceSymbolParams) -> Result<Option<Vec<SymbolInformation>>> {
        self.queue.ask(Need::Names, move |state| Some(reading::workspace_symbols(state, &params.query))).await
    }

    async fn code_action(&self, params: CodeActionParams) -> Result<Option<CodeActionResponse>> {
        self.queue
            .ask(Need::File(params.text_document.uri.clone()), move |state| actions::offered(state, &params))
            .await
    }

    async fn code_lens(&self, params: CodeLensParams) -> Result<Option<Vec<CodeLens>>> {
        self.queue
            .ask(Need::File(params.text_document.uri.clone()), move |state| {
                reading::lenses(state, &params.text_document.uri)
            })
            .await
    }

    async fn document_link(&self, params: DocumentLinkParams) -> Result<Option<Vec<DocumentLink>>> {
        self.queue.ask(Need::Words, move |state| reading::links(state, &params.text_document.uri)).await
    }

    async fn formatting(&self, params: DocumentFormattingParams) -> Result<Option<Vec<TextEdit>>> {
        self.queue.ask(Need::Words, move |state| editing::format(state, &params.text_document.uri)).await
    }

    async fn range_formatting(&self, params: DocumentRangeFormattingParams) -> Result<Option<Vec<TextEdit>>> {
        self.queue
            .ask(Need::Words, move |state| editing::format_range(state, &params.text_document.uri, params.range))
            .await
    }

    async fn on_type_formatting(&self, params: DocumentOnTypeFormattingParams) -> Result<Option<Vec<TextEdit>>> {
        let at = params.text_document_position;
        self.queue
            .ask(Need::Words, move |state| {
                editing::format_on_type(state, &at.text_document.uri, at.position, &params.ch)
            })
            .await
    }

    async fn prepare_rename(&self, params: TextDocumentPositionParams) -> Result<Option<PrepareRenameResponse>> {
        self.queue
            .try_ask(Need::Words, move |state| {
                editing::prepare_rename(state, &params.text_document.uri, params.position)
            })
            .await
    }

    async fn rename(&self, params: RenameParams) -> Result<Option<WorkspaceEdit>> {
        let at = params.text_document_position;
        self.queue
            .try_ask(Need::Types, move |state| {
                editing::rename(state, &at.text_document.uri, at.position, &params.new_name)
            })
            .await
    }

    async fn will_rename_files(&self, params: RenameFilesParams) -> Result<Option<WorkspaceEdit>> {
        self.queue.ask(Need::Types, move |state| editing::file_renames(state, &params.files)).await
    }

    async fn linked_editing_range(&self, params: LinkedEditingRangeParams) -> Result<Option<LinkedEditingRanges>> {
        let at = params.text_document_position_params;
        self.queue.ask(Need::Words, move |state| editing::linked(state, &at.text_document.uri, at.position)).await
    }

    async fn execute_command(&self, params: ExecuteCommandParams) -> Result<Option<Value>> {
        if params.command == page::COMMAND {
            let shown = params.arguments.first().and_then(|told| told["open"].as_bool()) != Some(false);
            return self.page.open(shown).await.map(|address| Some(address.into()));
        }
        self.queue.try_ask(Need::Words, move |state| commands::execute(state, &params.command, &params.arguments)).await
    }

    async fn folding_range(&self, params: FoldingRangeParams) -> Result<Option<Vec<FoldingRange>>> {
        self.queue.ask(Need::Words, move |state| reading::folds(state, &params.text_document.uri)).await
    }

    async fn selection_range(&self, params: SelectionRangeParams) -> Result<Option<Vec<SelectionRange>>> {
        self.queue
            .ask(Need::Words, move |state| reading::selections(state, &params.text_document.uri, &params.positions))
            .await
    }

    async fn semantic_tokens_full(&self, params: SemanticTokensParams) -> Result<Option<SemanticTokensResult>> {
        self.queue.ask(Need::Words, move |state| semantic::full(state, &params.text_document.uri).map(Into::into)).await
    }

    async fn semantic_tokens_full_delta(
        &self,
        params: SemanticTokensDeltaParams,
    ) -> Result<Option<SemanticTokensFullDeltaResult>> {
        self.queue
            .ask(Need::Words, move |state| {
                semantic::delta(state, &params.text_document.uri, &params.previous_result_id)
            })
            .await
    }

    async fn semantic_tokens_range(
        &self,
        params: SemanticTokensRangeParams,
    ) -> Result<Option<SemanticTokensRangeResult>> {
        self.queue
            .ask(Need::Words, move |state| {
                semantic::range(state, &params.text_document.uri, params.range).map(Into::into)
            })
            .await
    }

    async fn inlay_hint(&self, params: InlayHintParams) -> Result<Option<Vec<InlayHint>>> {
        self.queue
            .ask(Need::File(params.text_document.uri.clone()), move |state| {
                reading::hints(state, &params.text_document.uri, params.range)
            })
            .await
    }

    async fn prepare_call_hierarchy(
        &self,
        params: CallHierarchyPrepareParams,
    ) -> Result<Option<Vec<CallHierarchyItem>>> {
        let at = params.text_document_position_params;
        self.queue.ask(Need::Words, move |state| calls::prepare(state, &at.text_document.uri, at.position)).await
    }

    async fn incoming_calls(
        &self,
        params: CallHierarchyIncomingCallsParams,
    ) -> Result<Option<Vec<CallHierarchyIncomingCall>>> {
        self.queue.ask(Need::Types, move |state| calls::incoming(state, &params.item)).await
    }

    async fn outgoing_calls(
        &self,
        params: CallHierarchyOutgoingCallsParams,
    ) -> Result<Option<Vec<CallHierarchyOutgoingCall>>> {
        self.queue.ask(Need::Words, move |state| calls::outgoing(state, &params.item)).await
    }

    async fn diagnostic(&self, params: DocumentDiagnosticParams) -> Result<DocumentDiagnosticReportResult> {
        let known = params.previous_result_id;
        self.queue
            .ask(Need::File(params.text_document.uri.clone()), move |state| {
                diagnostics::of_file(state, &params.text_document.uri, known.as_deref())
            })
            .await
    }

    async fn workspace_diagnostic(&self, params: WorkspaceDiagnosticParams) -> Result<WorkspaceDiagnosticReportResult> {
        self.queue.ask(Need::All, move |state| diagnostics::of_workspace(state, &params.previous_result_ids)).await
    }
}
