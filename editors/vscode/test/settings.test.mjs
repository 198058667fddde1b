// Every setting and command of the extension is there where it is told of.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";

const root = join(import.meta.dirname, "..");
const { contributes } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));

test("the page tells of every setting", () => {
  const page = readFileSync(join(root, "README.md"), "utf8");
  for (const setting of Object.keys(contributes.configuration.properties)) {
    assert.ok(page.includes(`\`${setting}\``), setting);
  }
});

test("every command in a menu is done by the extension", () => {
  const source = readFileSync(join(root, "src/extension.ts"), "utf8");
  for (const { command } of contributes.commands) {
    assert.ok(source.includes(`registerCommand("${command}"`), command);
  }
});
