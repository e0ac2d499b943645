// Finds out from the sources which tokens may begin what, so that the built program need not at each of its starts: see grammar/first-tokens.ts.
import { build } from "esbuild";

/** `known`: what the sources are to take as brought along, as the built program does. */
export async function firstTokensOf(root, known) {
  const { outputFiles } = await build({
    absWorkingDir: root,
    stdin: {
      contents: `import { grammar } from "./grammar/line-grammar.ts";
export const firstTokens = { choices: grammar.choices };`,
      resolveDir: root,
      loader: "ts",
    },
    bundle: true,
    write: false,
    platform: "node",
    format: "esm",
    target: "node20",
    inject: [".ci/group-by.mjs"],
    logLevel: "warning",
    define: known === undefined ? {} : { SPLITPIN_FIRST_TOKENS: JSON.stringify(known) },
  });
  const { firstTokens } = await import(`data:text/javascript;base64,${Buffer.from(outputFiles[0].contents).toString("base64")}`);
  return firstTokens;
}
