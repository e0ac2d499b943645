// Takes out of the program the texts of its tables that only a person asks for: how a word is written and what it says, and the help of a report. They stand in a file of their own,
// which is read when the first of them is asked for. In the sources a row has its texts all the same.
// Invariant: only where the texts stand changes. They are moved as they are written, and what is written otherwise than as a text fails the build.
import { createHash } from "node:crypto";
import { readFileSync, readdirSync } from "node:fs";
import { withoutExamples } from "./lighter.mjs";

const text = `${String.raw`(?:'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"|`}\`(?:[^\`\\\\$]|\\\\.)*\`)`;
const ofWords = new RegExp(String.raw`\b(syntax|says):\s*(${text}),?`, "g");
const ofReport = new RegExp(String.raw`^ {2}help: (${text}),\n`, "m");
/** The table of a file of words, by the name that its rows stand under. */
const table = /^(?:export )?const (\w+) = \[$/gm;

/** The plugin, the file with the texts as it is to be written, and the row of a report without its help, by its path. */
export function lateTexts(root) {
  const words = readdirSync(`${root}grammar/words`).flatMap((file) => {
    if (!file.endsWith("-words.ts")) return [];
    const cut = wordsApart(`${root}grammar/words/${file}`);
    return cut === undefined ? [] : [[file, cut]];
  });
  const reports = readdirSync(`${root}server/reports`, { withFileTypes: true }).flatMap((it) =>
    it.isDirectory() && readdirSync(`${root}server/reports/${it.name}`).includes("report.ts")
      ? [[it.name, helpApart(`${root}server/reports/${it.name}/report.ts`)]]
      : [],
  );
  const texts = [...words, ...reports].map(([name, { texts }]) => `${JSON.stringify(name)}: ${texts}`);
  const contents = `module.exports = {\n${texts.join(",\n")}\n};\n`;
  const name = `late-texts-${createHash("sha256").update(contents).digest("hex").slice(0, 8)}.cjs`;
  const restOfWords = new Map(words.map(([file, { rest }]) => [file, rest]));
  const restOfReports = new Map(reports.map(([of, { rest }]) => [of, rest]));
  const plugin = {
    name: "late-texts",
    setup(build) {
      build.onLoad({ filter: /[\\/]grammar[\\/]words[\\/][\w-]+-words\.ts$/ }, ({ path }) => {
        const contents = restOfWords.get(path.split(/[\\/]/).at(-1));
        return contents === undefined ? undefined : { contents, loader: "ts" };
      });
      build.onResolve({ filter: /^splitpin-late-texts$/ }, ({ path }) => ({ path, namespace: "late-texts" }));
      build.onResolve({ filter: /^\.\/late-texts-\w+\.cjs$/ }, ({ path }) => ({ path, external: true }));
      build.onLoad({ filter: /.*/, namespace: "late-texts" }, () => ({ contents: reading(name), resolveDir: root }));
    },
  };
  return { plugin, name, contents, rowAt: (path) => restOfReports.get(path.split(/[\\/]/).at(-2)) };
}

/** What gives the rows of a table their texts, and a report its help, from the file that has them. A row is handed on, and never copied: its texts stand behind it. */
function reading(name) {
  return `let read;
export const texts = () => (read ??= require("./${name}"));
export function givenTexts(rows, file) {
  const of = (row) => texts()[file][rows.indexOf(row)];
  const behind = { get syntax() { return of(this).syntax; }, get says() { return of(this).says; } };
  for (const row of rows) Object.setPrototypeOf(row, behind);
}
`;
}

/** A file of words without the texts of its rows, and these, a row each; undefined where it has no table of its own. */
function wordsApart(path) {
  const whole = withoutExamples(readFileSync(path, "utf8"), path);
  const tables = [...whole.matchAll(table)];
  if (tables.length === 0) return undefined;
  const found = [...whole.matchAll(ofWords)];
  const isInTurn = found.length % 2 === 0 && found.every(([, name], i) => name === (i % 2 === 0 ? "syntax" : "says"));
  const left = whole.replace(ofWords, "");
  if (tables.length > 1 || !isInTurn || /\b(?:syntax|says):(?! string;)/.test(left))
    throw new Error(`${path}: how a word is written and what it says stand in its row one behind the other, each as one text.`);
  const rows = found.flatMap(([, , syntax], i) => (i % 2 === 0 ? [`{ syntax: ${syntax}, says: ${found[i + 1][2]} }`] : []));
  const rest = `import { givenTexts } from "splitpin-late-texts";\n${left}\ngivenTexts(${tables[0][1]}, ${JSON.stringify(path.split("/").at(-1))});\n`;
  return { rest, texts: `[\n${rows.join(",\n")}\n]` };
}

/** The row of a report without its help, and that. */
function helpApart(path) {
  const whole = readFileSync(path, "utf8");
  const [line, help] = ofReport.exec(whole) ?? [];
  if (line === undefined) throw new Error(`${path}: the help of a report is written as one text.`);
  const name = JSON.stringify(path.split("/").at(-2));
  return { rest: `import { texts } from "splitpin-late-texts";\n${whole.replace(line, () => `  get help() { return texts()[${name}]; },\n`)}`, texts: help };
}
