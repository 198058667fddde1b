// Neovim and Emacs in a terminal, as a person sees them: a mistake is shown as it is typed, and a fix takes it away.

import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { after, before, test } from "node:test";
import { browserPath, launch } from "./chromium.mjs";
import { Terminal } from "./terminal.mjs";
import { pictureOf } from "./pictures.mjs";
import { WYTHE } from "./workbench.mjs";

const ROOT = resolve(import.meta.dirname, "../..");
const folder = mkdtempSync(join(tmpdir(), "wythe-terminal-"));
const is = (program) => spawnSync(program, ["--version"]).status === 0;
const missing = !browserPath() ? "no Chromium on this machine" : !existsSync(WYTHE) ? `no command at ${WYTHE}` : !is("script") ? "no `script`" : false;

let browser;
before(async () => {
  if (!missing) browser = await launch();
});
after(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

/** A copy of Cedar Row for one editor. */
function plans(name) {
  const copy = join(folder, name, "cedar_row");
  cpSync(join(ROOT, "examples/cedar_row"), copy, { recursive: true });
  return copy;
}

const env = (name) => ({ HOME: join(folder, name), XDG_CACHE_HOME: join(folder, name, "cache"), XDG_STATE_HOME: join(folder, name, "state"), XDG_CONFIG_HOME: join(folder, name, "config") });

test("Neovim", { skip: missing || (is("nvim") ? false : "no Neovim"), timeout: 180_000 }, async (t) => {
  const cwd = plans("neovim");
  // As the page on Neovim says: the file in the folder `plugin`, and what is one's own beside it.
  const config = join(folder, "neovim/config/nvim");
  mkdirSync(join(config, "plugin"), { recursive: true });
  cpSync(join(ROOT, "editors/neovim/wythe.lua"), join(config, "plugin/wythe.lua"));
  writeFileSync(join(config, "init.lua"), `vim.g.wythe_command = { [[${WYTHE}]], "serve", "--stdio" }\nvim.o.number = true\nvim.o.wrap = false\nvim.o.hlsearch = false\n`);
  const command = ["nvim", "-n", "houses/unit_4.wythe"];
  const terminal = await Terminal.start(browser, command, { cwd, env: env("neovim") });
  t.after(() => terminal.end());
  await terminal.shows(/wall south runs east 42'/);
  terminal.type(":lua print(#vim.lsp.buf_get_clients(0) > 0 and 'served' or 'not yet')\r");
  terminal.type("/runs east\rA 6\"\x1b");
  await terminal.shows(/the walk does not close/);
  await terminal.picture(pictureOf("neovim", "mistake"));
  terminal.type(":lua vim.diagnostic.goto_next({ float = false })\r");
  terminal.type(":lua vim.lsp.buf.code_action()\r");
  await terminal.shows(/1: close the walk by the length of porch/);
  await terminal.picture(pictureOf("neovim", "fix"));
  terminal.type("1\r");
  await terminal.shows(/the walk does not close/, false);
  await terminal.shows(/wall porch runs west 22' 6"/);
  terminal.type(":w\r");
  await terminal.shows(/written/);
  assert.match(readFileSync(join(cwd, "houses/unit_4.wythe"), "utf8"), /porch runs west 22' 6"/);
  terminal.type("?foil_board\r:lua vim.lsp.buf.hover()\r");
  await terminal.shows(/Board/);
  await terminal.picture(pictureOf("neovim", "hover"));
});

test("Emacs", { skip: missing || (is("emacs") ? false : "no Emacs"), timeout: 180_000 }, async (t) => {
  const cwd = plans("emacs");
  if (!existsSync("/usr/share/emacs/site-lisp/elpa") && !spawnSync("emacs", ["--batch", "--eval", "(princ (locate-library \"eglot\"))"], { encoding: "utf8" }).stdout.includes("eglot")) return t.skip("no Eglot");
  // As the page on Emacs says: the file on the path, and three lines of one's own.
  const own = join(folder, "emacs/.emacs.d");
  mkdirSync(join(own, "lisp"), { recursive: true });
  cpSync(join(ROOT, "editors/emacs/wythe-mode.el"), join(own, "lisp/wythe-mode.el"));
  writeFileSync(join(own, "init.el"), `(add-to-list 'load-path "${own}/lisp")
(setq native-comp-async-report-warnings-errors nil)
(setq wythe-command '("${WYTHE}" "serve" "--stdio") make-backup-files nil inhibit-startup-screen t)
(require 'wythe-mode)
(add-hook 'wythe-mode-hook #'eglot-ensure)
(menu-bar-mode -1)
(setq-default truncate-lines t)
`);
  const command = ["emacs", "-nw", "houses/unit_4.wythe"];
  const terminal = await Terminal.start(browser, command, { cwd, env: env("emacs") });
  await terminal.shows(/wall south runs east 42'/);
  t.after(() => terminal.end());
  await terminal.shows(/\[eglot:/);
  terminal.type("\x13runs east\r\x05 6\""); // C-s, C-e
  await terminal.shows(/unit_4\.wythe.*\[[1-9]/);
  terminal.type("\x1bxflymake-goto-next-error\r");
  await terminal.shows(/the walk does not close/);
  await terminal.picture(pictureOf("emacs", "mistake"));
  terminal.type("\x1bxeglot-code-actions\r");
  await terminal.shows(/close the walk/);
  await terminal.picture(pictureOf("emacs", "fix"));
  terminal.type("close the walk by the length of porch\r");
  await terminal.shows(/wall porch runs west 22' 6"/);
  terminal.type("\x18\x13"); // C-x C-s
  await terminal.shows(/Wrote /);
  assert.match(readFileSync(join(cwd, "houses/unit_4.wythe"), "utf8"), /porch runs west 22' 6"/);
});
