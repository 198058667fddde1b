// The drawing as a page, for editors without a panel: what it shows, where it leads, and whom it turns away.

import assert from "node:assert/strict";
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { request } from "node:http";
import { connect } from "node:net";
import { networkInterfaces, tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { after, before, test } from "node:test";
import axe from "axe-core";
import { browserPath, launch } from "./chromium.mjs";
import { Client } from "./client.mjs";
import { pictureOf } from "./pictures.mjs";
import { WYTHE } from "./workbench.mjs";

const skip = !browserPath() ? "no Chromium on this machine" : !existsSync(WYTHE) ? `no command at ${WYTHE}` : false;
const folder = mkdtempSync(join(tmpdir(), "wythe-page-"));
const plans = join(folder, "cedar_row");
const library = join(plans, "library/closed_crawl.wythe");
const uri = `file://${library}`;
const text = readFileSync(resolve(import.meta.dirname, "../../examples/cedar_row/library/closed_crawl.wythe"), "utf8");
const leads = { window: { showDocument: { support: true } } };
/** The line of the library with a text, from zero. */
const line = (part) => text.split("\n").findIndex((l) => l.includes(part));

let browser;
before(async () => {
  cpSync(resolve(import.meta.dirname, "../../examples/cedar_row"), plans, { recursive: true });
  if (!skip) browser = await launch();
});
after(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

async function opened(capabilities = leads, ...flags) {
  const client = new Client(...flags);
  await client.begin(plans, capabilities);
  client.tell("textDocument/didOpen", { textDocument: { uri, languageId: "wythe", version: 1, text } });
  return client;
}

const cursor = (client, at) => client.tell("wythe/cursor", { textDocument: { uri }, position: { line: at, character: 16 } });
const address = (client) => client.ask("workspace/executeCommand", { command: "wythe.server.drawingPage", arguments: [{ open: false }] });

test("the page follows the cursor and the text, and leads to the lines", { skip, timeout: 120_000 }, async () => {
  const client = await opened();
  cursor(client, line("set board from"));
  const page = await browser.newPage({ viewport: { width: 900, height: 760 } });
  const complaints = [];
  page.on("console", (said) => said.type() === "error" && complaints.push(said.text()));
  page.on("pageerror", (error) => complaints.push(String(error)));
  const answer = await page.goto(await address(client));
  const policy = answer.headers()["content-security-policy"];
  assert.match(policy, /^default-src 'none'; script-src 'nonce-[0-9a-f]+'; /);
  assert.equal(answer.headers()["cache-control"], "no-store");

  const svg = page.locator("#sheet > svg");
  await svg.waitFor();
  const marked = svg.locator(".marked").first();
  await marked.waitFor({ state: "attached" });
  const board = await marked.getAttribute("data-origin");
  assert.equal(await page.title(), `Wythe: ${await page.locator("#title").textContent()}`);
  assert.ok(!page.url().includes("token"), "the token does not stay in the address");
  await page.screenshot({ path: pictureOf(".", "drawing") });

  // For those who do not see it, or use it by the keyboard of a browser.
  await page.evaluate(axe.source);
  const found = await page.evaluate(() => axe.run());
  assert.deepEqual(found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html)}`), []);

  cursor(client, line("drain footing_drain"));
  await svg.locator(`.marked:not([data-origin="${board}"])`).first().waitFor({ state: "attached" });
  const led = client.next("window/showDocument");
  await svg.locator(`[data-origin="${board}"]`).first().click();
  const shown = await led;
  assert.equal(shown.uri, uri);
  assert.equal(shown.selection.start.line, line("set board from"));
  assert.equal(shown.external, false);
  await page.getByText(`closed_crawl.wythe, line ${line("set board from") + 1}`, { exact: true }).waitFor();

  // No word of the cursor: what is typed is where it is.
  const before = await svg.innerHTML();
  const end = text.split("\n")[line("set board from")].indexOf("gap") + 3;
  const range = { start: { line: line("set board from"), character: end }, end: { line: line("set board from"), character: end } };
  client.tell("textDocument/didChange", { textDocument: { uri, version: 2 }, contentChanges: [{ range, text: " - 2\"" }] });
  await page.waitForFunction((old) => document.querySelector("#sheet > svg").innerHTML !== old, before);
  assert.deepEqual(complaints, []);

  await client.end();
  await page.getByText("The editor has ended").waitFor();
  await page.close();
});

/** The status of an answer to a question as no browser asks it. */
function status(at, { path = "/", method = "GET", ...headers } = {}) {
  const { hostname, port } = new URL(at);
  return new Promise((done, failed) => {
    const asked = request({ hostname, port, path, method, headers }, (answer) => {
      answer.resume();
      answer.on("end", () => done(answer.statusCode));
    });
    asked.on("error", failed);
    asked.end();
  });
}

test("who has no token, or a used one, or comes by another name, is turned away", { skip, timeout: 120_000 }, async () => {
  const client = await opened();
  const at = await address(client);
  assert.match(at, /^http:\/\/127\.0\.0\.1:\d+\/\?token=[0-9a-f]{48}$/);
  const { port, search } = new URL(at);

  assert.equal(await status(at), 403, "no token");
  assert.equal(await status(at, { path: "/?token=" }), 403);
  assert.equal(await status(at, { path: `/${search.slice(0, -1)}` }), 403, "a part of it");
  for (const path of ["/drawing", "/drawing?after=0", `/drawing${search}`, "/wythe.toml", "/../../etc/passwd", "/%2e%2e/wythe.toml"]) {
    assert.equal(await status(at, { path }), 403, path);
  }
  assert.equal(await status(at, { path: "/go?origin=0:0-1", method: "POST" }), 403);
  assert.equal(await status(at, { path: `/${search}`, host: `localhost:${port}` }), 403, "by another name");
  assert.equal(await status(at, { path: `/${search}`, method: "POST" }), 403);

  const page = await (await fetch(at)).text();
  const key = /Bearer ([0-9a-f]{48})/.exec(page)[1];
  assert.equal((await fetch(at)).status, 403, "a token opens one page");
  const asks = { authorization: `Bearer ${key}` };
  assert.equal(await status(at, { path: "/drawing?after=0", ...asks, "sec-fetch-site": "cross-site" }), 403);
  assert.equal(await status(at, { path: "/go?origin=../../wythe.toml", method: "POST", ...asks }), 404);
  assert.equal(await status(at, { path: "/wythe.toml", ...asks }), 403, "a key opens no files");
  assert.equal(await status(at, { path: "/", ...asks, "x-long": "x".repeat(40_000) }), 431);

  // Nothing listens but the loopback.
  const outside = Object.values(networkInterfaces()).flat().filter((i) => !i.internal && i.family === "IPv4");
  for (const { address: host } of outside) {
    const reached = await new Promise((done) => connect({ host, port }).once("connect", () => done(true)).once("error", () => done(false)));
    assert.equal(reached, false, host);
  }
  await client.end();
});

test("an editor that cannot be led is told so, and one that only starts the server gets the page too", { skip, timeout: 120_000 }, async () => {
  const client = new Client("--drawing");
  const said = client.next("window/showMessage");
  await client.begin(plans, {});
  const { message } = await said;
  const at = /http:\S+/.exec(message)[0];
  client.tell("textDocument/didOpen", { textDocument: { uri, languageId: "wythe", version: 1, text } });
  // This client tells nothing of its cursor, but asks what is the same as the word there.
  await client.ask("textDocument/documentHighlight", { textDocument: { uri }, position: { line: line("set board from"), character: 16 } });
  const page = await browser.newPage();
  await page.goto(at);
  await page.locator("#sheet .marked").first().click({ force: true });
  await page.getByText("this editor cannot be led there").waitFor();
  await page.close();
  await client.end();

  const other = new Client("--drawing");
  const asked = other.next("window/showDocument");
  await other.begin(plans, leads);
  const shown = await asked;
  assert.equal(shown.external, true);
  assert.match(shown.uri, /^http:\/\/127\.0\.0\.1:/);
  await other.end();
});
