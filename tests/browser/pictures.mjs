// Where pictures go: beside the tests, or, with WYTHE_PICTURES set, those that the pages on editors show to these pages.

import { existsSync, mkdirSync } from "node:fs";
import { join, resolve } from "node:path";

/** The place of a picture of an editor. */
export function pictureOf(editor, name) {
  const shown = resolve(import.meta.dirname, "../../editors", editor, "pictures", `${name}.png`);
  if (process.env.WYTHE_PICTURES && existsSync(shown)) return shown;
  const folder = join(import.meta.dirname, "pictures", editor);
  mkdirSync(folder, { recursive: true });
  return join(folder, `${name}.png`);
}
