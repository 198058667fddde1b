// A person at the editor: opens a house of Cedar Row, types a mistake, mends it by the fix that is offered, and works
// with the drawing beside the text. The pictures of the page on VS Code are taken on the way.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { browserPath, launch } from "./chromium.mjs";
import { pictureOf } from "./pictures.mjs";
import { WYTHE, isMissing, start } from "./workbench.mjs";

const skip = browserPath() ? isMissing() : "no Chromium on this machine";
const TIMEOUT = 60_000;

let browser;
let workbench;
before(async () => {
  if (skip) return;
  browser = await launch();
  workbench = await start();
}, { timeout: 2 * TIMEOUT });
after(async () => {
  await browser?.close();
  await workbench?.stop();
});

/** The editor with a file of the plans open and, if all is well, the server ready. */
async function open(file, mark = ".codicon-check") {
  const page = await browser.newPage({ viewport: { width: 1280, height: 720 } });
  page.setDefaultTimeout(TIMEOUT);
  await page.goto(workbench.at(file));
  await page.locator(".monaco-editor .view-lines").first().waitFor();
  await page.locator("[id='wythe.wythe.wythe.status'], [id$='wythe.status']").locator(mark).waitFor();
  return page;
}

/** A picture, once what opens or scrolls slowly has come to rest. */
const picture = (page, name) => page.waitForTimeout(800).then(() => page.screenshot({ path: pictureOf("vscode", name) }));
const errors = (page) => page.locator(".squiggly-error");
const onDisk = (file) => readFileSync(join(workbench.plans, file), "utf8");

/** Presses keys until what they show is there: an editor that has just opened a file does not hear all of them. */
async function press(page, keys, shown) {
  for (let left = 8; ; left--) {
    for (const key of keys) await page.keyboard.press(key);
    try {
      return await shown.waitFor({ timeout: left > 0 ? 5_000 : TIMEOUT });
    } catch (error) {
      if (left === 0) throw error;
      await page.keyboard.press("Escape");
    }
  }
}

/** Puts the cursor at a line and a column, as `Go to Line` does. */
async function go(page, line, column) {
  await page.keyboard.press("Control+g");
  const box = page.locator(".quick-input-widget input[type=text]");
  await box.fill(`:${line}:${column}`);
  await page.keyboard.press("Enter");
  await box.waitFor({ state: "hidden" });
}

/** The line the cursor is on, as the editor says. */
async function isOnLine(page, line) {
  await page.locator("[id='status.editor.selection']").filter({ hasText: new RegExp(`Ln ${line},`) }).waitFor();
}

async function save(page, file, expected) {
  await page.keyboard.press("Control+s");
  await waitFor(() => onDisk(file).includes(expected));
}

/** The SVG in the panel of the drawing: a page in a frame in a frame. */
const drawing = (page) => page.frameLocator("iframe.webview").frameLocator("#active-frame").locator("#sheet > svg");

test("a mistake is underlined as it is typed, and the fix that is offered mends it", { skip, timeout: 3 * TIMEOUT }, async () => {
  const file = "houses/unit_4.wythe";
  const page = await open(file);
  await page.getByText("R-12.94, U-0.0725").waitFor(); // beside the text, before anything is typed
  assert.equal(await errors(page).count(), 0);
  await page.locator(".view-lines").first().click();
  await go(page, 17, 35);
  await page.keyboard.type(" 6\"");
  await errors(page).first().waitFor();
  await picture(page, "mistake");

  await page.keyboard.press("F8");
  await page.locator(".marker-widget").getByText("the walk does not close").waitFor();
  await picture(page, "finding");
  await page.keyboard.press("Escape");
  await press(page, ["Control+."], page.locator(".action-widget").getByText("close the walk by the length of porch"));
  await picture(page, "fix");
  await page.keyboard.press("Enter"); // the first of those offered
  await errors(page).first().waitFor({ state: "detached" });
  await page.locator(".view-line").filter({ hasText: "wall porch runs west 22' 6\"" }).waitFor();
  await picture(page, "mended");
  await save(page, file, "wall porch runs west 22' 6\"");
  await page.close();
});

