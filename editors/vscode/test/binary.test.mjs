// Finding the command.

import assert from "node:assert/strict";
import { chmodSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { buildSync } from "esbuild";

const folder = mkdtempSync(join(tmpdir(), "wythe-"));
const bundle = join(folder, "binary.mjs");
buildSync({ entryPoints: [join(import.meta.dirname ?? ".", "../src/binary.ts")], bundle: true, platform: "node", format: "esm", outfile: bundle });
const { findBinary } = await import(bundle);

test("the command is found where it is told, on the path, and nowhere", () => {
  const place = join(folder, "wythe");
  assert.equal(findBinary(place, undefined, ""), undefined);
  writeFileSync(place, "#!/bin/sh\n");
  assert.equal(findBinary(place, undefined, ""), undefined, "it cannot be run");
  chmodSync(place, 0o755);
  assert.equal(findBinary(place, undefined, ""), place);
  assert.equal(findBinary("wythe", folder, ""), place, "from the folder of the plans");
  assert.equal(findBinary("", undefined, `/nowhere:${folder}`), place);
  rmSync(folder, { recursive: true });
});
