// The report and the site as somebody opens them from a disk: a validator and an accessibility checker find nothing,
// nothing is fetched, search and comparison work, and the print has no page that is wider than its paper.

import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { HtmlValidate } from "html-validate";
import { browserPath, launch } from "./chromium.mjs";

const root = join(import.meta.dirname, "../..");
const target = process.env.CARGO_TARGET_DIR ?? join(root, "target");
const WYTHE = process.env.WYTHE_COMMAND ?? join(target, "debug/wythe");
const skip = !existsSync(WYTHE) ? "the command is not built (cargo build -p wythe)" : browserPath() ? false : "no Chromium on this machine";
const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const TIMEOUT = 600_000;

const validator = new HtmlValidate({
  extends: ["html-validate:standard", "html-validate:a11y"],
  // The name of a house is as long as it is, and drawings take no focus.
  rules: { "no-inline-style": "error", "long-title": "off", "svg-focusable": "off" },
});

let browser;
let folder;
before(async () => {
  if (skip) return;
  browser = await launch();
  folder = mkdtempSync(join(tmpdir(), "wythe-site-"));
  const run = spawnSync(WYTHE, ["site", join(root, "examples/cedar_row"), "-o", folder, "--start", "2026-03-02"]);
  assert.equal(run.status, 0, String(run.stderr));
}, { timeout: TIMEOUT });
after(async () => {
  await browser?.close();
  if (folder) rmSync(folder, { recursive: true });
});

/** The pages of the site, from its top. */
function pages(below = "") {
  return readdirSync(join(folder, below)).flatMap((name) => {
    const path = join(below, name);
    if (statSync(join(folder, path)).isDirectory()) return pages(path);
    return name.endsWith(".html") ? [path] : [];
  });
}

const url = (path) => pathToFileURL(join(folder, path)).href;

/** Opens a page; fails at once if it asks for anything that does not lie in the folder. */
async function open(path, viewport = { width: 1280, height: 900 }) {
  const page = await browser.newPage({ viewport });
  page.on("request", (request) => assert.ok(request.url().startsWith(pathToFileURL(folder).href), request.url()));
  page.on("pageerror", (error) => assert.fail(String(error)));
  await page.goto(url(path));
  return page;
}

test("every page is valid", { skip, timeout: TIMEOUT }, async () => {
  for (const path of pages()) {
    const report = await validator.validateString(readFileSync(join(folder, path), "utf8"));
    const told = report.results.flatMap((result) => result.messages);
    const shown = told.slice(0, 5).map((m) => `${path}:${m.line}: ${m.ruleId}: ${m.message}`).join("\n");
    assert.equal(told.length, 0, shown);
  }
});

test("every page can be used by everybody", { skip, timeout: TIMEOUT }, async () => {
  for (const path of pages().filter((path) => !path.startsWith("sources/library"))) {
    const page = await open(path);
    await page.evaluate(AXE);
    const { violations } = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ["violations"] }));
    const shown = violations.map((v) => `${path}: ${v.id}: ${v.nodes[0]?.html.slice(0, 200)}`).join("\n");
    assert.equal(violations.length, 0, shown);
    await page.close();
  }
});

test("no page is wider than a small screen or its paper", { skip, timeout: TIMEOUT }, async () => {
  const page = await open("houses/unit_4.html", { width: 1024, height: 800 });
  const wider = () => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.equal(await wider(), 0);
  await page.emulateMedia({ media: "print" });
  // Letter less its margins, 188 mm, at 96 dots an inch.
  await page.setViewportSize({ width: 710, height: 900 });
  assert.equal(await wider(), 0);
  for (const format of ["Letter", "A4"]) {
    const pdf = await page.pdf({ format, preferCSSPageSize: true });
    assert.ok(pdf.length > 100_000);
  }
  await page.close();
});

test("no text of a plot lies over another", { skip, timeout: TIMEOUT }, async () => {
  const page = await open("houses/unit_4.html");
  const clashes = await page.evaluate(() => {
    const found = [];
    for (const plot of document.querySelectorAll(".plot svg")) {
      const boxes = [...plot.querySelectorAll("text")].map((text) => [text.textContent, text.getBoundingClientRect()]);
      const edge = plot.getBoundingClientRect();
      boxes.forEach(([name, a], at) => {
        if (a.left < edge.left - 1 || a.right > edge.right + 1) found.push(`${name} runs out of its plot`);
        for (const [other, b] of boxes.slice(at + 1)) {
          const apart = a.right <= b.left || b.right <= a.left || a.bottom <= b.top + 2 || b.bottom <= a.top + 2;
          if (!apart) found.push(`${name} / ${other}`);
        }
      });
    }
    return found;
  });
  assert.deepEqual(clashes, []);
  await page.close();
});

test("search finds houses, products and findings", { skip, timeout: TIMEOUT }, async () => {
  const page = await open("houses/unit_1.html");
  await page.fill("#search", "spruce");
  const first = page.locator("#found a").first();
  assert.match(await first.textContent(), /spruce lodge/);
  await first.click();
  await page.waitForURL(/spruce_lodge/);
  assert.equal(await page.textContent("h1"), "spruce_lodge");
  await page.fill("#search", "foil board");
  await page.keyboard.press("Enter");
  await page.waitForURL(/products\.html#product-foil_board/);
  await page.fill("#search", "no such thing at all");
  assert.equal(await page.locator("#found a").count(), 0);
  assert.equal(await page.textContent("#found-count"), "0 found");
  await page.close();
});

test("the houses ticked stand side by side", { skip, timeout: TIMEOUT }, async () => {
  const page = await open("index.html");
  await page.check("input[value=unit_1]");
  await page.check("input[value=unit_9_vented]");
  await page.click("button[type=submit]");
  await page.waitForURL(/compare\.html\?house=unit_1&house=unit_9_vented/);
  assert.deepEqual(await page.locator("th[data-house]:visible").allTextContents(), ["unit_1", "unit_9_vented"]);
  await page.check("#columns input[value=unit_4]");
  assert.equal(await page.locator("th[data-house]:visible").count(), 3);
  await page.close();
});
