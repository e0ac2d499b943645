// Shims that were put in and that nobody has: of a thickness that is not there, or more than there are.
import { wholeNumber } from "../../model/declare.ts";
import { ordersOf } from "../../model/orders.ts";
import { placesOf } from "../../model/job.ts";
import { type Pack, packsOf } from "../../model/shim-stacks.ts";
import type { Shims } from "../../model/things.ts";
import { quantityText } from "../../model/values.ts";
import { type Where, where } from "../../model/where.ts";
import type { Exact } from "../../quantities/exact.ts";
import type { JobRule } from "../rule.ts";
import { counted } from "../wording.ts";

export const rule: JobRule = {
  id: "shims-short",
  group: "Parts",
  severity: "warning; open at release",
  safety: false,
  title: "More shims of a thickness are fitted than `have` and what was in account for",
  why: "What is written as fitted can't be in there: a figure is wrong, or a shim was cut or bought that nobody wrote down. Whoever sets it next counts from this line. Write what is in, or add to `have` what was made or bought.",
  wrong: `shims cap-shims "Cap shims"
  have 0.05 mm x 2, 0.10 mm x 1
  fitted 0.10 mm x 2
step a "Shimmed"
  remove cap-shims
  fit cap-shims
  done
shims cap-shims
  fitted 0.10 mm x 1, 0.20 mm x 1
#                     ^^^^^^^ warning shims-short
`,
  right: `shims cap-shims "Cap shims"
  have 0.05 mm x 2, 0.10 mm x 1
  fitted 0.10 mm x 2
step a "Shimmed"
  remove cap-shims
  fit cap-shims
  done
shims cap-shims
  have 0.20 mm x 1
  note "cut from sheet"
  fitted 0.10 mm x 1, 0.20 mm x 1
`,
  scope: "job",
  check({ job, story, report }) {
    for (const thing of job.things.values()) {
      if (thing.kind !== "shims" || thing.implied || thing.unread.has("have") || thing.unread.has("fitted") || thing.unread.has("")) continue;
      const [first, ...later] = packsOf(thing);
      const drawer = packsOf(thing, "have").map((it) => it.stack);
      if (first !== undefined && drawer.length > 0 && !isBought(thing)) {
        const inAndThere = [first.stack, ...drawer].map((it) => it?.shims.reduce((sum, { count }) => sum + count, 0));
        const more = inAndThere.includes(undefined)
          ? undefined
          : moreThan(thing, (inAndThere[0] as number) * Math.max(1, placesOf(job, thing).length) + Math.max(...(inAndThere.slice(1) as number[])));
        if (more !== undefined)
          report({
            where: more.where,
            severity: "warning",
            open: true,
            message: `${counted(more.count, "shim")} can't go in here: there are no more than ${more.had}. Write how many are in, or add to \`have\` what was cut or bought.`,
            related: [{ where: atPack(first), message: "This was in." }],
          });
      }
      // What an order or a shelf brings of them says no thickness.
      if (first === undefined || later.length === 0 || drawer.length === 0 || drawer.includes(undefined) || isBought(thing)) continue;
      const was = first.stack;
      if (was === undefined) continue;
      const places = Math.max(1, placesOf(job, thing).length);
      for (const { lines, stack } of later) {
        // A thickness in another unit is seldom the same figure, and may be the same shim.
        if (stack === undefined || stack.unit.name !== was.unit.name || drawer.some((it) => it?.unit.name !== stack.unit.name)) continue;
        for (const [i, { thickness }] of stack.shims.entries()) {
          if (stack.shims.findIndex((it) => it.thickness.compare(thickness) === 0) !== i) continue;
          const fitted = countOf(stack.shims, thickness);
          // Whether what was in is counted among what there is, nobody says: taken as if not.
          const had = Math.max(...drawer.map((it) => countOf(it?.shims ?? [], thickness))) + countOf(was.shims, thickness) * places;
          if (fitted <= had) continue;
          const [line, written] = lines.flatMap((it) => it.detail.stacks.map((shim) => [it, shim.thickness] as const))[i] ?? [];
          if (line === undefined || written === undefined) continue;
          const text = `${quantityText(written)}${written.unit === undefined ? ` ${stack.unit.spelling}` : ""}`;
          report({
            where: where(line.file, line.entry, line.detail.row, written.at),
            severity: "warning",
            open: true,
            message: `${counted(fitted, "shim")} of ${text} can't be in: ${had === 0 ? "there was none" : `there ${had === 1 ? "was" : "were"} no more than ${had}`}. Write what is in, or add to \`have\` what was cut or bought.`,
            related: [{ where: atPack(first), message: "This was in." }],
          });
        }
      }
    }

    /** A line that puts in more of them, by its own count, than were in and in the drawer; new ones are from elsewhere. */
    function moreThan(thing: Shims, had: number): { readonly where: Where; readonly count: number; readonly had: number } | undefined {
      for (const cell of story.cells(thing.name)) {
        if (cell.kind !== "part") continue;
        for (const it of cell.history) {
          if (it.verb !== "fit" || it.isNew) continue;
          const named = it.action?.things.find(({ name }) => name.text === thing.name);
          const count = wholeNumber(named?.count?.text);
          if (count !== undefined && count > had) return { where: it.where, count, had };
        }
      }
      return undefined;
    }

    function isBought(thing: Shims): boolean {
      return ordersOf(job).items.has(thing.name) || ordersOf(job).stocked.has(thing.name);
    }
  },
};

function countOf(shims: readonly { readonly thickness: Exact; readonly count: number }[], thickness: Exact): number {
  return shims.reduce((sum, it) => (it.thickness.compare(thickness) === 0 ? sum + it.count : sum), 0);
}

function atPack({ lines: [{ file, entry, detail }] }: Pack): Where {
  return where(file, entry, detail.row, detail.keyword);
}
