// Fixes on damaged sheets: what is offered does what it says, and never makes a readable line unreadable.
// The damage is seeded, so that a failure comes again.
import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { written as rules } from "../../server/rules/all.ts";
import { sampleName, sampled } from "../sampled.ts";
import { apply, fixed, fixesOf, said, sheetName } from "./sheets.ts";

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

// ---------------------------------------------------------------- what is done at once

/** A word of a line taken out, two the other way round, a quote that came in, a denial that came in: each on each line of a sheet. */
function slips(text: string): { readonly text: string; readonly line: number; readonly denial: string | undefined }[] {
  const lines = text.split("\n");
  const denials = ["not", "never", "no", "except", "without"];
  return lines.flatMap((line, i) => {
    const words = [...line.matchAll(/"[^"]*"|[^\s"]+/g)].map((it) => ({ from: it.index, to: it.index + it[0].length, text: it[0] }));
    if (line.trim() === "" || line.startsWith("#")) return [];
    const made: { now: string; denial?: string }[] = words.flatMap((word, k) => {
      const next = words[k + 1];
      const no = denials[(i + k) % denials.length] as string;
      return [
        ...(words.length > 1 ? [{ now: line.slice(0, word.from) + line.slice(word.to).trimStart() }] : []),
        ...(next === undefined ? [] : [{ now: line.slice(0, word.from) + next.text + line.slice(word.to, next.from) + word.text + line.slice(next.to) }]),
        { now: `${line.slice(0, word.to)}"${line.slice(word.to)}` },
        { now: `${line.slice(0, word.from)}"${line.slice(word.from)}` },
        { now: `${line.slice(0, word.to)} ${no}${line.slice(word.to)}`, denial: no },
      ];
    });
    return made.map(({ now, denial }) => ({ text: [...lines.slice(0, i), now, ...lines.slice(i + 1)].join("\n"), line: i, denial }));
  });
}

/** Every figure and day, and every word of every text. */
const facts = (line: string) => line.match(/\d+|(?<=")[^"]*(?=")/g)?.flatMap((it) => it.match(/[\p{L}\d]+/gu) ?? []) ?? [];

describe(`what an editor does at once (${sampleName})`, () => {
  test.each(["put-right", "energy-right"])("adds no error to %s, and loses no figure, day, text or denial", { timeout: 600_000 }, (name) => {
    const whole = readFileSync(`${folder}${name}.jobsheet`, "utf8");
    const faults: string[] = [];
    let tried = 0;
    for (const slip of sampled(slips(whole), 3)) {
      const before = said(slip.text);
      const line = slip.text.split("\n")[slip.line] as string;
      for (const of of before) {
        const [fix] = of.fixes;
        if (of.line !== slip.line || of.fixes.length !== 1 || fix?.spells !== true) continue;
        tried++;
        const text = apply(slip.text, fix.edits);
        // The lines that the slip became: all others are as they were.
        const now = text
          .split("\n")
          .slice(slip.line, slip.line + text.split("\n").length - slip.text.split("\n").length + 1)
          .join("\n");
        // What can't be read hides what its line says: once it can, that may be told.
        const errors = (list: typeof before) => list.filter((it) => it.severity === "error" && (of.rule !== "syntax" || it.rule === "syntax")).length;
        const told = `“${line.trim()}”, ${of.rule}: “${fix.title}” made “${now.trim()}”`;
        if (errors(said(text)) > errors(before)) faults.push(`${told}, with more errors`);
        if (of.rule === "syntax") for (const fact of facts(line)) if (!now.includes(fact)) faults.push(`${told} without ${fact}`);
        if (slip.denial !== undefined && of.rule === "syntax" && !isDenied(now, slip.denial, text, slip.line)) faults.push(`${told}, and denies nothing`);
      }
    }
    expect(faults).toEqual([]);
    expect(tried).toBeGreaterThan(3);
  });
});

/** It stands in a text, is said in another word, or stands where the line can't be read. */
function isDenied(now: string, denial: string, text: string, line: number): boolean {
  const texts = now.match(/"[^"]*"/g) ?? [];
  if (texts.some((it) => it.includes(denial)) || /\b(?:bad|unlocked|loose|missing)\b/.test(now)) return true;
  return said(text).some((it) => it.rule === "syntax" && it.line === line);
}

test("a fix that can't close its message is not offered", () => {
  const sheet = `sheet "T"
fastener nut "Nut"
  torque 10 .. 12 N.m
  locked by split pin 2 x 20 mm
finding nut
  is unlocked "a nail"
step refit
  tighten nut to 11 N.m
  ~
  done
`;
  expect(fixesOf("locking-absent", sheet.replace("  ~\n", ""))).toEqual([["Add `lock nut new`"]]);
  // Locked it is: what stands against it is the figure.
  expect(fixesOf("locking-absent", sheet.replace("~", "lock nut new").replace("to 11", "to 5"))).toEqual([[]]);
});

test("a declaration that alone is written otherwise than all its uses is what has slipped", () => {
  const sheet = 'fastener pivto-nut "Pivot nut"\nstep strip\n  undo pivot-nut\nstep refit\n  fit pivot-nut\n  tighten pivot-nut\n';
  expect(fixesOf("name-unknown", sheet)).toEqual(Array(3).fill(["Write pivot-nut where it is declared"]));
  expect(fixed("name-unknown", sheet)).toContain('fastener pivot-nut "Pivot nut"');
  expect(fixesOf("name-unknown", `${sheet}step more\n  tighten pivto-nut\n`)).toEqual(Array(3).fill(["Write pivto-nut"]));
  expect(fixesOf("name-unknown", sheet.replace("  fit pivot-nut\n", ""))).toEqual(Array(2).fill(["Write pivto-nut"]));
});

test("places are declared as the sheet names them already", () => {
  const sheet = 'part bush "Bush"\n  each end\nlimit bore "Bore"\n  each end\n  worn max 12 mm\nstep strip\n  remove bush rear\n';
  expect(fixed("place-unknown", `${sheet}measure bore found\n  front 11 mm\n  rear 11 mm\n`)).toContain("places end rear, front");
  expect(fixed("place-unknown", sheet)).toContain("places end end-1, end-2");
});

test("a counter without its unit is offered what counters run in, and nothing else", () => {
  expect(fixesOf("unit-missing", 'sheet "T"\n  reading 18420\n')).toEqual([["Write 18420 km", "Write 18420 mi", "Write 18420 h"]]);
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
