// A language client without an editor: starts the server, asks, tells, and hears what the server asks.

import { spawn } from "node:child_process";
import { WYTHE } from "./workbench.mjs";

export class Client {
  #server;
  #answers = new Map();
  #number = 0;
  #read = Buffer.alloc(0);
  #waiting = [];
  /** What the server has asked or told, in order. */
  heard = [];

  constructor(...flags) {
    this.#server = spawn(WYTHE, ["serve", "--stdio", ...flags], { stdio: ["pipe", "pipe", "inherit"] });
    this.#server.stdout.on("data", (bytes) => this.#take(bytes));
  }

  #take(bytes) {
    this.#read = Buffer.concat([this.#read, bytes]);
    for (;;) {
      const head = this.#read.indexOf("\r\n\r\n");
      if (head < 0) return;
      const length = Number(/content-length: (\d+)/i.exec(this.#read.subarray(0, head))[1]);
      if (this.#read.length < head + 4 + length) return;
      const message = JSON.parse(this.#read.subarray(head + 4, head + 4 + length));
      this.#read = this.#read.subarray(head + 4 + length);
      this.#hear(message);
    }
  }

  #hear(message) {
    if (message.method === undefined) {
      this.#answers.get(message.id)?.(message);
      return;
    }
    if (message.id !== undefined) {
      const result = message.method === "window/showDocument" ? { success: true } : null;
      this.#send({ id: message.id, result });
    }
    this.heard.push(message);
    this.#waiting = this.#waiting.filter(({ method, done }) => method !== message.method || done(message.params));
  }

  #send(message) {
    const body = JSON.stringify({ jsonrpc: "2.0", ...message });
    this.#server.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  }

  tell(method, params) {
    this.#send({ method, params });
  }

  ask(method, params) {
    const id = ++this.#number;
    this.#send({ id, method, params });
    return new Promise((done, failed) => {
      this.#answers.set(id, ({ result, error }) => (error ? failed(new Error(`${method}: ${error.message}`)) : done(result)));
    });
  }

  /** The next message of a method from here on. */
  next(method) {
    return new Promise((done) => this.#waiting.push({ method, done }));
  }

  /** Comes to a folder of plans. */
  async begin(folder, capabilities) {
    const uri = `file://${folder}`;
    await this.ask("initialize", { processId: null, rootUri: uri, workspaceFolders: [{ uri, name: "plans" }], capabilities });
    this.tell("initialized", {});
  }

  end() {
    const ended = new Promise((done) => this.#server.once("exit", done));
    this.#server.kill();
    return ended;
  }
}