test("hover tells of a wall, completion of products, and rename reaches other files", { skip, timeout: 3 * TIMEOUT }, async () => {
  const file = "library/closed_crawl.wythe";
  const page = await open(file);
  await page.locator(".view-lines").first().click();
  await go(page, 24, 20);
  await press(page, ["Control+k", "Control+i"], page.locator(".monaco-hover-content").getByText("wall_liner").first());
  await picture(page, "hover");
  await page.keyboard.press("Escape");

  await go(page, 26, 51);
  await page.keyboard.press("Enter");
  await page.keyboard.type("hang wa");
  const rows = page.locator(".suggest-widget .monaco-list-row");
  await rows.filter({ hasText: "wall_liner" }).first().waitFor();
  assert.equal(await rows.filter({ hasText: "drive_pin" }).count(), 0, "a pin cannot be hung");
  await picture(page, "completion");
  await page.keyboard.press("Escape");
  for (let i = 0; i < 4; i++) await page.keyboard.press("Control+z");

  await go(page, 8, 14);
  await page.keyboard.press("F2");
  const box = page.locator(".rename-box input");
  await box.fill("lined_wall");
  await page.keyboard.press("Enter");
  await page.locator(".view-line").filter({ hasText: "buildup lined_wall" }).waitFor();
  await waitFor(async () => {
    await page.keyboard.press("Control+k");
    await page.keyboard.press("s"); // saves all
    await page.waitForTimeout(500);
    return onDisk("houses/unit_4.wythe").includes("build: lined_wall(board:");
  });
  assert.ok(onDisk(file).includes("buildup lined_wall("));
  await page.close();
});
test("the drawing follows the cursor and the text, and leads back to the lines", { skip, timeout: 3 * TIMEOUT }, async () => {
  const page = await open("library/closed_crawl.wythe");
  await page.locator(".view-lines").first().click();
  await go(page, 28, 18);
  await page.getByRole("button", { name: "Open the Drawing Beside" }).click();
  const svg = drawing(page);
  await svg.waitFor();
  const marked = svg.locator(".marked").first();
  await marked.waitFor({ state: "attached" });
  const board = await marked.getAttribute("data-origin");
  await picture(page, "drawing");

  // Another line, another layer.
  await page.locator(".view-lines").first().click();
  await go(page, 17, 22);
  await svg.locator(`.marked:not([data-origin="${board}"])`).first().waitFor({ state: "attached" });
  // A layer in the drawing, its line.
  await svg.locator(`[data-origin="${board}"]`).first().click();
  await isOnLine(page, 28);
  // What is typed is drawn.
  const before = await svg.innerHTML();
  await go(page, 28, 29);
  await page.keyboard.type(" - 12\"");
  await waitFor(async () => (await svg.innerHTML()) !== before);
  await picture(page, "typed");
  await page.close();
});

test("where the command is not found, the editor says so and shows where to say it", { skip, timeout: 3 * TIMEOUT }, async () => {
  workbench.set({ "wythe.server.path": "/nowhere/wythe" });
  const page = await open("houses/unit_4.wythe", ".codicon-error");
  const message = page.locator(".notification-toast").filter({ hasText: "was not found" });
  await message.waitFor();
  await picture(page, "missing");
  await message.getByRole("button", { name: "Open the Setting" }).click();
  // Once told, it works.
  await page.locator('.settings-editor input[aria-label="wythe.server.path"]').fill(WYTHE);
  await page.locator("[id$='wythe.status'] .codicon-check").waitFor();
  await page.close();
});

async function waitFor(holds) {
  const until = Date.now() + TIMEOUT;
  while (!(await holds())) {
    assert.ok(Date.now() < until, `waited in vain for ${holds}`);
    await new Promise((done) => setTimeout(done, 100));
  }
}
