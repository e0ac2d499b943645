// What was done up after the thing that closes it in was on: bolts inside of a box that is in its axle, a hub nut below its half shaft, bolts of a drum below its wheel.
// Invariant: done work, and told only where the sheet itself shows that it lies behind: that came off before it was undone. What sets a bearing may be reached from outside.
import type { StepEntry } from "../../grammar/tree.ts";
import { countAhead } from "../model/halving.ts";
import { memo } from "../model/memo.ts";
import { isSamePlace } from "../model/same-place.ts";
import { headOf } from "../model/read-with.ts";
import { relationsOf, setsBearing } from "../model/relations.ts";
import { allWords } from "../model/titles.ts";
import type { Part } from "../model/things.ts";
import { cellsAt } from "../story/cells.ts";
import { onAt } from "../story/in-place.ts";
import type { FastenerCell, FastenerMoment, PartCell, Story } from "../story/story.ts";

/** What was on, whole, from before it was first done up again. */
export function closedIn(story: Story, cell: FastenerCell, it: FastenerMoment): PartCell | undefined {
  if (it.phase !== "done" || it.verb !== "tighten" || it.before.tight || it.forNow || cell.unsure) return undefined;
  const undone = lastOf(undoings(cell), it);
  if (undone === undefined || isReachedThrough(it)) return undefined;
  for (const inside of relationsOf(story.job).holds.get(cell.thing.name) ?? []) {
    for (const { text } of inside.behind) {
      const over = story.job.things.get(text);
      if (over?.kind !== "part" || over.heldBy.some((by) => by.text === cell.thing.name) || !closes(over, inside, setsBearing(story.job, cell.thing))) continue;
      for (const lid of cellsAt(story, text, cell.place)) {
        if (lid.kind !== "part" || lid.unsure || !isSamePlace(lid.place, cell.place)) continue;
        const fit = lastOf(fittings(lid), it);
        // It was off as this was undone, and on as it was done up.
        if (fit === undefined || fit.forNow || fit.seq < undone.seq || onAt(lid, undone.seq) > 0 || onAt(lid, it.seq) < lid.total) continue;
        return lid;
      }
    }
  }
  return undefined;
}

// Of a nut that was turned a thousand times that is asked as often: each kind of moment is picked out once.
const undoings = memo((cell: FastenerCell) => cell.history.filter((it) => it.phase === "done" && (it.verb === "undo" || it.verb === "slacken")));
const fittings = memo((cell: PartCell) => cell.history.filter((it) => it.phase === "done" && it.verb === "fit" && it.after.on > it.before.on));

function lastOf<M extends { readonly seq: number }>(moments: readonly M[], { seq }: FastenerMoment): M | undefined {
  return moments[countAhead(moments, (it) => it.seq < seq) - 1];
}

/** The line, its step or a note of it says by what hole a spanner gets at it. */
function isReachedThrough({ visit, action }: FastenerMoment): boolean {
  return through.test(action?.text?.value ?? "") || (visit !== undefined && saysThrough(visit.entry));
}

/** Once for a step: it may have thousands of lines. */
const saysThrough = memo(({ title, details }: StepEntry) =>
  [title, ...details.map((it) => (it.kind === "note" ? it.text : undefined))].some((text) => through.test(text?.value ?? "")),
);

const through = /\b(through|by|from|at) (the |its |an? )?(\w+ ){0,2}(holes?|doors?|windows?|openings?|hatch(es)?|ports?|slots?|plug hole)\b/iu;

/** A box, a case, a lid; the shaft that goes through a hub; the wheel before its drum. */
function closes(over: Part, inside: Part, isSetting: boolean): boolean {
  const words = allWords(over);
  if (isHub.test(allWords(inside)) && throughHub.test(words)) return true;
  if (isSetting) return false;
  return lids.has(headOf(over) ?? "") || ((headOf(over) ?? "") === "wheel" && faces.has(headOf(inside) ?? ""));
}

const isHub = /\bhub\b/iu;
const throughHub = /\b(half|axle|drive|driving)[- ]?shafts?\b|\b(driving|drive) flanges?\b|\b(hub|dust|grease|nave) caps?\b/iu;
const lids: ReadonlySet<string> = new Set("box case casing cover lid sump pan tank crankcase".split(" "));
const faces: ReadonlySet<string> = new Set("drum disc disk rotor".split(" "));
