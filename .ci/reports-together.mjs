// One file for all reports: each is loaded when it is asked for, but a file each, with another for whatever any two of them share, would be thirty to open at a start.
// Invariant: only how the program is cut into files changes.
import { readFileSync, readdirSync } from "node:fs";

export const reportsTogether = {
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
      const contents = readFileSync(path, "utf8").replace('(await import("./kind.ts")).kind', `(await import("splitpin-reports"))[${JSON.stringify(name)}]`);
      return { contents, loader: "ts" };
    });
    build.onResolve({ filter: /^splitpin-reports$/ }, ({ path }) => ({ path, namespace: "reports-together" }));
    build.onLoad({ filter: /.*/, namespace: "reports-together" }, () => ({
      contents: names.map((name) => `export { kind as ${JSON.stringify(name)} } from ${JSON.stringify(`${folder}${name}/kind.ts`)};\n`).join(""),
      resolveDir: folder,
    }));
  },
};
