// A torque, a count, a locking or a limit that is given already, in this file or in one that it uses, given otherwise further down, with no word of where the new one is from.
import { unsaid } from "../../../grammar/blanks.ts";
import { ordersOf } from "../../model/orders.ts";
import { linesOf, type Thing } from "../../model/things.ts";
import { where } from "../../model/where.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, called } from "../wording.ts";

export const rule: JobRule = {
  id: "figure-replaced",
  group: "Writing",
  severity: "warning",
  safety: false,
  title: "A second torque, count, locking or limit for the same thing, in the same file or over one that it uses, with no source",
  why: "The last one holds, and so a figure that did not suit could be made to suit. A better figure comes from somewhere: a maker's note, a regrind, a count again. Say where from, in `source` or `note` under the new one, or correct the first.",
  wrong: `fastener arm-nut "Arm nut"
  torque 40 .. 50 N.m
  source "Maker's handbook, page 12"
fastener arm-nut
  torque 5 .. 60 N.m
# ^^^^^^ warning figure-replaced
`,
  right: `fastener arm-nut "Arm nut"
  torque 40 .. 50 N.m
  source "Maker's handbook, page 12"
fastener arm-nut
  torque 45 .. 55 N.m
  source "Maker's note 7 of 1961"
`,
  scope: "job",
  check({ job, report, line }) {
    for (const thing of job.things.values()) {
      if (thing.implied || (thing.kind !== "fastener" && thing.kind !== "part" && thing.kind !== "limit" && thing.kind !== "fluid")) continue;
      if (thing.lines.every(({ file }) => file !== job.path)) continue;
      // Hardly anything is given twice, so that is looked for in one go down its lines.
      const once = new Set<string>();
      const twice = new Set<string>();
      for (const { detail } of thing.lines) (once.has(detail.kind) ? twice : once).add(detail.kind);
      if (twice.size > 0) for (const kind of figures) if (twice.has(kind)) replaced(thing, kind);
    }

    function replaced(thing: Thing, kind: (typeof figures)[number]): void {
      // What is blank, as in a starting assembly, is not replaced but filled in.
      const given = linesOf(thing, kind).filter(({ detail }) => !unsaid(detail));
      for (const [i, it] of given.entries()) {
        const before = given[i - 1];
        if (it.file !== job.path || before === undefined || same(before.detail, it.detail)) continue;
        // What a data file says of it as made no longer holds of what was sent out to be worked on.
        if (before.file !== job.path && thing.kind === "limit" && thing.of.some((name) => ordersOf(job).work.has(name.text))) continue;
        // In one entry a source is of both.
        if (before.entry !== it.entry && it.entry.details.some(({ kind }) => kind === "source" || kind === "note")) continue;
        const first = where(before.file, before.entry, before.detail.row, before.detail.keyword);
        report({
          where: where(it.file, it.entry, it.detail.row, it.detail.keyword),
          severity: "warning",
          open: true,
          message: `${called(thing)} ${agreeing(thing, "has")} another \`${words[kind]}\` already, ${before.file === job.path ? `at line ${line(first)}` : `in ${before.file.split("/").at(-1)}`}, and nothing says where this one is from. Write its \`source\` or a \`note\` under it, or correct the first.`,
          related: [{ where: first, message: "Said here before." }],
        });
      }
    }
  },
};

const figures = ["torque", "locked", "qty", "each", "worn", "new", "set", "spread", "ovality", "taper", "capacity"] as const;
const words: Readonly<Record<(typeof figures)[number], string>> = {
  ...{ torque: "torque", locked: "locked by", qty: "qty", each: "each", worn: "worn", new: "new" },
  ...{ set: "set", spread: "spread", ovality: "ovality", taper: "taper", capacity: "capacity" },
};

/** Alike but for where they stand. */
function same(a: object, b: object): boolean {
  return said(a) === said(b);
}

function said(detail: object): string {
  return JSON.stringify(detail, (key, value: unknown) => (key === "at" || key === "row" || key === "keyword" ? undefined : value));
}
