// The Chromium of the distribution, headless, driven by playwright-core; nothing is downloaded.

import { accessSync, constants } from "node:fs";
import { delimiter, join } from "node:path";
import { chromium } from "playwright-core";

const NAMES = ["chromium", "chromium-browser", "google-chrome"];

/** Where the browser is: as the variable CHROMIUM says, else on the PATH; undefined where there is none. */
export function browserPath() {
  const told = process.env.CHROMIUM;
  const folders = (process.env.PATH ?? "").split(delimiter);
  const places = told ? [told] : NAMES.flatMap((name) => folders.map((folder) => join(folder, name)));
  return places.find((place) => {
    try {
      accessSync(place, constants.X_OK);
      return true;
    } catch {
      return false;
    }
  });
}

/** Starts the browser. A container that runs as root has no sandbox of its own to offer, so none is asked for. */
export function launch() {
  return chromium.launch({ executablePath: browserPath(), args: ["--no-sandbox", "--disable-gpu"] });
}
