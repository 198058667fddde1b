// The editor in the browser: a server of its own in a folder of its own, with the packed extension installed.

import { execFile, spawn } from "node:child_process";
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { promisify } from "node:util";

const HERE = import.meta.dirname;
const ROOT = resolve(HERE, "../..");
const SERVER = join(HERE, "workbench/node_modules/code-server/lib/vscode/out/server-main.js");

/** The `wythe` command that is tested. */
export const WYTHE = process.env.WYTHE_COMMAND ?? join(process.env.CARGO_TARGET_DIR ?? join(ROOT, "target"), "debug/wythe");

/** Why the editor cannot be tested here; false where it can. In continuous integration it must be possible. */
export function isMissing() {
  const missing = [];
  if (!existsSync(SERVER)) missing.push("the editor (tests/browser/prepare.sh)");
  if (extension() === undefined) missing.push("the packed extension (tests/browser/prepare.sh)");
  if (!existsSync(WYTHE)) missing.push(`the command (cargo build -p wythe; looked for ${WYTHE})`);
  if (missing.length === 0) return false;
  const said = `missing: ${missing.join(", ")}`;
  if (process.env.CI) throw new Error(said);
  return said;
}

function extension() {
  const folder = join(ROOT, "editors/vscode");
  const packed = readdirSync(folder).find((name) => name.endsWith(".vsix"));
  return packed && join(folder, packed);
}

const SETTINGS = {
  "chat.commandCenter.enabled": false,
  "editor.fontFamily": "DejaVu Sans Mono",
  "extensions.autoCheckUpdates": false,
  "extensions.ignoreRecommendations": true,
  "editor.minimap.enabled": false,
  "files.autoSave": "off",
  "git.enabled": false,
  "security.workspace.trust.enabled": false,
  "telemetry.telemetryLevel": "off",
  "workbench.startupEditor": "none",
  "workbench.tips.enabled": false,
};

/** Starts the editor over a copy of Cedar Row. */
export async function start() {
  const folder = mkdtempSync(join(tmpdir(), "wythe-browser-"));
  const plans = join(folder, "cedar_row");
  cpSync(join(ROOT, "examples/cedar_row"), plans, { recursive: true });
  const user = join(folder, "server/data/User");
  mkdirSync(user, { recursive: true });
  const set = (more) =>
    writeFileSync(join(user, "settings.json"), JSON.stringify({ ...SETTINGS, "wythe.server.path": WYTHE, ...more }));
  set({});

  const places = ["--server-data-dir", join(folder, "server"), "--extensions-dir", join(folder, "extensions")];
  const said = ["--accept-server-license-terms", "--telemetry-level", "off"];
  await promisify(execFile)(process.execPath, [SERVER, ...places, ...said, "--install-extension", extension()]);
  const port = await freePort();
  const address = ["--host", "127.0.0.1", "--port", String(port), "--without-connection-token"];
  const server = spawn(process.execPath, [SERVER, ...places, ...said, ...address], {
    stdio: ["ignore", "pipe", "ignore"],
    env: { ...process.env, PATH: "/usr/bin:/bin" },
  });
  await new Promise((done, failed) => {
    server.stdout.on("data", (text) => String(text).includes("Extension host agent listening") && done());
    server.on("exit", (code) => failed(new Error(`the editor ended with ${code}`)));
  });
  return {
    plans,
    /** Sets what a person sets. */
    set,
    /** The address at which the editor shows the plans, with a file of them open. */
    at(file) {
      const open = JSON.stringify([["openFile", `vscode-remote://127.0.0.1:${port}${join(plans, file)}`]]);
      return `http://127.0.0.1:${port}/?folder=${encodeURIComponent(plans)}&payload=${encodeURIComponent(open)}`;
    },
    async stop() {
      const ended = new Promise((done) => server.once("exit", done));
      server.kill();
      await ended;
      rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
    },
  };
}

function freePort() {
  return new Promise((done, failed) => {
    const probe = createServer();
    probe.once("error", failed);
    probe.listen(0, "127.0.0.1", () => {
      const { port } = probe.address();
      probe.close(() => done(port));
    });
  });
}
