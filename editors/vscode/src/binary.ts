// Where the `wythe` command is.

import { accessSync, constants, statSync } from "node:fs";
import { homedir } from "node:os";
import { delimiter, isAbsolute, join } from "node:path";

const NAME = process.platform === "win32" ? "wythe.exe" : "wythe";

/** The command: as told, else on the PATH, else where Cargo puts it; nothing where it is not there. */
export function findBinary(told: string, folder: string | undefined, path: string | undefined): string | undefined {
  if (told !== "") {
    const home = told.startsWith("~/") ? join(homedir(), told.slice(2)) : told;
    const place = isAbsolute(home) || folder === undefined ? home : join(folder, home);
    return runs(place) ? place : undefined;
  }
  const folders = (path ?? "").split(delimiter).filter((f) => f !== "");
  folders.push(join(homedir(), ".cargo", "bin"));
  return folders.map((f) => join(f, NAME)).find(runs);
}

function runs(place: string): boolean {
  try {
    accessSync(place, constants.X_OK);
    return statSync(place).isFile();
  } catch {
    return false;
  }
}
