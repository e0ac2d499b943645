// Holds the direction of imports: from the doors down to the grammar, never up, never sideways between rooms of one floor but for types.
import { readFileSync, readdirSync } from "node:fs";
import { dirname, join, normalize } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

const root = fileURLToPath(new URL("../../", import.meta.url));

/** Floors from the ground up; rooms of one floor don't know each other. */
const floors: readonly (readonly string[])[] = [
  ["grammar"],
  ["server/quantities"],
  ["server/trade"],
  ["server/model"],
  ["server/story"],
  ["server/supply"],
  ["server/plan"],
  ["server/rules"],
  ["server/features", "server/reports"],
  ["server/service.ts"],
  ["server/disk"],
  ["server/lsp", "server/cli", "server/browser"],
  ["server"],
  ["client"],
];

/** A door asks the core by its service, and knows nothing further in of it: not even its types. Of the grammar it takes what a text is. */
const doors = ["server/lsp", "server/cli", "server/browser"];
const openToDoors = ["server/service.ts", "server/disk", "grammar"];
/** A file of its own for a page, which brings the solver and nothing else. */
const besides: Readonly<Record<string, string>> = { "server/browser/load-solver.ts": "server/supply/solver.ts" };

/** What a room may take from outside of the project; where nothing is said, nothing. */
const outside: Readonly<Record<string, RegExp>> = {
  grammar: /^chevrotain$/,
  "server/quantities": /^fraction\.js$/,
  "server/trade": /^fraction\.js$/,
  "server/reports": /^(?!node:|vscode)/,
  // Of the solver the core knows the types; the doors load it.
  "server/supply": /^highs$/,
  "server/disk": /^(node:|highs$)/,
  "server/browser": /^highs(\/|$)/,
  "server/cli": /^node:/,
  "server/lsp": /^(node:|vscode-languageserver|vscode-jsonrpc)/,
  server: /^node:/,
  client: /^(node:|vscode|vscode-languageclient\/)/,
};

interface Import {
  readonly file: string;
  readonly line: number;
  readonly target: string;
  readonly typesOnly: boolean;
}

const rooms = floors.flat();
const files = ["grammar", "server", "client"].flatMap((folder) =>
  readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts"))
    .map((name) => `${folder}/${name}`),
);
const imports = files.flatMap((file) => importsOf(file, readFileSync(join(root, file), "utf8")));

test("reads import lines of every form", () => {
  const text =
    'import { a } from "./a.ts";\nimport type { B } from "../b.ts";\nexport { c } from "./c.ts";\nimport {\n  type D,\n  type E,\n} from "./d.ts";\nconst f = await import("./f.ts");\nimport "./g.ts";\n';
  expect(importsOf("x/y.ts", text).map(({ line, target, typesOnly }) => [line, target, typesOnly])).toEqual([
    [1, "./a.ts", false],
    [2, "../b.ts", true],
    [3, "./c.ts", false],
    [4, "./d.ts", true],
    [8, "./f.ts", false],
    [9, "./g.ts", false],
  ]);
});

test("finds the project's files and their imports", () => {
  expect(files.length).toBeGreaterThan(20);
  expect(imports.length).toBeGreaterThan(files.length);
});

test("every file stands in a room", () => {
  expect(files.filter((file) => roomOf(file) === undefined)).toEqual([]);
});

test("imports point down", () => {
  expect(imports.flatMap(faultOf)).toEqual([]);
});

test("an import that points up, sideways or out of the house is caught", () => {
  const fault = (file: string, target: string, typesOnly = false) => faultOf({ file, line: 1, target, typesOnly }).length > 0;
  expect(fault("grammar/a.ts", "../server/model/job.ts")).toBe(true);
  expect(fault("server/rules/a.ts", "../reports/b.ts")).toBe(true);
  expect(fault("server/reports/a.ts", "../features/b.ts")).toBe(true);
  expect(fault("server/reports/a.ts", "../features/b.ts", true)).toBe(false);
  expect(fault("server/quantities/a.ts", "../../grammar/tree.ts")).toBe(true);
  expect(fault("server/quantities/a.ts", "../../grammar/tree.ts", true)).toBe(false);
  expect(fault("server/rules/a.ts", "node:fs")).toBe(true);
  expect(fault("client/a.ts", "../server/rules/check.ts")).toBe(true);
  expect(fault("client/a.ts", "../server/rules/check.ts", true)).toBe(true);
  expect(fault("client/a.ts", "../server/service.ts")).toBe(true);
  expect(fault("client/a.ts", "../server/service.ts", true)).toBe(false);
  expect(fault("server/cli/a.ts", "../rules/check.ts")).toBe(true);
  expect(fault("server/lsp/a.ts", "../reports/left/left.ts", true)).toBe(true);
  expect(fault("server/lsp/a.ts", "../supply/solver.ts")).toBe(true);
  expect(fault("server/browser/load-solver.ts", "../supply/solver.ts")).toBe(false);
  expect(fault("server/cli/a.ts", "../service.ts")).toBe(false);
  expect(fault("server/rules/a.ts", "../service.ts")).toBe(true);
  expect(fault("server/service.ts", "./disk/files.ts")).toBe(true);
});

