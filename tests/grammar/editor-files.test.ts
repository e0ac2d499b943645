// What editors are given: not stale, and the colours that it gives, told by the tokenizer that VS Code itself uses.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import oniguruma from "vscode-oniguruma";
import textmate from "vscode-textmate";
import { languageConfiguration, textMateGrammar, withTables } from "../../grammar/editor-files.ts";
import { unitsByMeasure } from "../../server/quantities/units.ts";
import { actionWords, conditions, detailWords, entryWords, lockings } from "../../grammar/words.ts";
import { samples } from "./sheets.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const file = (path: string) => readFileSync(`${root}${path}`, "utf8");
let grammar: textmate.IGrammar;

beforeAll(async () => {
  const wasm = createRequire(import.meta.url).resolve("vscode-oniguruma/release/onig.wasm");
  await oniguruma.loadWASM({ data: readFileSync(wasm) });
  const registry = new textmate.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: async () => textmate.parseRawGrammar(file("grammar/jobsheet.tmLanguage.json"), "jobsheet.tmLanguage.json"),
  });
  grammar = (await registry.loadGrammar("source.jobsheet")) as textmate.IGrammar;
});

/** The pieces of a line with the innermost scope of each, blanks left out. */
function coloured(line: string): [string, string][] {
  return grammar
    .tokenizeLine(line, textmate.INITIAL)
    .tokens.map((it): [string, string] => [line.slice(it.startIndex, it.endIndex).trim(), (it.scopes.at(-1) as string).replace(/\.jobsheet$/, "")])
    .filter(([text]) => text !== "");
}
const colourOf = (line: string, piece: string) => coloured(line).find(([text]) => text === piece)?.[1];

describe("files made from the table of words", () => {
  it.each<[string, () => string]>([
    ["grammar/jobsheet.tmLanguage.json", () => `${JSON.stringify(textMateGrammar(), undefined, 2)}\n`],
    ["grammar/language-configuration.json", () => `${JSON.stringify(languageConfiguration(), undefined, 2)}\n`],
    ["grammar/REFERENCE.md", () => withTables(file("grammar/REFERENCE.md"), unitsByMeasure())],
  ])("%s is not stale (npm run generate)", (path, made) => {
    expect(file(path)).toBe(made());
  });
  it("each pattern of the language configuration compiles, and a name is one word", () => {
    const { wordPattern, indentationRules } = languageConfiguration() as {
      wordPattern: { pattern: string; flags: string };
      indentationRules: Record<string, string>;
    };
    expect("hub-nut bride-arrière 1-1/4 0.005".match(new RegExp(wordPattern.pattern, `g${wordPattern.flags}`))).toEqual([
      "hub-nut",
      "bride-arrière",
      "1-1/4",
      "0.005",
    ]);
    for (const it of entryWords) expect(new RegExp(indentationRules.increaseIndentPattern as string).test(it.example.split("\n")[0] as string)).toBe(true);
    expect(new RegExp(indentationRules.increaseIndentPattern as string).test("  held by nut")).toBe(false);
    const goesBack = new RegExp(indentationRules.decreaseIndentPattern as string);
    expect(["  finding ", "  step strip", "    part hub"].every((it) => goesBack.test(it))).toBe(true);
    expect(["finding hub", "  finding", "  held by nut", "  note finding", "  findings "].some((it) => goesBack.test(it))).toBe(false);
    // A word that begins a detail too stays where it is written.
    for (const { word } of detailWords) expect(goesBack.test(`  ${word} x`)).toBe(false);
  });
});

