// The way back of every sample and every released sheet, cut off behind each entry: what is written adds no error of its own, and asked again it is silent.
// Where the strip was orderly, what is fitted is its mirror.
import { readFileSync, readdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { runThrough } from "../../grammar/slices.ts";
import { writingBack } from "../../server/reports/way-back/edit.ts";
import { type Diagnostic, checkFile } from "../../server/rules/check.ts";
import { filesAround } from "../reread.ts";
import { sampleName, sampled, thinned } from "../sampled.ts";
import { wayBack } from "../in-one-go.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const sheets = [...sheetsIn("samples"), ...sheetsIn("tests/sheets")].filter((path) => {
  const text = readFileSync(path, "utf8");
  const sample = path.startsWith(join(root, "samples")) && /^sheet /m.test(text);
  return sample || (/^release /m.test(text) && !text.includes("release-blocked"));
});

/** Said of a line that waits for the parcel, the answer or the day that the cut-off sheet does not know yet. */
const waits: ReadonlySet<string> = new Set(["step-too-early", "part-away", "question-open"]);

describe(`cut off behind each entry (${sampleName})`, () => {
  test("there are some", () => expect(sheets.length).toBeGreaterThan(10));
  test.each(thinned(sheets, 7).map((path) => [path.slice(root.length), path] as const))(
    "%s",
    async (_, path) => {
      const lines = readFileSync(path, "utf8").split("\n");
      const failed: string[] = [];
      const cuts = lines.flatMap((line, i) => (i > 0 && /^(step|release)\b/.test(line) ? [{ i, line }] : []));
      for (const { i, line } of sampled(cuts, 3)) {
        await new Promise<void>((done) => setImmediate(done));
        const text = `${lines.slice(0, i).join("\n").trimEnd()}\n`;
        const cutOff = filesAround(path, text);
        const insert = runThrough(writingBack(cutOff, base(path)))?.insert;
        if (insert === undefined) continue;
        const planned = `${text}${insert.text}`;
        const before = checkFile(cutOff, base(path));
        const had = new Set(errorsOf(before).map((it) => `${it.rule} ${it.line}`));
        // Cut off between two readings that can't both be so, the sheet doesn't say whether the piece is good: what goes back is then its writer's to say.
        const unclear = before.some((it) => it.rule === "reading-contradicts");
        const put = filesAround(path, planned);
        for (const it of errorsOf(checkFile(put, base(path))))
          if (!had.has(`${it.rule} ${it.line}`) && !waits.has(it.rule) && !(unclear && it.rule === "part-condemned"))
            failed.push(`${i + 1} ${line}: ${it.rule} ${it.message} | ${planned.split("\n")[it.line]}`);
        const again = runThrough(writingBack(put, base(path)))?.insert;
        if (again !== undefined) failed.push(`${i + 1} ${line}: asked again it writes ${again.text.split("\n").slice(0, 6).join(" / ")}`);
      }
      expect(failed).toEqual([]);
    },
    120_000,
  );
});

describe("the mirror of an orderly strip", () => {
  const strip = `sheet "A"
part a "A"
part b "B"
part c "C"
part d "D"
part e "E"
`;
  // Nothing is said of what is in front of what: the order in which they really came off is all that there is.
  test.each([["a b c d e"], ["e d c b a"], ["c a e b d"], ["b e a d c"]])("%s", (order) => {
    const names = order.split(" ");
    const text = `${strip}${names.map((it, i) => `step off-${i}\n  remove ${it}\n  done\n`).join("")}`;
    const fitted = wayBack(filesAround("x/a.jobsheet", text), "a.jobsheet")?.entries.flatMap((it) =>
      it.kind === "step" ? it.lines.map((line) => line.text) : [],
    );
    expect(fitted).toEqual([...names].reverse().map((it) => `fit ${it}`));
  });
});

describe("what is condemned never goes back", () => {
  const fitted = (text: string) =>
    wayBack(filesAround("x/a.jobsheet", `sheet "A"\n${text}`), "a.jobsheet")?.entries.flatMap((it) =>
      it.kind === "step" ? it.lines.map((line) => [line.text, ...(line.note === undefined ? [] : [line.note])].join("  # ")) : [],
    );
  const two = (decision: string) => `part pin "Pin"
  qty 2
  critical "the saw"
step off "Off"
  remove pin 2
  done
finding pin 1
  is sheared
  ${decision}
finding pin 1
  is serviceable
`;
  test("a critical piece that was discarded is fitted new, with the one that is renewed", () =>
    expect(fitted(`${two("decision renew").trimEnd()}\n  decision discard\n`)).toEqual(["fit pin new  # found sheared, to be renewed"]));
  test("of two, one is to be made and waits in a blank, and the other is counted", () =>
    expect(fitted(two(`decision make "from key steel"`))).toEqual(["fit ___  # pin 1 new: made from key steel", "fit pin 1"]));
  test("of two, one is renewed, and the other is counted", () =>
    expect(fitted(two("decision renew"))).toEqual(["fit pin 1 new  # found sheared, to be renewed", "fit pin 1"]));
  test("a bolt that is to be made is tightened and locked in blanks, as the others are", () => {
    const bolt = `fastener bolt "Bolt"
  qty 2
  torque 10 .. 20 N.m
  locked by split pin 2 x 20 mm
  source "the maker's card"
  critical "the saw"
step off "Off"
  undo bolt 2
  done
finding bolt 1
  is sheared
  decision make "from key steel"
`;
    expect(fitted(bolt)?.filter((it) => it.includes("___"))).toEqual([
      "fit ___  # bolt 1 new: made from key steel",
      "tighten ___  # bolt 1 to 15 N.m: made from key steel",
      "lock ___  # bolt 1 new: that one too",
    ]);
  });
});

function errorsOf(list: readonly Diagnostic[]) {
  return list.filter((it) => it.severity === "error");
}

function base(path: string): string {
  return path.slice(dirname(path).length + 1);
}

function sheetsIn(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".jobsheet"))
    .map((name) => join(root, folder, name))
    .sort();
}