test("the server takes of the library of servers its types alone, which is 100 KiB less at each start", () => {
  const values = imports.filter((it) => it.file.startsWith("server/") && /^vscode-languageserver($|\/)/.test(it.target) && !it.typesOnly);
  expect(values.map((it) => `${it.file}:${it.line}`)).toEqual([]);
});

const isRule = (path: string) => /^server\/rules\/\w+\/[\w-]+\.ts$/.test(path);
const ofRules = (all: readonly Import[]) =>
  all.filter(({ file, target }) => isRule(file) && isRule(normalize(join(dirname(file), target)))).map((it) => `${it.file}:${it.line}`);

test("a rule knows no other rule, and what two of them ask stands beside their rooms or in the model", () => {
  expect(files.filter(isRule).length).toBeGreaterThan(100);
  expect(ofRules(imports)).toEqual([]);
  const link = (target: string) => ({ file: "server/rules/limits/a.ts", line: 1, target, typesOnly: false });
  expect(ofRules([link("./b.ts"), link("../release/b.ts")]).length).toBe(2);
  expect(ofRules([link("../rule.ts"), link("../../model/job.ts")])).toEqual([]);
});

/** What a report may ask the rules: what is open and why, what stands against a piece, and the words that both use. What else two of them need belongs below both. */
const rulesForReports: readonly string[] = ["check", "failures", "open-groups", "slips", "stale", "verdict-words", "wording"];
/** Those that other programs take in name the rules themselves. */
const rulesForFormats: readonly string[] = [...rulesForReports, "all", "pages"];

function askedOfRules({ file, line, target, typesOnly }: Import): string[] {
  const name = /^server\/rules\/(.+)\.ts$/.exec(normalize(join(dirname(file), target)))?.[1];
  if (!file.startsWith("server/reports/") || name === undefined) return [];
  const isShape = typesOnly && !name.includes("/");
  return isShape || (file.startsWith("server/reports/check/") ? rulesForFormats : rulesForReports).includes(name) ? [] : [`${file}:${line}: ${name}`];
}

test("a report asks no rule, and of what stands beside them only what is named for it", () => {
  expect(imports.flatMap(askedOfRules)).toEqual([]);
  const asks = (target: string, typesOnly = false, room = "way-back") =>
    askedOfRules({ file: `server/reports/${room}/a.ts`, line: 1, target: `../../rules/${target}.ts`, typesOnly }).length > 0;
  expect(asks("energy/still-raised")).toBe(true);
  expect(asks("energy/still-raised", true)).toBe(true);
  expect(asks("moved")).toBe(true);
  expect(asks("rule", true)).toBe(false);
  expect(asks("wording")).toBe(false);
  expect(asks("all")).toBe(true);
  expect(asks("all", false, "check")).toBe(false);
});

test("no files import one another in a circle at run time", () => {
  expect(circlesIn(imports)).toEqual([]);
});

