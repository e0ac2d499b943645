// Came off, and is not back when the machine is released.
import { wholeNumber } from "../../model/declare.ts";
import { discardedAt, findingsOf } from "../../story/decisions.ts";
import { completeSince, countFound } from "../../story/put-right.ts";
import type { FastenerCell, FastenerMoment, Found, PartCell, PartMoment, Story } from "../../story/story.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, called } from "../wording.ts";

export const rule: JobRule = {
  id: "part-left-over",
  group: "Parts",
  severity: "error at release",
  safety: true,
  title: "Came off and not back, nor replaced",
  why: "What is left on the bench was somewhere when the work began. Fit it, or decide `discard` in a finding and say why it is not needed.",
  wrong: `part guard "Belt guard"
step strip "Guard off"
  remove guard
#        ^^^^^ error part-left-over
  done
release by "A. Moor" 2026-05-10
`,
  right: `part guard "Belt guard"
step strip "Guard off"
  remove guard
  done
step refit "Guard on"
  fit guard
  done
release by "A. Moor" 2026-05-10
`,
  scope: "job",
  check({ job, story, report, line }) {
    if (story.release === undefined) return;
    for (const cell of story.parts) {
      const other = cell.thing.critical && !cell.unsure ? outOfNothing(story, cell) : undefined;
      if (other === undefined) continue;
      const { moment, to, gone } = other;
      report({
        where: moment.where,
        severity: "error",
        message: `${called(cell.thing, cell.place)} went in at ${to.place} (line ${line(gone.where)}), and the one from there is in nowhere. Is it what goes in here? Write \`from ${to.place}\`; or \`new\`; or fit each where it came from.`,
        related: [{ where: gone.where, message: "It went in here." }],
      });
    }
    for (const cell of [...story.parts, ...story.fasteners]) {
      if (cell.now.on >= cell.total || cell.unsure) continue;
      const off = (cell.history as (PartMoment | FastenerMoment)[]).findLast((it) => it.phase === "done" && it.after.on < it.before.on);
      // What was found missing is said by its own rule until it is there.
      if (off === undefined || off.verb === "found") continue;
      const short = cell.total - cell.now.on - missingStill(story, cell) - discardedAt(story, cell);
      if (short <= 0) continue;
      const them = agreeing(cell.thing, "it") === "it" ? "it" : "them";
      const ofAll = setAsideOfAll(story, cell);
      const wayOut =
        job.things.get(cell.thing.name)?.kind === "shims"
          ? `Fit ${them}, or write what is in now: \`shims ${cell.thing.name}\`, and below it \`fitted …\``
          : ofAll === undefined
            ? `Fit ${them}, or say in a finding why ${them === "it" ? "it is" : "they are"} discarded`
            : `The number at line ${line(ofAll.where)} names no place and is of all places together: name each, or fit ${them}`;
      report({
        where: off.where,
        severity: "error",
        message: `${called(cell.thing, cell.place)} came off and ${agreeing(cell.thing, "is")} not back${cell.total > 1 ? ` (${short} of ${cell.total})` : ""}. ${wayOut}.`,
      });
    }
  },
};

interface OutOfNothing {
  readonly moment: PartMoment;
  readonly to: PartCell;
  readonly gone: PartMoment;
}

/**
 * Its own went in at another place, whose own still lies on the bench; and a line that names neither a new one nor where it comes from fits one here, where none is left. Whoever meant to change the
 * two over has not said so, and by the lines one of them is in nowhere.
 */
function outOfNothing(story: Story, cell: PartCell): OutOfNothing | undefined {
  const isDone = (it: PartMoment) => it.phase === "done" && it.verb === "fit" && !it.isNew && !it.forNow;
  for (const to of story.cells(cell.thing.name)) {
    if (to.kind !== "part" || to === cell || to.unsure || to.now.off === 0) continue;
    const gone = to.history.findLast((it) => isDone(it) && it.from === cell.place && it.after.on > it.before.on);
    const moment = cell.history.find(
      (it) =>
        gone !== undefined &&
        it.seq > gone.seq &&
        isDone(it) &&
        (it.from === undefined || it.from === cell.place) &&
        it.after.on - it.before.on > it.before.off &&
        it.before.on < it.after.on,
    );
    if (gone !== undefined && moment !== undefined && discardedAt(story, to) === 0) return { moment, to, gone };
  }
  return undefined;
}

/** A finding that sets aside so many of a thing with several places, and says of none that they are of it. */
function setAsideOfAll(story: Story, { thing, place }: PartCell | FastenerCell): Found | undefined {
  if (thing.critical) return undefined;
  return (findingsOf(story).get(thing.name) ?? []).find(
    (it) =>
      it.decision?.detail.decision === "discard" && it.count !== undefined && it.entry.places.length === 0 && it.places.length > 1 && it.places.includes(place),
  );
}

/** How many were found missing and are so still: another rule speaks of these. */
function missingStill(story: Story, cell: PartCell | FastenerCell): number {
  let most = 0;
  for (const found of findingsOf(story).get(cell.thing.name) ?? []) {
    if (!found.places.includes(cell.place)) continue;
    const missing = found.conditions.find(({ condition }) => condition.kind === "missing");
    if (missing === undefined) continue;
    const cure = completeSince(cell, found.seq);
    if (cure === undefined || cure.planned) most += wholeNumber(missing.condition.count?.text) ?? countFound(cell, found);
  }
  return most;
}
