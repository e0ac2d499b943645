// How a fault that was found is said: as it stands, as planned to be cured, or put right and faint.
// Invariant: only done work makes it faint.
import type { Entry } from "../../grammar/tree.ts";
import { memo } from "../model/memo.ts";
import { isSamePlace } from "../model/same-place.ts";
import type { Where } from "../model/where.ts";
import { lastBefore } from "../story/looked-up.ts";
import type { Cure } from "../story/put-right.ts";
import type { FastenerCell, FastenerMoment, Moment, PartCell, PartMoment, Story } from "../story/story.ts";
import type { JobContext, Report, RuleFix, Severity } from "./rule.ts";
import { firstSentence } from "./wording.ts";

/**
 * `cures` holds one answer for each place that the fault is at: it is put right when every one of them is.
 */
export function curedReport(
  context: JobContext,
  where: Where,
  severity: Severity,
  message: string,
  cures: readonly (Cure | undefined)[],
  fixes: readonly RuleFix[] = [],
): Report {
  const missing = cures.length === 0 || cures.some((cure) => cure === undefined);
  const last = latest(cures);
  if (!missing && last !== undefined) {
    const at = last.moment.where;
    if (!cures.some((cure) => cure?.planned))
      return {
        where,
        severity: "hint",
        message: `${firstSentence(message)} Done at line ${context.line(at)}.`,
        related: [{ where: at, message: "Done here." }],
      };
    const planned = cures.find((cure) => cure?.planned) as Cure;
    return {
      where,
      severity,
      message: `${message} Planned at line ${context.line(planned.moment.where)}, not done.`,
      related: [{ where: planned.moment.where, message: "Planned here, not done." }],
      fixes,
    };
  }
  return { where, severity, message: `${message}${orBefore(context, where)}`, fixes };
}

/** Work on it stands above what was found of it, and nobody wrote on which day that was: with its day it would be told before that work. */
function orBefore(context: JobContext, { entry }: Where): string {
  const after = workedAbove(context.story).get(entry);
  return after === undefined ? "" : ` If it was found before line ${context.line(after.where)}, write its day.`;
}

/** By what was found without a day of its own, the last work above it that may have put it right. */
const workedAbove = memo((story: Story): ReadonlyMap<Entry, Moment> => {
  const after = new Map<Entry, Moment>();
  const look = ({ where: { entry }, seq }: Moment, names: readonly string[], isHere: (place: string) => boolean) => {
    if ("date" in entry && entry.date !== undefined) return;
    for (const name of names)
      for (const cell of story.cells(name)) {
        if ((cell.kind !== "part" && cell.kind !== "fastener") || !isHere(cell.place)) continue;
        const work = lastBefore(puttingRight(cell), seq, () => true);
        if (work !== undefined && (after.get(entry)?.seq ?? -1) < work.seq) after.set(entry, work);
      }
  };
  for (const it of story.findings) look(it, [it.thing.name], (place) => it.places.includes(place));
  for (const it of story.readings)
    if (it.stage === "found")
      look(
        it,
        [...it.limit.of, ...it.limit.setBy].map(({ text }) => text),
        (place) => isSamePlace(place, it.place),
      );
  return after;
});

/** The work on it that may have put right what was found of it. */
const puttingRight = memo((cell: PartCell | FastenerCell): readonly Moment[] =>
  (cell.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.phase === "done" && putsRight.has(it.verb)),
);

const putsRight: ReadonlySet<string> = new Set(["fit", "repair", "tighten"]);

function latest(cures: readonly (Cure | undefined)[]): Cure | undefined {
  let last: Cure | undefined;
  for (const cure of cures) if (cure !== undefined && (last === undefined || cure.moment.seq > last.moment.seq)) last = cure;
  return last;
}
