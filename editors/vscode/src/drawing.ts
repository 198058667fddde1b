// The drawing beside the text: follows the cursor and what is typed, marks the layer under the cursor, and leads from
// a layer to its line.

import { randomBytes } from "node:crypto";
import * as vscode from "vscode";
import type { LanguageClient } from "vscode-languageclient/node";

interface DrawnLayer {
  origin: string;
  name: string;
  uri: string;
  range: { start: { line: number; character: number }; end: { line: number; character: number } };
}

interface Drawing {
  title: string;
  svg: string;
  layers: DrawnLayer[];
  marked: string | null;
}

/** The panel with the drawing. */
export class DrawingPanel implements vscode.Disposable {
  private panel: vscode.WebviewPanel | undefined;
  private layers: DrawnLayer[] = [];
  private asked = 0;
  private readonly listening: vscode.Disposable[];

  constructor(private readonly client: () => LanguageClient | undefined) {
    this.listening = [
      vscode.window.onDidChangeTextEditorSelection((event) => void this.follow(event.textEditor)),
      vscode.workspace.onDidChangeTextDocument((event) => {
        const editor = vscode.window.activeTextEditor;
        if (editor?.document === event.document) {
          void this.follow(editor);
        }
      }),
      vscode.window.onDidChangeActiveColorTheme(() => void this.follow(vscode.window.activeTextEditor)),
    ];
  }

  /** Opens the panel on what stands at a place, or under the cursor. */
  async open(place?: vscode.Location): Promise<void> {
    const document = place ? await vscode.workspace.openTextDocument(place.uri) : vscode.window.activeTextEditor?.document;
    const position = place?.range.start ?? vscode.window.activeTextEditor?.selection.active;
    if (!document || !position) {
      return;
    }
    this.panel ??= this.make();
    this.panel.reveal(vscode.ViewColumn.Beside, true);
    await this.show(document, position);
  }

  private make(): vscode.WebviewPanel {
    const panel = vscode.window.createWebviewPanel(
      "wythe.drawing",
      "Drawing",
      { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
      { enableScripts: true, retainContextWhenHidden: true, localResourceRoots: [] },
    );
    panel.webview.html = page(randomBytes(16).toString("base64"));
    panel.webview.onDidReceiveMessage((message: { origin?: string }) => void this.lead(message.origin));
    panel.onDidDispose(() => (this.panel = undefined));
    return panel;
  }

  private async follow(editor: vscode.TextEditor | undefined): Promise<void> {
    if (this.panel?.visible && editor?.document.languageId === "wythe") {
      await this.show(editor.document, editor.selection.active);
    }
  }

  private async show(document: vscode.TextDocument, position: vscode.Position): Promise<void> {
    const client = this.client();
    if (!client?.isRunning()) {
      return;
    }
    const number = ++this.asked;
    const kind = vscode.window.activeColorTheme.kind;
    const dark = kind === vscode.ColorThemeKind.Dark || kind === vscode.ColorThemeKind.HighContrast;
    const params = {
      textDocument: { uri: client.code2ProtocolConverter.asUri(document.uri) },
      position: client.code2ProtocolConverter.asPosition(position),
      theme: dark ? "dark" : "light",
    };
    const drawing = await client.sendRequest<Drawing | null>("wythe/drawing", params);
    // A later question has been asked meanwhile; its answer counts.
    if (!drawing || number !== this.asked || !this.panel) {
      return;
    }
    this.layers = drawing.layers;
    this.panel.title = drawing.title;
    const message = { svg: drawing.svg, marked: drawing.marked, links: drawing.layers.map((l) => l.origin) };
    await this.panel.webview.postMessage(message);
  }

  private async lead(origin: string | undefined): Promise<void> {
    const layer = this.layers.find((l) => l.origin === origin);
    const client = this.client();
    if (!layer || !client) {
      return;
    }
    const range = client.protocol2CodeConverter.asRange(layer.range);
    const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(layer.uri));
    await vscode.window.showTextDocument(document, { selection: range, viewColumn: vscode.ViewColumn.One });
  }

  dispose(): void {
    this.panel?.dispose();
    this.listening.forEach((l) => l.dispose());
  }
}

function page(nonce: string): string {
  return `<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'nonce-${nonce}'; script-src 'nonce-${nonce}';">
<style nonce="${nonce}">
  body { margin: 0; padding: 8px; }
  svg { width: 100%; height: auto; max-height: 96vh; }
  .linked { cursor: pointer; }
  .marked { filter: drop-shadow(0 0 1.2px #e69f00) drop-shadow(0 0 0.6px #e69f00); }
</style></head><body><main id="sheet" aria-live="polite">The drawing of what stands under the cursor is shown here.</main>
<script nonce="${nonce}">
  const host = acquireVsCodeApi();
  const sheet = document.getElementById("sheet");
  addEventListener("message", ({ data }) => {
    const parsed = new DOMParser().parseFromString(data.svg, "image/svg+xml").documentElement;
    sheet.replaceChildren(document.importNode(parsed, true));
    for (const group of sheet.querySelectorAll("[data-origin]")) {
      const origin = group.getAttribute("data-origin");
      group.classList.toggle("linked", data.links.includes(origin));
      group.classList.toggle("marked", origin === data.marked);
    }
  });
  sheet.addEventListener("click", (event) => {
    const group = event.target.closest("[data-origin]");
    if (group) host.postMessage({ origin: group.getAttribute("data-origin") });
  });
</script></body></html>`;
}
