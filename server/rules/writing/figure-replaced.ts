// A torque, a count, a locking, a capacity or a limit that the sheet or a file that it uses gives already, given otherwise further down, with no word of where the new one is from.
import type { Detail } from "../../../grammar/tree.ts";
import { ordersOf } from "../../model/orders.ts";
import { isCritical } from "../../model/relations.ts";
import { linesOf, type Thing } from "../../model/things.ts";
import { bandOf, measured } from "../../model/values.ts";
import { where } from "../../model/where.ts";
import type { Measured } from "../../quantities/quantity.ts";
import type { Band } from "../../quantities/range.ts";
import type { JobRule } from "../rule.ts";
import { called } from "../wording.ts";

export const rule: JobRule = {
  id: "figure-replaced",
  group: "Writing",
  severity: "warning",
  safety: false,
  title: "A second torque, count, locking or limit for the same thing, in the sheet or over a file that it uses, with no source",
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
      for (const kind of figures) replaced(thing, kind);
    }

    function matters(thing: Thing): boolean {
      if (thing.kind === "fluid") return true;
      return thing.kind === "limit" ? isCritical(job, thing) : "critical" in thing && thing.critical === true;
    }

    /** Ground under size, bored over it: the figures of the new size stand with the work. */
    function isWorkedOn(thing: Thing): boolean {
      const names = thing.kind === "limit" ? thing.of.map(({ text }) => text) : [];
      return names.some(
        (name) =>
          ordersOf(job).work.has(name) ||
          job.own.sheet.entries.some(
            (it) =>
              it.kind === "step" &&
              it.details.some((line) => line.kind === "action" && line.verb === "repair" && line.things.some((one) => one.name.text === name)),
          ),
      );
    }

    function replaced(thing: Thing, kind: (typeof figures)[number]): void {
      const all = linesOf(thing, kind).filter(({ detail }) => detail.fault === undefined);
      const own = all.filter(({ file }) => file === job.path);
      // A sheet says more of its own machine than the file that it uses: only what lets more pass is asked for.
      const used = all.findLast(({ file }) => file !== job.path);
      for (const [i, it] of own.entries()) {
        const before = own[i - 1] ?? used;
        if (before === undefined || same(before.detail, it.detail)) continue;
        if (before === used && !(matters(thing) && letsMorePass(before.detail, it.detail) && !isWorkedOn(thing))) continue;
        // In one entry a source is of both.
        if (before.entry !== it.entry && it.entry.details.some(({ kind }) => kind === "source" || kind === "note")) continue;
        const first = where(before.file, before.entry, before.detail.row, before.detail.keyword);
        report({
          where: where(it.file, it.entry, it.detail.row, it.detail.keyword),
          severity: "warning",
          open: true,
          message: `${called(thing)} has another \`${words[kind]}\` already, ${before.file === job.path ? `at line ${line(first)}` : "in the file that this uses"}, and nothing says where this one is from. Write its \`source\` or a \`note\` under it, or correct the first.`,
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

/** A wider torque or limit, no locking where there was one, a tenth less of a fluid. */
function letsMorePass(before: Detail, now: Detail): boolean {
  if (before.kind === "locked" && now.kind === "locked")
    return now.locking?.kind === "nothing" && before.locking !== undefined && before.locking.kind !== "nothing";
  if (before.kind === "capacity" && now.kind === "capacity") {
    const [was, is] = [measured(before.quantity), measured(now.quantity)];
    return was !== undefined && is !== undefined && was.unit.dimension === is.unit.dimension && is.value.mul(10).compare(was.value.mul(9)) < 0;
  }
  const [was, is] = [mostOf(before), mostOf(now)];
  if (was !== undefined && is !== undefined) return is.value.compare(was.value) > 0;
  const [old, wide] = [rangeOf(before), rangeOf(now)];
  if (old === undefined || wide === undefined || old.unit.dimension !== wide.unit.dimension) return false;
  const below = wide.low === undefined ? 1 : old.low === undefined ? -1 : old.low.compare(wide.low);
  const above = wide.high === undefined ? 1 : old.high === undefined ? -1 : wide.high.compare(old.high);
  const sides = [...(wide.low === undefined && old.low === undefined ? [] : [below]), ...(wide.high === undefined && old.high === undefined ? [] : [above])];
  return sides.every((it) => it >= 0) && sides.some((it) => it > 0);
}

function mostOf(detail: Detail): Measured | undefined {
  return detail.kind === "spread" || detail.kind === "ovality" || detail.kind === "taper" ? measured(detail.max) : undefined;
}

function rangeOf(detail: Detail): Band | undefined {
  return detail.kind === "torque" || detail.kind === "worn" || detail.kind === "new" || detail.kind === "set" ? bandOf(detail.range) : undefined;
}

/** Alike but for where they stand. */
function same(a: object, b: object): boolean {
  return said(a) === said(b);
}

function said(detail: object): string {
  return JSON.stringify(detail, (key, value: unknown) => (key === "at" || key === "row" || key === "keyword" ? undefined : value));
}
