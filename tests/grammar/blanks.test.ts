// What is left blank: read wherever a name, a figure, a text or a date may stand, and in no field of any node.
import { describe, expect, it } from "vitest";
import { unsaid } from "../../grammar/blanks.ts";
import { formatSheet } from "../../grammar/format.ts";
import { factsKey, readSheet } from "../../grammar/sheet-text.ts";
import { tokensOf } from "../../grammar/lexer.ts";
import { DateToken, TextToken, Word, figureToken } from "../../grammar/tokens.ts";
import type { Entry } from "../../grammar/tree.ts";
import { actionWords, detailWords, entryWords } from "../../grammar/words.ts";
import { detailIn, faultsIn, fixedLine, withoutColumns } from "./reading.ts";

const heads: Readonly<Record<string, string>> = Object.fromEntries(entryWords.map((it) => [it.word, it.example.split("\n")[0] as string]));
const at = (text: string, part: string) => ({ from: text.indexOf(part), to: text.indexOf(part) + part.length });

/** A line with each of its names, figures, texts and dates left blank in turn. Words of the language that are no names stay. */
function leftBlank(line: string): string[] {
  const { tokens } = tokensOf(line);
  return tokens.slice(1).flatMap((it, i) => {
    if (units.has(it.image) && figureToken(tokens[i])) return [];
    const open = figureToken(it) || it.tokenType === TextToken || it.tokenType === DateToken || it.tokenType === Word;
    return open ? [`${line.slice(0, it.startOffset)}___${line.slice(it.startOffset + it.image.length)}`] : [];
  });
}

const units = new Set(["in", "mm", "h", "mi", "kg", "l", "ml", "d", "min", "m", "degC"]);
/** Words that choose between shapes, and words of which two make one: a blank can't stand for either. */
const chooses =
  /^(torque|locked|retained) ___|^(received .*|item|stock|offer) (___ pin|split ___)|(locked by|with) (split|___) (___|pin)|retained by (___ clip|R ___)|BSF|UNF|= /;

const lines: [string, string | undefined][] = [
  ...entryWords.map((it): [string, undefined] => [it.example.split("\n")[0] as string, undefined]),
  ...detailWords.map((it): [string, string] => [it.example, heads[it.under === "any" ? "part" : (it.under[0] as string)] as string]),
  ...actionWords.map((it): [string, string] => [it.example, heads.step as string]),
];

describe("a blank may stand for any name, figure, text or date", () => {
  const blanked = lines.flatMap(([line, under]) => leftBlank(line).map((it): [string, string | undefined] => [it, under]));
  it.each(blanked.filter(([line]) => !chooses.test(line)))("%s", (line, under) => {
    const node = under === undefined ? (readSheet(line).entries[0] as Entry) : detailIn(under, line);
    expect(node.fault).toBeUndefined();
    expect(node.blanks).toEqual([under === undefined ? at(line, "___") : at(`  ${line}`, "___")]);
    expect(JSON.stringify({ ...node, written: undefined })).not.toContain("___");
    expect(unsaid(node)).toBe(true);
  });
});

