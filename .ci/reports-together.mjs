// One file for all reports: each is loaded when it is asked for, but a file each, with another for whatever any two of them share, would be thirty to open at a start.
// And one for the core that all doors share: a file is a set of modules that the same doors and late parts need, so each late part is said to need all of it.
// Invariant: only how the program is cut into files changes.
import { readFileSync, readdirSync } from "node:fs";

/** `rowAt`: the row of a report, by its path. */
export const reportsTogether = (rowAt) => ({
  name: "reports-together",
  setup(build) {
    const folder = `${build.initialOptions.absWorkingDir}server/reports/`;
    const names = readdirSync(folder, { withFileTypes: true }).flatMap((it) =>
      it.isDirectory()
        ? readdirSync(folder + it.name)
            .filter((file) => file === "kind.ts")
            .map(() => it.name)
        : [],
    );
    build.onLoad({ filter: /[\\/]reports[\\/][^\\/]+[\\/]report\.ts$/ }, ({ path }) => {
      const name = path.split(/[\\/]/).at(-2);
      const contents = rowAt(path).replace('(await import("./kind.ts")).kind', `(await import("splitpin-reports"))[${JSON.stringify(name)}]`);
      return { contents, loader: "ts" };
    });
    // What an editor asks for besides is one file too, but for what brings the figures of the bench.
    build.onLoad({ filter: /[\\/]server[\\/]service\.ts$/ }, ({ path }) => {
      const asked = /import\("(\.\/features\/(?!hover|figure)[\w-]+)\.ts"\)/g;
      const contents = readFileSync(path, "utf8").replace(asked, (_, file) => `features().then((it) => it["${file}"])`);
      return { contents: `${contents}\nconst features = () => import("splitpin-features");\n`, loader: "ts" };
    });
    const core = `import ${JSON.stringify(`${folder}../service.ts`)};\n`;
    build.onLoad({ filter: /[\\/]server[\\/](features[\\/](hover|figure)|reports[\\/](check[\\/](sarif|junit)|hand-over[\\/]verify))\.ts$/ }, ({ path }) => ({
      contents: core + readFileSync(path, "utf8"),
      loader: "ts",
    }));
    build.onResolve({ filter: /^splitpin-features$/ }, ({ path }) => ({ path, namespace: "features-together" }));
    build.onLoad({ filter: /.*/, namespace: "features-together" }, () => {
      const text = readFileSync(`${folder}../service.ts`, "utf8");
      const files = new Set([...text.matchAll(/import\("(\.\/features\/(?!hover|figure)[\w-]+)\.ts"\)/g)].map(([, file]) => file));
      return { contents: core + [...files].map((file) => `export * as "${file}" from "${file}.ts";\n`).join(""), resolveDir: `${folder}..` };
    });
    build.onResolve({ filter: /^splitpin-reports$/ }, ({ path }) => ({ path, namespace: "reports-together" }));
    build.onLoad({ filter: /.*/, namespace: "reports-together" }, () => ({
      contents: core + names.map((name) => `export { kind as ${JSON.stringify(name)} } from ${JSON.stringify(`${folder}${name}/kind.ts`)};\n`).join(""),
      resolveDir: folder,
    }));
  },
});
