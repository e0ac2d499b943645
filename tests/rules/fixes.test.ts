// Fixes on damaged sheets: what is offered does what it says, and never makes a readable line unreadable.
// The damage is seeded, so that a failure comes again.
import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { written as rules } from "../../server/rules/all.ts";
import { apply, said, sheetName } from "./sheets.ts";

const folder = fileURLToPath(new URL("../sheets/small/", import.meta.url));
const texts = readdirSync(folder)
  .filter((file) => file.endsWith(".jobsheet"))
  .sort()
  .map((file) => readFileSync(folder + file, "utf8"));
const written = new Set([...rules.filter((rule) => rule.group === "Writing" || rule.group === "Units and figures").map((rule) => rule.id), "currency-unknown"]);

test("every fix of writing, units and figures takes its own message away and breaks no line", { timeout: 60_000 }, () => {
  const random = seeded(20260511);
  const faults: string[] = [];
  let tried = 0;
  for (let round = 0; round < 140; round++) {
    const text = damaged(texts[random(texts.length)] as string, random);
    const before = said(text);
    const lines = text.split("\n");
    for (const it of before) {
      if (it.file !== sheetName) continue;
      const length = lines[it.line]?.length ?? -1;
      if (it.from < 0 || it.to < it.from || it.to > length) faults.push(`${it.rule} stands beside its line: ${lines[it.line]}`);
    }
    const offers = before.filter((it) => written.has(it.rule) && it.fixes.length > 0);
    const one = offers[random(Math.max(1, offers.length))];
    const fix = one?.fixes[random(one.fixes.length)];
    // What leaves a blank stays open until it is filled in.
    if (one === undefined || fix === undefined || fix.edits.some((edit) => edit.text.includes("___"))) continue;
    tried++;
    const after = said(apply(text, fix.edits));
    const same = (list: typeof before) => list.filter((it) => it.rule === one.rule && it.message === one.message).length;
    const unread = (list: typeof before) => list.filter((it) => it.rule === "syntax").length;
    if (same(after) >= same(before)) faults.push(`${one.rule}: “${fix.title}” changed nothing: ${lines[one.line]}`);
    if (one.rule !== "syntax" && unread(after) > unread(before)) faults.push(`${one.rule}: “${fix.title}” broke its line: ${lines[one.line]}`);
  }
  expect(faults).toEqual([]);
  expect(tried).toBeGreaterThan(40);
});

function seeded(start: number): (below: number) => number {
  let state = start;
  return (below) => {
    state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
    return (state >> 8) % below;
  };
}

/** One to four slips of the hand. */
function damaged(text: string, random: (below: number) => number): string {
  const lines = text.split("\n");
  for (let slips = 1 + random(4); slips > 0; slips--) {
    const i = random(lines.length);
    const line = lines[i] as string;
    const column = random(line.length + 1);
    switch (random(7)) {
      case 0:
        lines.splice(i, 1);
        break;
      case 1:
        lines[i] = line.slice(0, column) + line.slice(column + 1);
        break;
      case 2:
        lines[i] = line.replace(/ (mm|in|N\.m|kg|ml)\b/, [" pt", " lb", "", " foo", " oz", " N", " deg"][random(7)] as string);
        break;
      case 3:
        lines[i] = line.replace(/(\d)\.(\d)/, "$1,$2");
        break;
      case 4:
        lines[i] = line.slice(0, column) + '"#é-,./x0 '.charAt(random(10)) + line.slice(column);
        break;
      case 5:
        lines.splice(i, 0, lines[random(lines.length)] as string);
        break;
      default:
        lines[i] = line.replace(/max |min |\.\. \S+ /, "");
    }
  }
  return lines.join("\n");
}
