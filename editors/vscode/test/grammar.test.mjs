// The grammar by the engine VS Code colors with: marks of length open no text, and no word is mistaken.

import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";

const require = createRequire(import.meta.url);
const vsctm = require("vscode-textmate");
const oniguruma = require("vscode-oniguruma");
const here = dirname(fileURLToPath(import.meta.url));

const wasm = readFileSync(require.resolve("vscode-oniguruma/release/onig.wasm"));
const onigLib = oniguruma.loadWASM(wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength)).then(() => ({
  createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
  createOnigString: (text) => new oniguruma.OnigString(text),
}));
const registry = new vsctm.Registry({
  onigLib,
  loadGrammar: async () =>
    vsctm.parseRawGrammar(readFileSync(join(here, "../wythe.tmLanguage.json"), "utf8"), "wythe.tmLanguage.json"),
});
const grammar = await registry.loadGrammar("source.wythe");

/** Each token of a text with its innermost scope. */
function tokens(text) {
  let stack = vsctm.INITIAL;
  const out = [];
  for (const line of text.split("\n")) {
    const result = grammar.tokenizeLine(line, stack);
    stack = result.ruleStack;
    for (const token of result.tokens) {
      const word = line.slice(token.startIndex, token.endIndex);
      out.push([word, token.scopes.at(-1).replace(/\.wythe$/, ""), token.scopes]);
    }
  }
  return out;
}

function scopeOf(text, word) {
  const found = tokens(text).find(([w]) => w === word);
  assert.ok(found, `${word} is a token of ${text}: ${JSON.stringify(tokens(text).map(([w]) => w))}`);
  return found[1];
}

test("figures", () => {
  assert.equal(scopeOf("let a = 28' 6\"", "28' 6\""), "constant.numeric.length");
  assert.equal(scopeOf("let a = 3' 4-1/2\" + 1", "3' 4-1/2\""), "constant.numeric.length");
  assert.equal(scopeOf("let a = 5/8\"", "5/8\""), "constant.numeric.length");
  assert.equal(scopeOf("r: R-10", "R-10"), "constant.numeric.thermal");
  assert.equal(scopeOf("until: 2026-09-30", "2026-09-30"), "constant.numeric.date");
  assert.equal(scopeOf("size: 2x10", "2x10"), "constant.numeric.lumber");
  assert.equal(scopeOf("p: 0.03 perm", "perm"), "constant.other.unit");
  assert.equal(scopeOf("c: 0.022 W per m K", "W"), "constant.other.unit");
  assert.equal(scopeOf("size: 16\" x 16\"", "x"), "keyword.operator");
});

test("a mark of length opens no text", () => {
  const after = tokens("wall east runs north 28' 6\"\nwall south runs east 42' // done");
  assert.ok(after.every(([, , scopes]) => !scopes.some((s) => s.startsWith("string"))), JSON.stringify(after));
});

test("texts with values in them", () => {
  const all = tokens('otherwise "leave 3 in; {gap as in} is left" and');
  assert.ok(all.find(([w]) => w.includes("leave"))[1].startsWith("string"));
  assert.ok(all.find(([w]) => w.includes("is left"))[1].startsWith("string"));
  assert.equal(all.find(([w]) => w === "and")[1], "keyword.operator.logical");
});

test("words", () => {
  assert.equal(scopeOf("            hang wall_liner from top to ground", "hang"), "keyword.other.verb");
  assert.equal(scopeOf("pub buildup stem_wall(board: Board) for wall {", "buildup"), "storage.type");
  assert.equal(scopeOf("pub buildup stem_wall(board: Board) for wall {", "Board"), "entity.name.type");
  assert.equal(scopeOf("    permeance: 0.03 perm", "permeance"), "variable.other.property");
  assert.equal(scopeOf("a // set board", "// set board"), "comment.line.double-slash");
});

test("every line of the examples ends outside a text", () => {
  const folder = join(here, "../../../examples/cedar_row");
  const files = readdirSync(folder, { recursive: true }).filter((f) => String(f).endsWith(".wythe"));
  assert.ok(files.length > 10);
  for (const file of files) {
    let stack = vsctm.INITIAL;
    for (const line of readFileSync(join(folder, String(file)), "utf8").split("\n")) {
      stack = grammar.tokenizeLine(line, stack).ruleStack;
      assert.equal(stack.depth, 1, `${file}: ${line}`);
    }
  }
});
