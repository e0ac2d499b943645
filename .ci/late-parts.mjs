// Takes out of the program what only few sheets ask for, by the functions by which it is asked: each such part is a file of its own, read at the first call and not before.
// The call waits for nothing and nobody need load the part first: in the sources, and in the programs of a browser, it is an import like any other.
// Invariant: only where the code stands changes. Who calls a part gets what it says, or an error; never an answer without it.
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { build, transform } from "esbuild";

/** By the name of the part, the files whose functions the rest of the program calls. What only they need goes with them. */
const parts = {
  /** What is said of a line that can't be read, and what it is taken for. */
  unread: [
    "grammar/filing-messages.ts",
    "grammar/huge-lines.ts",
    "grammar/message-words.ts",
    "grammar/messages.ts",
    "grammar/slips-of-facts.ts",
    "grammar/slips-of-turns.ts",
    "grammar/strange-lines.ts",
    "grammar/strange-messages.ts",
    "grammar/stray-quotes.ts",
    "grammar/sure-fixes.ts",
  ],
  /** What is said of a reading that no longer holds, and what is asked of one that another speaks against. */
  against: [
    "server/rules/energy/shared/on-wheels.ts",
    "server/rules/parts/shared/lubricated.ts",
    "server/rules/answer-figures.ts",
    "server/rules/conceding.ts",
    "server/rules/figure-beside.ts",
    "server/rules/left-alone.ts",
    "server/rules/limits/shared/nothing-between.ts",
    "server/rules/limits/shared/stale-words.ts",
    "server/rules/looked-good.ts",
    "server/rules/parts/shared/came-off-unsaid.ts",
    "server/rules/release/shared/critical-work.ts",
    "server/rules/release/shared/read-at-end.ts",
    "server/rules/release/shared/rechecks-told.ts",
    "server/rules/shims-against.ts",
    "server/rules/shut-again.ts",
    "server/rules/units/shared/went-on-hot.ts",
    "server/story/held-again.ts",
  ],
  /** What is said of a name, a place, a unit, a figure or a file that is not known or can't be so, and what is likely meant. */
  unknown: [
    "grammar/words/nearest.ts",
    "server/model/near-many.ts",
    "server/rules/units/shared/slipped.ts",
    "server/rules/units/shared/units-to-offer.ts",
    "server/rules/writing/shared/kinds.ts",
    "server/rules/writing/shared/leading-to.ts",
    "server/rules/writing/shared/places-said.ts",
    "server/rules/writing/shared/positions-said.ts",
    "server/rules/writing/shared/two-meanings.ts",
    "server/rules/writing/shared/use-faults.ts",
  ],
  /** A fit by its letters, and a locking that is unlike the one that is declared. */
  fits: ["server/supply/unlike-locking.ts", "server/trade/fits.ts", "server/trade/look-alikes.ts"],
  /** What an order comes to in money, supplier by supplier; what is on hold; when the steps that are still to come can be done, and what they wait for. */
  ordered: [
    "server/plan/parcels.ts",
    "server/plan/plan.ts",
    "server/supply/bills.ts",
    "server/supply/combining.ts",
    "server/supply/held.ts",
    "server/supply/outcome.ts",
    "server/supply/rates.ts",
  ],
  /** What an editor asks for beside a list: what stands of it while somebody types, and its fixes at a place. */
  edited: ["server/features/fixes.ts", "server/features/worst-first.ts", "server/rules/standing.ts"],
  /** A price list and its rows. */
  prices: ["server/supply/price-list.ts"],
  /** What `--help` says. */
  help: ["server/cli/help.ts"],
  /** A text laid out, and a sheet begun. */
  written: ["grammar/format.ts", "server/features/new-sheet.ts"],
};

/** What `options` builds has its parts apart: what each is to be written as, what went into it, and the plugin for the rest. */
export async function lateParts(options) {
  const root = options.absWorkingDir;
  const { metafile } = await build({ ...options, write: false, metafile: true });
  const graph = metafile.inputs;
  const doors = new Map(Object.entries(parts).flatMap(([part, files]) => files.map((file) => [file, part])));
  for (const file of doors.keys()) if (graph[file] === undefined) throw new Error(`${file} is the door of a part that is read late, and nothing needs it.`);
  const partsOf = filesOfParts(metafile, doors);
  const asked = await namesAsked(graph, root);
  const built = await Promise.all(Object.keys(parts).map((part) => partOf(part, partsOf, asked, options)));
  const plugin = {
    name: "late-parts",
    setup(build) {
      build.onLoad({ filter: /\.ts$/ }, ({ path }) => {
        const file = fileAt(path, root);
        const part = doors.get(file);
        return part === undefined ? undefined : { contents: stubsOf(readFileSync(path, "utf8"), file, part, calledOf(file, partsOf, asked)), loader: "js" };
      });
      build.onResolve({ filter: /^splitpin-late:/ }, ({ path }) => ({ path, namespace: "late-parts" }));
      build.onResolve({ filter: /^\.\/late-[\w-]+\.cjs$/ }, ({ path }) => ({ path, external: true }));
      build.onLoad({ filter: /.*/, namespace: "late-parts" }, ({ path }) => ({
        contents: built.find((it) => `splitpin-late:${it.part}` === path).loading,
        resolveDir: root,
      }));
    },
  };
  return { plugin, files: built };
}

