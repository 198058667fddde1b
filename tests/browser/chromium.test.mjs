// The browser starts, and what is shown in it can be read back.

import assert from "node:assert/strict";
import { test } from "node:test";
import { browserPath, launch } from "./chromium.mjs";

test("the browser of the machine shows a page", { skip: browserPath() ? false : "no Chromium on this machine" }, async () => {
  const browser = await launch();
  try {
    const page = await browser.newPage();
    await page.setContent("<!DOCTYPE html><title>Cedar Row</title><h1>Unit 4</h1>");
    assert.equal(await page.textContent("h1"), "Unit 4");
  } finally {
    await browser.close();
  }
});
