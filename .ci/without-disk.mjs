// For a server in a browser: the starting assemblies are in the bundle, and what would read a disk or load the solver says that there is none.
// Invariant: nothing of this is called for a file that is on no disk, which all files of a browser are.
import { readFileSync, readdirSync } from "node:fs";

const none = 'const none = () => { throw new Error("There is no disk here."); };\n';

export const withoutDisk = (root) => ({
  name: "without-disk",
  setup(build) {
    build.onResolve({ filter: /^node:/ }, ({ path }) => ({ path, namespace: "without-disk" }));
    build.onLoad({ filter: /.*/, namespace: "without-disk" }, async ({ path }) => {
      const names = Object.keys(await import(path)).filter((it) => /^[a-zA-Z]\w*$/.test(it) && it !== "default");
      const lines = names.map((it) => `export ${path === "node:path" && it === "sep" ? 'const sep = "/"' : `const ${it} = none`};`);
      return { contents: `${none}${lines.join("\n")}\nexport default {};\n` };
    });
    build.onLoad({ filter: /[\\/]server[\\/]disk[\\/]starts\.ts$/ }, () => {
      const starts = readdirSync(`${root}grammar/starts`)
        .filter((it) => it.endsWith(".jobsheet"))
        .sort()
        .map((it) => ({ name: it.replace(/\.jobsheet$/, ""), text: readFileSync(`${root}grammar/starts/${it}`, "utf8") }));
      return { contents: `export const readStarts = () => ${JSON.stringify(starts)};` };
    });
    build.onLoad({ filter: /[\\/]server[\\/]disk[\\/]load-solver\.ts$/ }, () => ({
      contents: 'export const loadSolver = () => Promise.reject(new Error("An order is not chosen in a browser: ask the command line."));',
    }));
    build.onLoad({ filter: /[\\/]server[\\/]lsp[\\/]rule-link\.ts$/ }, () => ({ contents: "export const hrefOfRule = () => undefined;" }));
  },
});
