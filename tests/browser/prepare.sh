#!/usr/bin/env bash
# Fetches what the tests in a browser need and packs the extension for the editor. No package runs a script of its own,
# and nothing is compiled. Chromium comes from the distribution.
set -euo pipefail
cd "$(dirname "$0")"
quiet=(--ignore-scripts --no-audit --no-fund --loglevel=error)

npm ci "${quiet[@]}"
(cd workbench && npm ci "${quiet[@]}")
# The workbench keeps what it needs in a package of its own, pinned by its shrinkwrap.
(cd workbench/node_modules/code-server/lib/vscode && npm install --omit=dev "${quiet[@]}")

cd ../../editors/vscode
[ -d node_modules ] || npm ci "${quiet[@]}"
node node_modules/esbuild/install.js
npm run package