describe("colours", () => {
  it.each(entryWords)("$word starts an entry", ({ word, example }) => {
    expect(colourOf(example.split("\n")[0] as string, word)).toBe("keyword.control.entry");
  });
  it.each(detailWords.filter((it) => !actionWords.some((verb) => verb.word === (it.word as string))))("$word starts a detail", ({ word, example }) => {
    expect(coloured(`  ${example}`)[0]).toEqual([word, "keyword.other.detail"]);
  });
  it.each(actionWords)("$word is an action", ({ word, example }) => {
    expect(coloured(`  ${example}`)[0]).toEqual([word, "support.function.action"]);
  });
  it.each(conditions)("$word is a condition", ({ word }) => {
    expect(colourOf(`  is worn, ${word}`, word)).toBe("constant.language.condition");
  });
  it.each(lockings)("$kind is a locking", ({ words, syntax }) => {
    for (const it of words) expect(colourOf(`  locked by ${syntax.replace(words[0] as string, it)}`, it)).toBe("support.type.locking");
  });
  it.each<[string, [string, string][]]>([
    [
      'part hub-nut "Hub # nut" # why',
      [
        ["part", "keyword.control.entry"],
        ["hub-nut", "entity.name.type"],
        ['"', "string.quoted.double"],
        ["Hub # nut", "string.quoted.double"],
        ['"', "string.quoted.double"],
        ["# why", "comment.line.number-sign"],
      ],
    ],
    [
      "  torque 25 .. 30 lbf.ft dry K 0.2",
      [
        ["torque", "keyword.other.detail"],
        ["25", "constant.numeric"],
        ["..", "keyword.operator"],
        ["30", "constant.numeric"],
        ["lbf.ft", "keyword.other.unit"],
        ["dry", "constant.language"],
        ["K", "source"],
        ["0.2", "constant.numeric"],
      ],
    ],
    [
      "  thread 5/8-18 UNF LH",
      [
        ["thread", "keyword.other.detail"],
        ["5/8-18 UNF", "constant.other.thread"],
        ["LH", "constant.language"],
      ],
    ],
    [
      "  thread M10x1.25",
      [
        ["thread", "keyword.other.detail"],
        ["M10x1.25", "constant.other.thread"],
      ],
    ],
    [
      "  left again 1-1/4, .005 in",
      [
        ["left", "source"],
        ["again", "keyword.operator.word"],
        ["1-1/4", "constant.numeric"],
        [",", "keyword.operator"],
        [".005", "constant.numeric"],
        ["in", "keyword.other.unit"],
      ],
    ],
    [
      "  tighten nut left to 95 N·m by wrench",
      [
        ["tighten", "support.function.action"],
        ["nut left", "source"],
        ["to", "keyword.operator.word"],
        ["95", "constant.numeric"],
        ["N·m", "keyword.other.unit"],
        ["by", "keyword.operator.word"],
        ["wrench", "source"],
      ],
    ],
    [
      "day 2026-04-11",
      [
        ["day", "keyword.control.entry"],
        ["2026-04-11", "constant.numeric.date"],
      ],
    ],
    ["part-worn thing", [["part-worn thing", "source"]]],
    [
      "  remove lock-plate-31 2",
      [
        ["remove", "support.function.action"],
        ["lock-plate-31", "source"],
        ["2", "constant.numeric"],
      ],
    ],
    [
      "  = mean(a, b) - 2 mm",
      [
        ["=", "keyword.other.detail"],
        ["mean", "support.function"],
        ["(", "keyword.operator"],
        ["a", "source"],
        [",", "keyword.operator"],
        ["b", "source"],
        [")", "keyword.operator"],
        ["-", "keyword.operator"],
        ["2", "constant.numeric"],
        ["mm", "keyword.other.unit"],
      ],
    ],
  ])("%s", (line, wanted) => {
    expect(coloured(line)).toEqual(wanted);
  });
  it("no line colours the next", () => {
    // A line is coloured by its own text alone: one that stands in many sheets is asked once.
    for (const line of new Set(samples.flatMap(({ text }) => text.split(/\r\n|\n|\r/)))) {
      const { ruleStack } = grammar.tokenizeLine(line, textmate.INITIAL);
      if (!ruleStack.equals(textmate.INITIAL) && ruleStack.depth !== 1) expect.fail(line);
    }
    expect(grammar.tokenizeLine('  note "not closed', textmate.INITIAL).ruleStack.depth).toBe(1);
  });
});