describe("the field that a blank stands in is absent, and what stands beside it is kept", () => {
  const read = (under: string, line: string) => JSON.parse(JSON.stringify(withoutColumns(detailIn(heads[under] as string, line))));
  it.each<[string, string, object]>([
    ["step", "fit ___", { verb: "fit", things: [], places: [] }],
    ["step", "fit hub, ___ left", { things: [{ name: { text: "hub" } }], places: [{ text: "left" }] }],
    ["step", "fit hub ___ left", { things: [{ name: { text: "hub" } }], places: [{ text: "left" }] }],
    ["step", "tighten hub-nut to ___ by wrench", { by: { text: "wrench" } }],
    ["step", "tighten hub-nut to ___ lbf.ft", { things: [{ name: { text: "hub-nut" } }] }],
    ["step", 'safe spring "___"', { verb: "safe", things: [{ name: { text: "spring" } }] }],
    ["step", 'safe spring " _____ "', { verb: "safe" }],
    ["step", "lock hub-nut with ___", { verb: "lock" }],
    ["limit", "worn max ___", {}],
    ["limit", "new ___ .. 2 mm", {}],
    ["limit", "= a - ___", {}],
    ["measure", "___", { words: [], figures: [] }],
    // The unit at the end would have served both.
    ["measure", "left 0.3, ___ mm", { words: [{ text: "left" }], figures: [] }],
    ["finding", "is worn, low ___", { conditions: [{ kind: "worn" }, { kind: "low" }] }],
    ["finding", "decision ___", {}],
    ["finding", "decision make ___", { decision: "make" }],
    ["order", "status received ___", { status: "received" }],
    ["order", "item split pin 1/8 x ___ in 12", {}],
    ["offer", "price ___", {}],
    ["shims", "have 0.1 mm x ___, 0.2 mm x 3", { stacks: [{ thickness: { figure: { text: "0.1" } } }, { thickness: {}, count: { text: "3" } }] }],
  ])("%s: %s", (under, line, wanted) => {
    const { kind: _kind, row: _row, keyword: _keyword, blanks, word: _word, ...rest } = read(under, line);
    expect(blanks).toHaveLength(1);
    const tidy = { ...rest };
    if ("conditions" in tidy) tidy.conditions = tidy.conditions.map((it: { kind: string }) => ({ kind: it.kind }));
    expect(tidy).toMatchObject(wanted);
    for (const field of ["to", "text", "with", "range", "expression", "date", "item", "money", "decision", "how"])
      if (!(field in wanted)) expect(tidy[field]).toBeUndefined();
  });
  it("heads too, and their details stay theirs", () => {
    const [entry] = readSheet("measure ___ final by ___\n  left ___ in\n  right 0.1 in\n").entries as [Entry];
    expect(entry).toMatchObject({ kind: "measure", stage: "final", blanks: [at("measure ___", "___"), { from: 21, to: 24 }] });
    expect(entry.details).toHaveLength(2);
    expect("limit" in entry || "by" in entry).toBe(false);
    expect(readSheet("seen cone-seat final ___").entries[0]).not.toHaveProperty("verdict");
    expect(readSheet("release by ___ ___ at ___ mi").entries[0]).toMatchObject({ kind: "release", blanks: [{}, {}, {}] });
  });
  it("filled in, a sheet is another one", () => {
    const key = (text: string) => factsKey(readSheet(text).entries[0] as Entry);
    expect(key("step a\n  fit ___")).not.toBe(key("step a\n  fit hub"));
  });
  it("is set out as any other word", () => {
    expect(formatSheet("step a\n tighten  nut   to ___   by  ___\n")).toBe("step a\n  tighten nut to ___ by ___\n");
  });
});

describe("what is no blank", () => {
  it.each<[string, string, string[]]>([
    ["fit __", "A blank is three underscores: ___.", ["fit ___"]],
    ["fit _", "A blank is three underscores: ___.", ["fit ___"]],
    ["fit hub___nut", "A name's words are joined by hyphens: hub-nut.", ["fit hub-nut"]],
    ["fit ___nut", "A name's words are joined by hyphens: nut.", ["fit nut"]],
  ])("%s", (line, says, fixed) => {
    const faults = faultsIn(`step a\n  ${line}`);
    expect(faults.map((it) => it.fault.message)).toEqual([says]);
    expect(detailIn("step a", line).blanks).toBeUndefined();
    expect(faults.flatMap((it) => it.fault.fixes.map((fix) => fixedLine(`  ${line}`, fix).trim()))).toEqual(fixed);
  });
  it("a text with words in it", () => {
    expect(detailIn("step a", 'safe spring "___ clamp"')).toMatchObject({ text: { value: "___ clamp" } });
    expect(detailIn("step a", 'safe spring "___ clamp"').blanks).toBeUndefined();
  });
});
