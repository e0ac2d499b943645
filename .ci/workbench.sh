#!/usr/bin/env bash
# Sets up the VS Code workbench that the editor tests drive, in .cache, once: its server wants a newer Node than the project.
set -euo pipefail
cd "$(dirname "$0")/.."
cache=.cache/workbench
wanted="node@24 code-server@4.139.1"
[ "$(cat "$cache/ready" 2>/dev/null)" = "$wanted" ] && exit 0
rm -rf "$cache"
mkdir -p "$cache/node24"
(cd "$cache/node24" && echo '{"private":true}' > package.json && npm install --no-audit --no-fund --loglevel=error node@24)
export PATH="$PWD/$cache/node24/node_modules/node/bin:$PATH"
(cd "$cache" && echo '{"private":true}' > package.json && npm install --no-audit --no-fund --loglevel=error --ignore-scripts code-server@4.139.1)
(cd "$cache/node_modules/code-server/lib/vscode" && npm install --no-audit --no-fund --loglevel=error --omit=dev --ignore-scripts)
echo "$wanted" > "$cache/ready"
