// The way back of every job that was released: of the whole it is empty; cut off before each step, written, marked done with its readings and looks, nothing of the
// work is left. Of what is still open then no row is the way back's to write: an answer, a parcel, a decision, a figure.
import { readFileSync, readdirSync } from "node:fs";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { runThrough } from "../../grammar/slices.ts";
import { fromBase } from "../../server/quantities/units.ts";
import { bandOf } from "../../server/model/values.ts";
import type { Job } from "../../server/model/job.ts";
import { writingBack } from "../../server/reports/way-back/edit.ts";
import { filesAround } from "../reread.ts";
import { isRun, sampleName, sampled, thinned } from "../sampled.ts";
import { markedDone } from "./marked-done.ts";
import { releaseReport, tell, wayBack } from "../in-one-go.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
/** What is released, and the way back of the whole: asked of the same job. */
const released = thinned([...sheetsIn(join(root, "samples")), ...sheetsIn(join(root, "tests/sheets"))], 7).flatMap((path) => {
  const text = readFileSync(path, "utf8");
  if (!/^release /m.test(text) || text.includes("release-blocked")) return [];
  const files = filesAround(path, text);
  return releaseReport(files, basename(path))?.released === true ? [{ path, back: wayBack(files, basename(path))?.sheet }] : [];
});
const sheets = released.map((it) => it.path);

/** What the way back is there to write: work, and the readings and looks that it asks for. */
const work: ReadonlySet<string> = new Set([
  "critical-unread",
  "fluid-left-out",
  "found-loose",
  "hazard-left-safe",
  "locking-left-off",
  "part-left-over",
  "part-missing",
  "reading-missing",
  "reading-stale",
  "received-unfitted",
  "repair-unchecked",
  "restored-open",
  "run-dry",
  "slackened-to-lock",
  "still-for-now",
  "still-raised",
]);

/** What is asked of one place only when its fellow has been read: what the way back writes is asked for once, with nothing read yet. By sheet, the limit that is left out. */
const asksOnceRead: Readonly<Record<string, string>> = {
  "tests/sheets/fresh12/show-engine.jobsheet": "Bush on its arm",
  "tests/sheets/plain-bearing-lathe/plain-headstock.jobsheet": "spindle lift at each bearing",
};

test("there are some", () => expect(sheets.length).toBeGreaterThan(isRun ? 40 : 5));

test.each(released.map(({ path, back }) => [path.slice(root.length), back] as const))("%s: released, nothing is missing", (_, back) => expect(back).toBe(""));

describe(`cut off before each step (${sampleName})`, () => {
  test.each(sheets.map((path) => [path.slice(root.length), path] as const))(
    "%s",
    async (_, path) => {
      const text = withoutCarets(readFileSync(path, "utf8"));
      const lines = text.split("\n");
      const job = tell(filesAround(path, text), basename(path))?.job as Job;
      const figures = figuresOf(lines, job);
      const release = text.slice(text.indexOf("\nrelease ") + 1);
      const day = /^release .*?(\d{4}-\d\d-\d\d)/m.exec(text)?.[1];
      const failed: string[] = [];
      const cuts = lines.flatMap((line, i) => (i > 0 && /^step\b/.test(line) ? [i] : []));
      const left = asksOnceRead[path.slice(root.length)];
      for (const i of sampled(cuts, 3)) {
        await new Promise<void>((done) => setImmediate(done));
        const cut = `${lines.slice(0, i).join("\n").trimEnd()}\n${day === undefined ? "" : `day ${day}\n`}`;
        const insert = runThrough(writingBack(filesAround(path, cut), basename(path)))?.insert;
        const open = (rest: string) => releaseReport(filesAround(path, `${cut}${rest}\n${release}`), basename(path))?.open ?? [];
        // What was left hanging, or let down too soon, in the lines above the cut is not the way back's.
        for (const it of open(markedDone(insert?.text ?? "", figures)))
          if (work.has(it.rule) && !(left !== undefined && it.message.includes(left))) failed.push(`${i + 1} ${lines[i]}: ${it.line} ${it.rule} ${it.message}`);
      }
      expect(failed).toEqual([]);
    },
    240_000,
  );
});

/** The expectation comments under lines are no lines of the sheet. */
function withoutCarets(text: string): string {
  return text
    .split("\n")
    .filter((line) => !/^#\s*\^/.test(line))
    .join("\n");
}

/** What the job itself read at the end, or as it was found, by limit, place and position; of what it never read, the middle of what it may be. */
function figuresOf(lines: readonly string[], job: Job): Record<string, string> {
  const out: Record<string, string> = {};
  for (const thing of job.things.values()) {
    if (thing.kind !== "limit") continue;
    const band = [thing.set, thing.new, thing.worn].map(bandOf).find((it) => it !== undefined);
    if (band === undefined) continue;
    const end = (it: typeof band.low) => (it === undefined ? undefined : Number(fromBase(it, band.unit).valueOf()));
    const [low, high] = [end(band.low), end(band.high)];
    const middle = low !== undefined && high !== undefined ? (low + high) / 2 : low !== undefined ? low * 1.05 + 1 : (high as number) / 2;
    out[thing.name] = `${+middle.toFixed(5)} ${band.unit.spelling}`;
  }
  for (const stage of ["found", "final"]) {
    let limit = "";
    for (const line of lines) {
      const head = /^measure (\S+) (\S+)/.exec(line);
      if (/^\S/.test(line)) limit = head?.[2] === stage ? (head[1] as string) : "";
      const said = /^\s+((?:\p{L}[^\s,]*\s+){0,2})((?!again)[\d.-][^#]*)/u.exec(line);
      if (limit === "" || head !== null || said === null) continue;
      const key = `${limit} ${(said[1] as string).trim().replace(/\s+/g, " ")}`.trim();
      out[key] = (said[2] as string).trim();
    }
  }
  return out;
}

function sheetsIn(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((it) =>
    it.isDirectory() ? sheetsIn(join(folder, it.name)) : it.name.endsWith(".jobsheet") ? [join(folder, it.name)] : [],
  );
}
