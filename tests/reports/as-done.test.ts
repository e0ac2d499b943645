// The sheet as it would stand with its planned steps done: written so line by line here, whether the steps are few or so many that the sheet is read anew.
import { expect, test } from "vitest";
import { runThrough } from "../../grammar/slices.ts";
import { textOf } from "../../grammar/sheet-text.ts";
import { takenAsDone } from "../../server/reports/way-back/as-done.ts";
import { filesFrom } from "./sheets.ts";
import { tell } from "../in-one-go.ts";

const end = { "\n": "LF", "\r\n": "CRLF", "\r": "CR" } as const;

for (const [newline, name] of Object.entries(end)) {
  test.each([3, 49, 50, 51, 400])(`%d planned steps, ${name}`, (n) => {
    const steps = Array.from({ length: n }, (_, i) => [`step s${i} "S"`, "  takes 1 h", ...(i % 3 === 0 && i < n - 1 ? ["# a word"] : [])]);
    const release = ["release by B", "  # to come"];
    const before = [...steps, release].map((it) => it.join(newline)).join(newline);
    const files = filesFrom({ "s.jobsheet": before });
    const done = runThrough(takenAsDone(files, "s.jobsheet", "step back\n  done", tell(files, "s.jobsheet")?.story));
    const after = done.files.read("s.jobsheet");
    if (typeof after === "string") throw new Error("never");

    // A comment below a step stands behind its `done`, and the steps that are put in before the release, with a blank line below and, behind a line that has words, above them.
    const whole = steps.map(([head = "", takes = "", ...more]) => [head, takes, "  done", ...more]);
    const expected = [...whole, ["", "step back", "  done", ""], release].flat();
    expect(textOf(after).split(/\r\n|\n|\r/)).toEqual(expected);

    // Each line that stands in the sheet leads back to itself, by its words; and one that is only written here nowhere.
    const lines = before.split(newline);
    const back = expected.map((_, i) => done.asItIs(i));
    expect(back.filter((it) => it !== undefined)).toEqual(lines.map((_, i) => i));
    for (const [i, it] of back.entries()) if (it !== undefined) expect(expected[i]).toBe(lines[it]);
  });
}
