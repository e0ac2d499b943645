// Generated sheets: for every row of the order, taking away the lines that its `why` names takes away the row; and what the sheet asks for is there,
// counted here by hand, thing by thing.
import fc from "fast-check";
import { expect, test } from "vitest";
import { times } from "../sampled.ts";
import { filesFrom } from "./sheets.ts";
import { partsOrder } from "../in-one-go.ts";

/** What stands in a sheet for one thing or another, in any order. */
const finding = fc.record({
  kind: fc.constant("finding" as const),
  of: fc.constantFrom("gear", "pinion", "pin", "bush left", "bush right", "seal left", "seal right", "nut left", "nut right", "bolt"),
  is: fc.constantFrom("worn", "damaged", "missing", "cracked", "serviceable", "unlocked", "loose"),
  decision: fc.constantFrom("renew", "exchange", "reuse", "none", "make", "ask"),
  count: fc.constantFrom("", "", "1"),
});
const step = fc.record({
  kind: fc.constant("step" as const),
  lines: fc.uniqueArray(
    fc.constantFrom(
      "undo nut",
      "undo nut left",
      "slacken nut right",
      "undo bolt",
      "remove cover left",
      "remove cover",
      "remove seal right",
      "fit seal new",
      "fit seal left new",
      "fit gear new",
      "lock nut new",
      "lock nut left new",
      "drain oil",
      "fill oil",
      "fit pin new",
    ),
    { minLength: 1, maxLength: 5 },
  ),
  done: fc.boolean(),
});
const measure = fc.record({ kind: fc.constant("measure" as const), stage: fc.constantFrom("found", "final"), left: fc.integer({ min: 90, max: 110 }) });
const need = fc.record({
  kind: fc.constant("need" as const),
  item: fc.constantFrom("gear", "oil 1 l", '"Rags"', "split pin 4 x 40 mm"),
  count: fc.integer({ min: 1, max: 3 }),
});
const entries = fc.array(fc.oneof(finding, finding, step, step, measure, need), { minLength: 1, maxLength: 9 });
type Entry = typeof entries extends fc.Arbitrary<(infer E)[]> ? E : never;

const head = `sheet "Generated"
  currency GBP
places side left, right
part gear "Gear"
  matched with pinion
part pinion "Pinion"
part pin "Pin"
  qty 2
part bush "Bush"
  each side
  renew in pairs
part cover "Cover"
  each side
  held by nut
part seal "Seal"
  each side
  renew with cover
fastener nut "Nut"
  each side 2
  locked by split pin 4 x 40 mm
  critical
fastener bolt "Bolt"
  qty 3
  locked by tab washer 12 mm for 2
fluid oil "Oil"
  in cover
  capacity 2 l
limit bore "Bore"
  each side
  worn max 1.00 mm
  of bush
  source "Card"
supplier tarn "Tarn"
  currency GBP
offer gear from tarn
  price 10.00 GBP
`;

/** What is off, undone or empty: a step takes off what is on and puts back what is off, as a person would. */
class Bench {
  private readonly off = new Set<string>();

  /** The lines of a step that can be done as things stand, and what they leave. */
  possible(lines: readonly string[]): string[] {
    return lines.filter((line) => {
      const [verb = "", thing = "", place] = line.split(" ");
      const places = thing === "cover" || thing === "seal" || thing === "nut" ? (place === "left" || place === "right" ? [place] : ["left", "right"]) : [""];
      const keys = places.map((it) => `${thing} ${it}`);
      if (["undo", "remove", "drain"].includes(verb)) {
        if (keys.some((key) => this.off.has(key))) return false;
        for (const key of keys) this.off.add(key);
      } else if (verb === "slacken") return !keys.some((key) => this.off.has(key));
      else if (["lock", "fill"].includes(verb)) {
        if (verb === "fill" && !keys.every((key) => this.off.has(key))) return false;
        for (const key of keys) this.off.delete(key);
      } else if (thing === "seal") for (const key of keys) this.off.delete(key);
      return true;
    });
  }
}

function sheetOf(list: readonly Entry[]): string {
  const lines: string[] = [];
  const bench = new Bench();
  for (const [i, it] of list.entries()) {
    if (it.kind === "finding") {
      const fastener = it.of.startsWith("nut") || it.of === "bolt";
      const is = it.is === "unlocked" && !fastener ? "worn" : it.is;
      const [name, place = ""] = it.of.split(" ");
      lines.push(`finding ${name} ${it.count} ${place}`.replace(/ +/g, " ").trim(), `  is ${is}`, '  because "it is"');
      if (it.decision === "ask") lines.push(`  decision ask question-${i}`);
      else if (it.decision !== "none") lines.push(`  decision ${it.decision}${it.decision === "make" ? ' "here"' : ""}`);
    } else if (it.kind === "step") lines.push(`step step-${i} "Step"`, ...bench.possible(it.lines).map((line) => `  ${line}`), ...(it.done ? ["  done"] : []));
    else if (it.kind === "measure") lines.push(`measure bore ${it.stage}`, `  left ${(it.left / 100).toFixed(2)} mm`, "  right 0.95 mm");
    else if (it.item === "oil 1 l") lines.push('need oil 1 l "more"');
    else lines.push(`need ${it.item} ${it.count} "more"`);
  }
  return `${head}${lines.join("\n")}\n`;
}

