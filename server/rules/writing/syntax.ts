// A line that can't be read, and a safety rule that a sheet tries to accept away.
import { someAtOnce } from "../../../grammar/slices.ts";
import type { Detail, Entry, Line } from "../../../grammar/tree.ts";
import { addDays, isDay } from "../../quantities/days.ts";
import { where } from "../../model/where.ts";
import { safetyRules } from "../ids.ts";
import { type EntryContext, type EntryRule, rewrite } from "../rule.ts";

export const rule: EntryRule = {
  id: "syntax",
  group: "Writing",
  severity: "error",
  safety: true,
  title: "A line that can't be read",
  why: "A line that can't be read says nothing: what it says of a nut or a reading is missing from every check. All other lines are read as written.",
  wrong: `fastener axle-nut "Axle nut"
  locked by split-pin 1/8 x 1-1/4 in
#           ^^^^^^^^^ error syntax (fix)
`,
  right: `fastener axle-nut "Axle nut"
  locked by split pin 1/8 x 1-1/4 in
`,
  fixed: `fastener axle-nut "Axle nut"
  locked by split pin 1/8 x 1-1/4 in
`,
  scope: "entry",
  *check(context) {
    const { entry } = context;
    say(context, entry);
    noSuchDay(context, entry);
    for (const [i, detail] of entry.details.entries()) {
      if (i % someAtOnce === someAtOnce - 1) yield;
      noSuchDay(context, detail);
      if (detail.fault !== undefined) say(context, detail);
      else if (detail.kind === "accept" && detail.rule !== undefined && safetyRules.has(detail.rule.text)) {
        const at = where(context.file, entry, detail.row, detail.rule.at);
        context.report({
          where: at,
          severity: "error",
          message: `\`${detail.rule.text}\` is a safety rule and can't be accepted. Cure what it says and delete this line.`,
        });
      }
    }
    for (const [i, detail] of entry.stray.entries()) {
      if (i % someAtOnce === someAtOnce - 1) yield;
      if (detail.fault !== undefined) say(context, detail);
    }
  },
};

/** A date in the right shape that no calendar has: 2026-02-30. */
function noSuchDay({ file, entry, report }: EntryContext, line: Entry | Detail): void {
  const date = "date" in line ? line.date : undefined;
  if (date === undefined || line.fault !== undefined || isDay(date.text)) return;
  const at = where(file, entry, line.row, date.at);
  const last = lastOfMonth(date.text);
  report({
    where: at,
    severity: "error",
    message: `${date.text} isn't a day in the calendar${last === undefined ? ". Write year, month, day: 2026-04-11." : `: that month ends on ${last}. Write the day that was meant.`}`,
    // Which of the two it was only its writer knows.
    fixes: last === undefined ? [] : [last, addDays(last, 1)].filter((it) => it !== undefined).map((it) => rewrite(`Write ${it}`, at, it)),
  });
}

/** Of one that is a few days over: 2026-06-30 of 2026-06-31. */
function lastOfMonth(date: string): string | undefined {
  const day = Number(date.slice(8));
  if (day > 31) return undefined;
  return [30, 29, 28].map((it) => `${date.slice(0, 8)}${it}`).find((it) => isDay(it) && Number(it.slice(8)) < day);
}

function say({ file, entry, report }: EntryContext, { fault, row }: Line): void {
  if (fault === undefined) return;
  report({
    where: where(file, entry, row, fault.at),
    severity: "error",
    message: fault.message,
    fixes: fault.fixes.map(({ title, edits }) => ({ title, spells: true, edits: edits.map(({ at, text }) => ({ where: where(file, entry, row, at), text })) })),
  });
}
