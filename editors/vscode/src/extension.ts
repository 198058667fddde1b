// The extension: finds the server, starts it, and shows its drawings.

import * as vscode from "vscode";
import { LanguageClient, State, type LanguageClientOptions, type ServerOptions } from "vscode-languageclient/node";
import { findBinary } from "./binary";
import { DrawingPanel } from "./drawing";

let client: LanguageClient | undefined;
let status: vscode.StatusBarItem;
let log: vscode.LogOutputChannel;

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  log = vscode.window.createOutputChannel("Wythe", { log: true });
  status = vscode.window.createStatusBarItem("wythe.status", vscode.StatusBarAlignment.Left);
  status.name = "Wythe";
  status.command = "wythe.showLog";
  const drawing = new DrawingPanel(() => client);
  context.subscriptions.push(
    log,
    status,
    drawing,
    vscode.commands.registerCommand("wythe.restart", restart),
    vscode.commands.registerCommand("wythe.showLog", () => log.show()),
    vscode.commands.registerCommand("wythe.check", check),
    vscode.commands.registerCommand("wythe.showFindings", () => vscode.commands.executeCommand("workbench.actions.view.problems")),
    vscode.commands.registerCommand("wythe.runTest", (place?: unknown) => runTest(asLocation(place))),
    vscode.commands.registerCommand("wythe.openDrawing", (place?: unknown) => drawing.open(asLocation(place))),
    vscode.commands.registerCommand("wythe.showReferences", showReferences),
    vscode.workspace.onDidChangeConfiguration(async (event) => {
      if (event.affectsConfiguration("wythe.server.path") || event.affectsConfiguration("wythe.diagnostics")) {
        await restart();
      } else if (event.affectsConfiguration("wythe")) {
        await client?.sendNotification("workspace/didChangeConfiguration", { settings: settings() });
      }
    }),
  );
  await start();
}

export async function deactivate(): Promise<void> {
  await client?.stop();
}

function settings(): object {
  const all = vscode.workspace.getConfiguration("wythe");
  return { wythe: { diagnostics: all.get("diagnostics"), hints: all.get("hints") } };
}

function binary(): string | undefined {
  const told = vscode.workspace.getConfiguration("wythe").get<string>("server.path", "");
  return findBinary(told, vscode.workspace.workspaceFolders?.[0]?.uri.fsPath, process.env["PATH"]);
}

async function start(): Promise<void> {
  const command = binary();
  if (command === undefined) {
    show("$(error) Wythe", "The wythe command was not found");
    void notFound();
    return;
  }
  log.info(`starting ${command}`);
  const server: ServerOptions = { command, args: ["serve", "--stdio"] };
  const options: LanguageClientOptions = {
    documentSelector: [{ language: "wythe" }],
    initializationOptions: settings(),
    outputChannel: log,
  };
  client = new LanguageClient("wythe", "Wythe", server, options);
  client.onDidChangeState(({ newState }) => {
    switch (newState) {
      case State.Running:
        return show("$(check) Wythe", `Wythe serves plans from ${command}`);
      case State.Starting:
        return show("$(sync~spin) Wythe", "Wythe is starting");
      case State.Stopped:
        return show("$(circle-slash) Wythe", "Wythe has stopped");
    }
  });
  try {
    await client.start();
  } catch (error) {
    show("$(error) Wythe", String(error));
    void vscode.window.showErrorMessage(`Wythe could not start: ${String(error)}`);
  }
}

/** Says that the command is missing, and leads to the setting that tells where it is. */
async function notFound(): Promise<void> {
  const open = "Open the Setting";
  const message = "The command wythe was not found. Install it, or say where it is in the setting wythe.server.path.";
  if ((await vscode.window.showErrorMessage(message, open)) === open) {
    // On a remote machine the setting is one of that machine.
    const command = vscode.env.remoteName === undefined ? "openSettings" : "openRemoteSettings";
    await vscode.commands.executeCommand(`workbench.action.${command}`, { query: "wythe.server.path" });
  }
}

async function restart(): Promise<void> {
  await client?.dispose();
  client = undefined;
  await start();
}

function show(text: string, tooltip: string): void {
  status.text = text;
  status.tooltip = tooltip;
  const failed = text.startsWith("$(error)");
  status.backgroundColor = failed ? new vscode.ThemeColor("statusBarItem.errorBackground") : undefined;
  status.show();
}

function check(): void {
  run("wythe check", ["check"]);
}

/** Runs the tests of the file a place is in. */
function runTest(place: vscode.Location | undefined): void {
  if (place) {
    run("wythe test", ["test", place.uri.fsPath]);
  }
}

/** Runs the command in a terminal, without a shell between: no name of a file is ever read as more than that. */
function run(name: string, args: string[]): void {
  const command = binary();
  if (command === undefined) {
    void notFound();
    return;
  }
  const held = process.platform === "win32" ? [command, args] as const : ["/bin/sh", ["-c", '"$@"; echo; read -r _', "sh", command, ...args]] as const;
  const terminal = vscode.window.createTerminal({ name, shellPath: held[0], shellArgs: [...held[1]] });
  terminal.show(true);
}

interface PlaceOfServer {
  uri: string;
  range: { start: { line: number; character: number }; end: { line: number; character: number } };
}

function asLocation(place: unknown): vscode.Location | undefined {
  const given = place as Partial<PlaceOfServer> | undefined;
  if (typeof given?.uri !== "string" || !given.range || !client) {
    return undefined;
  }
  return client.protocol2CodeConverter.asLocation(given as PlaceOfServer);
}

async function showReferences(place: unknown, all: unknown): Promise<void> {
  const here = asLocation(place);
  const others = Array.isArray(all) ? all.map(asLocation).filter((l) => l !== undefined) : [];
  if (here) {
    await vscode.commands.executeCommand("editor.action.showReferences", here.uri, here.range.start, others);
  }
}