/** Rooms in which a shape is made of itself: the rows of words give the types of the lines that they are read into; what was said of a piece names moments, and a moment has pieces. */
const ofThemselves: readonly RegExp[] = [/^grammar\//, /^server\/story\/(story|lots)\.ts$/];

test("no files import one another in a circle for their types either", () => {
  const without = imports.filter(({ file }) => !ofThemselves.some((it) => it.test(file)));
  expect(circlesIn(without.map((it) => ({ ...it, typesOnly: false })))).toEqual([]);
});

test("a circle is caught, and one of types alone is none", () => {
  const link = (file: string, target: string, typesOnly = false) => ({ file, line: 1, target, typesOnly });
  expect(circlesIn([link("a/a.ts", "./b.ts"), link("a/b.ts", "../c/c.ts"), link("c/c.ts", "../a/a.ts"), link("c/c.ts", "./d.ts")])).toEqual([
    "a/a.ts → a/b.ts → c/c.ts → a/a.ts",
  ]);
  expect(circlesIn([link("a/a.ts", "./b.ts"), link("a/b.ts", "./a.ts", true)])).toEqual([]);
});

test("nothing is exported that nobody names", () => {
  const everywhere = ["grammar", "server", "client", "tests", ".ci"].flatMap((folder) =>
    readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
      .filter((name) => /\.(ts|mjs|js)$/.test(name) && !name.includes(".bundled"))
      .map((name) => readFileSync(join(root, folder, name), "utf8")),
  );
  const exported = files.flatMap((file) => exportsOf(readFileSync(join(root, file), "utf8")).map((name) => ({ file, name })));
  expect(exported.length).toBeGreaterThan(500);
  expect(unnamed(exported, everywhere).map(({ file, name }) => `${file}: ${name}`)).toEqual([]);
});

test("an export that nobody names is caught, and one that its own file names is none", () => {
  const text = "export function* a() {}\nexport const b = 1;\nexport type C = typeof b;\nexport async function d() {}\nexport default 3;\n";
  expect(exportsOf(text)).toEqual(["a", "b", "C", "d"]);
  expect(
    unnamed(
      exportsOf(text).map((name) => ({ file: "x.ts", name })),
      [text, "import { d } from './x.ts'"],
    ).map((it) => it.name),
  ).toEqual(["a", "C"]);
});

function exportsOf(text: string): string[] {
  return [...text.matchAll(/^export (?:async )?(?:function\*?|const|class|interface|type) (\w+)/gm)].map((it) => it[1] as string);
}

/** Those whose name stands once in all texts: where it is declared. */
function unnamed<T extends { readonly name: string }>(exported: readonly T[], texts: readonly string[]): T[] {
  const times = new Map<string, number>();
  for (const text of texts) for (const [word] of text.matchAll(/[\w$]+/g)) times.set(word, (times.get(word) ?? 0) + 1);
  return exported.filter(({ name }) => times.get(name) === 1);
}

/** Each circle once, told from the file of it that was come to first. */
function circlesIn(list: readonly Import[]): string[] {
  const next = new Map<string, string[]>();
  for (const { file, target, typesOnly } of list)
    if (!typesOnly && target.startsWith(".")) next.set(file, [...(next.get(file) ?? []), normalize(join(dirname(file), target))]);
  const done = new Set<string>();
  const out: string[] = [];
  const walk = (file: string, way: readonly string[]) => {
    const at = way.indexOf(file);
    if (at !== -1) out.push([...way.slice(at), file].join(" → "));
    if (at !== -1 || done.has(file)) return;
    for (const it of next.get(file) ?? []) walk(it, [...way, file]);
    done.add(file);
  };
  for (const file of next.keys()) walk(file, []);
  return out;
}

function faultOf({ file, line, target, typesOnly }: Import): string[] {
  const from = roomOf(file) as string;
  if (!target.startsWith(".")) {
    return outside[from]?.test(target) === true ? [] : [`${file}:${line} takes ${target}, which ${from} may not: what needs it belongs behind a door.`];
  }
  const path = normalize(join(dirname(file), target));
  const to = roomOf(path);
  if (to === undefined || to === from || path === "package.json") return [];
  // The client starts the server as a program, and knows no more of it than the shape of what it answers.
  if (from === "client" && typesOnly && to === "server/service.ts") return [];
  if (from === "client")
    return [`${file}:${line} takes ${path}: the client asks the server by the protocol, and imports of it the types of server/service.ts alone.`];
  // Figures and tables know nothing of sheets; the shape of one they may name.
  if (to === "grammar" && (from === "server/quantities" || from === "server/trade") && !typesOnly)
    return [`${file}:${line} takes ${path} at run time: ${from} may take types of the grammar only.`];
  if (doors.includes(from) && !openToDoors.includes(to) && besides[file] !== path)
    return [`${file}:${line} takes ${path}: a door asks server/service.ts, which hands on what doors need.`];
  const [low, high] = [floorOf(to), floorOf(from)];
  if (low < high) return [];
  if (low === high) return typesOnly ? [] : [`${file}:${line} takes ${path}: ${from} and ${to} stand on one floor, and only types may pass between them.`];
  return [`${file}:${line} takes ${path}: the arrow should go from ${to} down to ${from}.`];
}

function roomOf(file: string): string | undefined {
  return rooms.filter((room) => file === room || file.startsWith(`${room}/`)).sort((a, b) => b.length - a.length)[0];
}

function floorOf(room: string): number {
  return floors.findIndex((floor) => floor.includes(room));
}

function importsOf(file: string, text: string): Import[] {
  const out: Import[] = [];
  const lineAt = (index: number) => text.slice(0, index).split("\n").length;
  for (const match of text.matchAll(/^(?:import|export)\s+(type\s+)?([^;"']*?)\s*from\s+"([^"]+)"/gm)) {
    const names = match[2]
      ?.match(/^\{([^}]*)\}$/)?.[1]
      ?.split(",")
      .map((it) => it.trim())
      .filter((it) => it !== "");
    const typesOnly = match[1] !== undefined || (names !== undefined && names.length > 0 && names.every((it) => it.startsWith("type ")));
    out.push({ file, line: lineAt(match.index), target: match[3] as string, typesOnly });
  }
  for (const match of text.matchAll(/\bimport\(\s*"([^"]+)"\s*\)|^import\s+"([^"]+)"/gm)) {
    out.push({ file, line: lineAt(match.index), target: (match[1] ?? match[2]) as string, typesOnly: false });
  }
  return out.sort((a, b) => a.line - b.line);
}
