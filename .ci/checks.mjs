// Types and style, side by side: what `npm test` looks at before it runs a test.
import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));
const checks = ["tsc", "tsc -p client/page", "biome check --error-on-warnings"];
const codes = await Promise.all(
  checks.map((it) => new Promise((resolve) => spawn(`npx ${it}`, { cwd: root, shell: true, stdio: "inherit" }).on("exit", resolve))),
);
process.exitCode = codes.every((it) => it === 0) ? 0 : 1;
