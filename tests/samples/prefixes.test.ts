// A sheet half typed: whatever stands so far, checking it throws nothing, and what is said stands on what is there.
import { readFileSync, readdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { checkFile } from "../../server/rules/check.ts";
import { filesAround } from "../reread.ts";
import { sampleName, sampled, thinned } from "../sampled.ts";
import { releaseReport } from "../in-one-go.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const paths = ["samples", "tests/sheets"].flatMap((above) =>
  readdirSync(join(root, above), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".jobsheet"))
    .map((name) => join(above, name))
    .sort(),
);

test.each(thinned(paths, 2).map((path, nth) => [path, nth] as const))(`%s (${sampleName})`, (path, nth) => {
  const text = readFileSync(join(root, path), "utf8");
  const name = path.slice(dirname(path).length + 1);
  for (const end of sampled(ends(text, nth), 3)) {
    const typed = text.slice(0, end);
    const lines = typed.split(/\r\n|\n|\r/);
    const files = filesAround(join(root, path), typed);
    for (const it of checkFile(files, name)) {
      if (it.file !== name) continue;
      expect(it.line, `${it.rule} behind ${end} characters`).toBeLessThan(lines.length);
      expect(it.from, `${it.rule} behind ${end} characters`).toBeLessThanOrEqual((lines[it.line] as string).length);
    }
    if (end % 5 === 0) releaseReport(files, name);
  }
});

/** Some sixty cuts a sheet: at the end of a line, within one, right behind its first word, by turns; another sheet begins with another of them, or a sample would be all of one. */
function ends(text: string, nth: number): number[] {
  const cuts: number[] = [];
  const lines = text.split("\n");
  const stride = Math.ceil(lines.length / 60);
  let from = 0;
  for (const [i, line] of lines.entries()) {
    const kind = (Math.floor(i / stride) + nth) % 3;
    const within = kind === 0 ? line.length : kind === 1 ? Math.ceil(line.length / 2) : (/^\s*\S+/.exec(line)?.[0].length ?? 0);
    if (i % stride === 0) cuts.push(from + within);
    from += line.length + 1;
  }
  return cuts;
}