const order = (text: string) => partsOrder(filesFrom({ "job.jobsheet": text }), ["job.jobsheet"]);

test("without the lines that its why names, no row stands, and every row has one", () => {
  fc.assert(
    fc.property(entries, (list) => {
      const text = sheetOf(list);
      for (const row of order(text).lines) {
        expect(row.why.length, text).toBeGreaterThan(0);
        const lines = text.split("\n");
        for (const it of row.why) lines[it.line - 1] = "";
        const after = order(lines.join("\n"));
        expect(
          [row.item, after.lines.find((it) => it.item === row.item)?.why ?? null],
          `${text}\n---- without ${row.why.map((it) => `${it.line} ${it.text}`).join("; ")}`,
        ).toEqual([row.item, null]);
      }
    }),
    { numRuns: times({ plain: 50, run: 120, full: 120 }), seed: 7 },
  );
});

test("and so it is where the lines are taken out, not emptied", () => {
  fc.assert(
    fc.property(entries, (list) => {
      const text = sheetOf(list);
      for (const row of order(text).lines) {
        const named = new Set(row.why.map((it) => it.line - 1));
        const after = order(
          text
            .split("\n")
            .filter((_, i) => !named.has(i))
            .join("\n"),
        );
        expect([row.item, after.lines.find((it) => it.item === row.item)?.why ?? null], text).toEqual([row.item, null]);
      }
    }),
    { numRuns: 50, seed: 8 },
  );
});

test("nothing asked for is missing: counted by hand, thing by thing", () => {
  const asks = fc.array(
    fc.record({
      thing: fc.integer({ min: 0, max: 3 }),
      is: fc.constantFrom("damaged", "missing", "worn"),
      decision: fc.constantFrom("renew", "none"),
      count: fc.integer({ min: 1, max: 3 }),
    }),
    { minLength: 1, maxLength: 6 },
  );
  const undone = fc.array(fc.integer({ min: 0, max: 2 }), { maxLength: 4 });
  const needs = fc.array(fc.record({ thing: fc.integer({ min: 0, max: 3 }), count: fc.integer({ min: 1, max: 5 }) }), { maxLength: 4 });
  fc.assert(
    fc.property(asks, undone, needs, fc.integer({ min: 0, max: 4 }), (found, openings, more, stocked) => {
      const lines = ['sheet "Counted"', "  opened 2026-01-01"];
      // Each thing there is nine times, so that counted pieces are other pieces; each nut six times with a pin of its own size.
      for (let t = 0; t < 4; t++) lines.push(`part thing-${t} "Thing ${t}"`, "  qty 9");
      for (let f = 0; f < 3; f++) lines.push(`fastener nut-${f} "Nut ${f}"`, "  qty 6", `  locked by split pin ${f + 2} x 40 mm`);
      if (stocked > 0) lines.push(`stock thing-0 ${stocked} "Drawer" 2026-01-01`);
      lines.push("day 2026-01-02");
      const expected = new Map<string, number>();
      const add = (item: string, n: number) => expected.set(item, (expected.get(item) ?? 0) + n);
      const spoken = [0, 0, 0, 0];
      for (const it of found) {
        // Only as many as there are.
        if ((spoken[it.thing] as number) + it.count > 9) continue;
        spoken[it.thing] = (spoken[it.thing] as number) + it.count;
        lines.push(`finding thing-${it.thing} ${it.count}`, `  is ${it.is}`, ...(it.decision === "renew" ? ["  decision renew"] : []));
        if (it.decision === "renew" || it.is !== "worn") add(`thing-${it.thing}`, it.count);
      }
      openings.forEach((f, i) => {
        // Undone, and put back and locked with new when it was undone before: each opening takes a pin.
        if (openings.indexOf(f) !== i) return;
        lines.push(`step open-${i} "Open"`, `  undo nut-${f}`, "  done");
        add(`split pin ${f + 2} x 40 mm`, 6);
      });
      for (const it of more) {
        lines.push(`need thing-${it.thing} ${it.count} "spare"`);
        add(`thing-${it.thing}`, it.count);
      }
      const report = order(`${lines.join("\n")}\n`);
      expect(Object.fromEntries(report.lines.map((row) => [row.item, row.need]))).toEqual(
        Object.fromEntries([...expected].map(([item, n]) => [item, String(n)])),
      );
      for (const row of report.lines) {
        const short = Math.max(0, (expected.get(row.item) ?? 0) - (row.item === "thing-0" ? stocked : 0));
        expect([row.item, row.toOrder]).toEqual([row.item, String(short)]);
      }
    }),
    { numRuns: 80, seed: 9 },
  );
});