/** Of each file that goes into a part, which: the doors, and what is reached through no others than its own. What two parts need stays where both find it. */
function filesOfParts({ inputs, outputs }, doors) {
  const entryPoints = Object.values(outputs).flatMap((it) => it.entryPoint ?? []);
  const staying = reached(entryPoints, inputs, (file) => doors.has(file));
  const partsOf = new Map();
  for (const part of new Set(doors.values())) {
    const own = [...doors.keys()].filter((file) => doors.get(file) === part);
    for (const file of reached(own, inputs, (it) => staying.has(it) || (doors.has(it) && doors.get(it) !== part)))
      partsOf.set(file, [...(partsOf.get(file) ?? []), part]);
  }
  return new Map([...partsOf].flatMap(([file, [part, ...others]]) => (others.length === 0 ? [[file, part]] : [])));
}

/** All that these files need, and they themselves, but what `isBeyond` says of. */
function reached(from, graph, isBeyond) {
  const found = new Set(from);
  for (const file of found) for (const { path } of graph[file]?.imports ?? []) if (graph[path] !== undefined && !isBeyond(path)) found.add(path);
  return found;
}

/** Of each file the names that others import from it, and which do. */
async function namesAsked(graph, root) {
  const asked = new Map();
  for (const file of Object.keys(graph).filter((it) => it.endsWith(".ts"))) {
    const { code } = await transform(readFileSync(root + file, "utf8"), { loader: "ts" });
    for (const [, all, names, from] of code.matchAll(/^(?:import|export) (?:\* as (\w+)|\{([^}]*)\}) from "([^"]+)";$/gm)) {
      const target = graph[file].imports.find((it) => it.original === from)?.path;
      if (target === undefined) continue;
      const ofTarget = asked.get(target) ?? new Map();
      const written =
        all === undefined
          ? names.split(",").map((it) => it.trim().split(" as ")[0])
          : [...code.matchAll(new RegExp(`(?<![\\w/.-])${all}\\.(\\w+)`, "g"))].map((it) => it[1]);
      for (const name of new Set(written.filter((it) => it !== ""))) ofTarget.set(name, [...(ofTarget.get(name) ?? []), file]);
      asked.set(target, ofTarget);
    }
  }
  return asked;
}

/** The functions of a door that are called from outside of its part. */
function calledOf(door, partsOf, asked) {
  return [...(asked.get(door) ?? [])].flatMap(([name, from]) => (from.some((it) => partsOf.get(it) !== partsOf.get(door)) ? [name] : [])).sort();
}

/** What stands in the place of a door: functions that hand on what they were given. */
function stubsOf(text, file, part, names) {
  const stubs = names.map((name) => {
    if (!new RegExp(`^export function\\*? ${name}\\b`, "m").test(text))
      throw new Error(`${file} is the door of a part that is read late: ${name} is no function of it.`);
    return `export function ${name}(...given) { return part().${name}(...given); }\n`;
  });
  return `import { part } from "splitpin-late:${part}";\n${stubs.join("")}`;
}

/** A part, as a file that is given what it needs of the rest; and what loads it. */
async function partOf(part, partsOf, asked, options) {
  const root = options.absWorkingDir;
  const isOwn = (file) => partsOf.get(file) === part;
  const needed = [...asked].flatMap(([file, names]) =>
    isOwn(file) ? [] : [...names].flatMap(([name, from]) => (from.some((it) => isOwn(it)) ? [{ file, name }] : [])),
  );
  const given = {
    name: "given",
    setup(build) {
      build.onResolve({ filter: /^\.{1,2}\// }, async ({ path, resolveDir, importer, kind, pluginData }) => {
        if (pluginData === given) return undefined;
        const found = await build.resolve(path, { resolveDir, importer, kind, pluginData: given });
        const file = fileAt(found.path, root);
        return isOwn(file) ? found : { path: file, namespace: "given" };
      });
      build.onLoad({ filter: /.*/, namespace: "given" }, ({ path }) => ({
        contents: needed.map(({ file, name }, i) => (file === path ? `export const ${name} = given[${i}];\n` : "")).join(""),
      }));
    },
  };
  const { outputFiles, metafile } = await build({
    ...options,
    entryPoints: undefined,
    stdin: { contents: parts[part].map((file) => `export { ${calledOf(file, partsOf, asked).join(", ")} } from "./${file}";\n`).join(""), resolveDir: root },
    outdir: undefined,
    chunkNames: undefined,
    splitting: false,
    write: false,
    format: "iife",
    globalName: "part",
    banner: { js: "module.exports=given=>{" },
    footer: { js: "return part};" },
    plugins: [given, ...options.plugins],
  });
  const [{ text }] = outputFiles;
  const name = `late-${part}-${createHash("sha256").update(text).digest("hex").slice(0, 8)}.cjs`;
  return {
    part,
    name,
    text,
    inputs: Object.keys(metafile.inputs),
    loading: `${needed.map((it, i) => `import { ${it.name} as given${i} } from "./${it.file}";\n`).join("")}let loaded;
export const part = () => (loaded ??= require("./${name}")([${needed.map((_, i) => `given${i}`).join(", ")}]));
`,
  };
}

function fileAt(path, root) {
  return path.slice(root.length).replaceAll("\\", "/");
}
