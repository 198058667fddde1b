// A terminal in the browser, with a real program behind it: what an editor of the terminal looks like, and what a
// person types into it.

import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";

const XTERM = join(import.meta.dirname, "node_modules/@xterm/xterm");
const [COLUMNS, ROWS] = [112, 34];

export class Terminal {
  #program;

  constructor(page, program) {
    this.page = page;
    this.#program = program;
  }

  /** Starts a program in a terminal of its own; `script` gives it one. */
  static async start(browser, command, { cwd, env }) {
    const page = await browser.newPage({ viewport: { width: 1000, height: 720 } });
    await page.setContent(`<!DOCTYPE html><html lang="en"><title>Terminal</title><style>body { margin: 0; background: #fff }</style><div id="t"></div>`);
    await page.addStyleTag({ content: readFileSync(join(XTERM, "css/xterm.css"), "utf8") });
    await page.addScriptTag({ content: readFileSync(join(XTERM, "lib/xterm.js"), "utf8") });
    const words = command.map((word) => `'${word.replaceAll("'", "'\\''")}'`).join(" ");
    const line = `stty cols ${COLUMNS} rows ${ROWS}; exec ${words}`;
    const program = spawn("script", ["-qfec", line, "/dev/null"], { cwd, env: { ...process.env, ...env, TERM: "xterm-256color" }, stdio: ["pipe", "pipe", "inherit"] });
    await page.exposeFunction("typed", (text) => program.stdin.write(text));
    await page.evaluate(([cols, rows]) => {
      const theme = { background: "#ffffff", foreground: "#1a1a1a", cursor: "#1a1a1a", selectionBackground: "#cfe3ff" };
      const term = new Terminal({ cols, rows, theme, fontFamily: "DejaVu Sans Mono, monospace", fontSize: 14, lineHeight: 1.15, minimumContrastRatio: 4.5 });
      term.open(document.getElementById("t"));
      term.onData((text) => window.typed(text));
      term.focus();
      window.term = term;
      window.take = (bytes) => new Promise((done) => term.write(Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0)), done));
      window.lines = () => Array.from({ length: rows }, (_, i) => term.buffer.active.getLine(term.buffer.active.viewportY + i)?.translateToString(true) ?? "");
    }, [COLUMNS, ROWS]);
    program.stdout.on("data", (bytes) => {
      if (!page.isClosed()) page.evaluate((b) => window.take(b), bytes.toString("base64")).catch(() => {});
    });
    return new Terminal(page, program);
  }

  /** What stands on the screen. */
  async screen() {
    return (await this.page.evaluate(() => window.lines())).join("\n");
  }

  /** Waits until the screen shows something, or shows it no more. */
  async shows(pattern, wanted = true, limit = 40_000) {
    const until = Date.now() + limit;
    while (pattern.test(await this.screen()) !== wanted) {
      if (Date.now() > until) throw new Error(`waited in vain for ${wanted ? "" : "the end of "}${pattern}:\n${await this.screen()}`);
      await new Promise((done) => setTimeout(done, 50));
    }
  }

  /** Types, as on a keyboard. */
  type(text) {
    this.#program.stdin.write(text);
  }

  picture(path) {
    return this.page.locator(".xterm-screen").screenshot({ path });
  }

  async end() {
    const ended = new Promise((done) => (this.#program.exitCode === null ? this.#program.once("exit", done) : done()));
    this.#program.kill();
    await ended;
    await this.page.close();
  }
}
