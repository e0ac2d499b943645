// A part that keeps its place, or that was marked for it, goes back at another.
import type { StepEntry } from "../../../grammar/tree.ts";
import { memo } from "../../model/memo.ts";
import { headOf, wordsOf } from "../../model/read-with.ts";
import { findingsOf } from "../../story/decisions.ts";
import type { Found, PartCell, PartMoment, Story } from "../../story/story.ts";
import { lastBefore } from "../../story/looked-up.ts";
import { allSince, refittedSince } from "../../story/put-right.ts";
import { putsOff } from "../doubt-words.ts";
import { byLine } from "../by-line.ts";
import { curedReport } from "../found.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, called, calledAt } from "../wording.ts";

export const rule: JobRule = {
  id: "place-changed",
  group: "Parts",
  severity: "error; warning that holds where nothing but its mark, or that it was scraped or lapped in there, says that it keeps its place, and it is critical",
  safety: true,
  title: "A part that keeps its place goes back at another",
  why: "It has worn to its neighbours where it was, and fits nobody else's. Put it back where it came from, or renew it. Who marks a part means it to go back there: where it was changed over on purpose, a finding says so, and why (`because`).",
  wrong: `places cylinder cyl-1, cyl-2
part cap "Big end cap"
  each cylinder
  keeps its place
step refit "Caps on"
  fit cap cyl-1 from cyl-2
#                    ^^^^^ error place-changed
  done
`,
  right: `places cylinder cyl-1, cyl-2
part cap "Big end cap"
  each cylinder
  keeps its place
step refit "Caps on"
  fit cap cyl-1 from cyl-1
  done
`,
  scope: "job",
  check(context) {
    const { story, report, line } = context;
    const turned = byLine<PartCell, PartMoment>(story.parts, (it, cell) => turnedByWords(story, cell, it) !== undefined);
    for (const { cell, cells, moment, places } of turned) {
      const why = turnedByWords(story, cell, moment) as string;
      const cures = cells.map((it) => refittedSince(it, moment.seq));
      const message = `${calledAt(cell.thing, places)} ${why}, and its step says that it went the other way round, or changed over. Put it back as it was; or say why in a finding (\`because\`).`;
      const said = curedReport(context, moment.where, "warning", message, cures);
      report({ ...said, ...(said.severity === "warning" ? { open: true } : {}) });
    }
    for (const cell of story.parts) {
      if (!cell.thing.keepsPlace && !cell.thing.critical) continue;
      for (const it of cell.history) {
        if (it.verb !== "fit" || it.from === undefined || it.from === cell.place || it.isNew || it.action?.from === undefined) continue;
        const swapped = foundSwapped(story, cell, it);
        if (swapped === undefined ? isHome(cell, it) : isExchanged(cell, it, swapped)) continue;
        const at = { ...it.where, at: it.action.from.at };
        const cures = [allSince(cell, it.seq, ({ madeFor }) => madeFor === cell.place)];
        if (cell.thing.keepsPlace) {
          const message = `${called(cell.thing)} keeps its place, and the one from ${it.from} goes in at ${cell.place}. Put it back where it came from, or fit a new one.`;
          report(curedReport(context, at, "error", message, cures));
          continue;
        }
        const fitted = fittedTo(story, cell, it);
        if (fitted !== undefined) {
          const message = `${called(cell.thing)} from ${it.from} ${agreeing(cell.thing, "was")} ${fittedIn.exec(fitted.action?.text?.value ?? "")?.[1]?.toLowerCase() ?? "fitted"} in there (line ${line(fitted.where)}), and goes in at ${cell.place}. Put it back where it was made to fit; or fit it in here, and write that.`;
          const said = curedReport(context, at, "warning", message, cures);
          report({ ...said, ...(said.severity === "warning" ? { open: true } : {}), related: [{ where: fitted.where, message: "Made to fit here." }] });
          continue;
        }
        const marked = markOf(story, cell, it);
        if (marked === undefined) continue;
        const message = `${called(cell.thing)} ${agreeing(cell.thing, "was")} marked at ${it.from}, and goes in at ${cell.place}. Put it back where it came from; or write a finding of it that says why (\`because\`).`;
        const said = curedReport(context, at, "warning", message, cures);
        report({ ...said, ...(said.severity === "warning" ? { open: true } : {}), related: [{ where: marked.where, message: "Marked here." }] });
      }
    }
  },
};

/**
 * Put back, by the words of the step, end for end or on the other side, though it keeps its place, goes one way round or was marked before it came off; and no finding says why. The words are of the
 * one part that the step fits, or name it.
 */
function turnedByWords(story: Story, cell: PartCell, it: PartMoment): string | undefined {
  const { thing } = cell;
  if (it.phase !== "done" || it.verb !== "fit" || it.isNew || it.visit === undefined || it.after.on <= it.before.on) return undefined;
  const text = wordsOfStep(it.visit.entry).find((words) => otherWay.test(words) && !notTurned.test(words));
  if (text === undefined) return undefined;
  const fitted = new Set(
    it.visit.entry.details.flatMap((line) => (line.kind === "action" && line.verb === "fit" ? line.things.map(({ name }) => name.text) : [])),
  );
  if (fitted.size !== 1 && !wordsOf(text).includes(headOf(thing) ?? "")) return undefined;
  const why = thing.keepsPlace
    ? "keeps its place"
    : thing.fits !== undefined
      ? "goes one way round"
      : it.before.marked || wasMarked(cell, it)
        ? "was marked"
        : undefined;
  const isSaid = (findingsOf(story).get(thing.name) ?? []).some(
    (found) =>
      found.seq < it.seq &&
      (found.conditions.some(({ condition }) => undone.has(condition.kind)) || found.entry.details.some((line) => line.kind === "because")),
  );
  return isSaid ? undefined : why;
}

const wordsOfStep = memo(({ title, details }: StepEntry): readonly string[] =>
  [title?.value, ...details.map((it) => (it.kind === "note" ? it.text?.value : undefined))].filter((it) => it !== undefined),
);

/** So found, it was turned or changed over before, and goes back as it belongs. */
const undone: ReadonlySet<string> = new Set(["reversed", "swapped"]);

const otherWay =
  /\b(end for end|side for side|(the )?other way (about|round|on)|(the )?wrong way (about|round)|back to front|(chang|swapp|cross)(ed|ing) (over|sides|from side to side|side to side)|(left|right|near(side)?|off(side)?|L|R) (one |now )?(at|on|to) (the )?(other side|left|right|near|off)|to the other (side|end))\b/iu;
const notTurned =
  /\b(not|never|no|nor|nothing|isn't|wasn't|instead of|rather than|as (it|they) (was|were|came)|(was|were|had been|found) (on |in |fitted )?(the )?(wrong|other) way|put right)\b/iu;

function wasMarked({ history }: PartCell, { seq }: PartMoment): boolean {
  return history.some((it) => it.verb === "mark" && it.phase === "done" && it.seq < seq);
}

/** It was marked there before it came off, and nobody has said since why it goes elsewhere. */
function markOf(story: Story, cell: PartCell, { seq, from }: PartMoment): PartMoment | undefined {
  const there = story.cells(cell.thing.name).find((it) => it.kind === "part" && it.place === from);
  const marked = there?.kind === "part" ? lastBefore(there.history, seq, (it) => it.verb === "mark" && it.phase === "done") : undefined;
  if (marked === undefined) return undefined;
  const isSaid = (findingsOf(story).get(cell.thing.name) ?? []).some(
    (it) =>
      it.seq > marked.seq &&
      it.seq < seq &&
      (it.places.includes(cell.place) || it.places.includes(from ?? "")) &&
      it.entry.details.some(
        (line) => line.kind === "because" && putsOff(line.text?.value ?? "") === undefined && isOfChange(line.text?.value ?? "", [cell.place, from ?? ""]),
      ),
  );
  return isSaid ? undefined : marked;
}

/** It was scraped, bedded or lapped in at the place that it comes from, in this job, and not again where it goes. */
function fittedTo(story: Story, cell: PartCell, { seq, from }: PartMoment): PartMoment | undefined {
  const isFitted = (it: PartMoment) => it.verb === "repair" && it.phase === "done" && fittedIn.test(it.action?.text?.value ?? "");
  const there = story.cells(cell.thing.name).find((it) => it.kind === "part" && it.place === from);
  const fitted = there?.kind === "part" ? lastBefore(there.history, seq, isFitted) : undefined;
  if (fitted === undefined || cell.history.some((it) => it.seq > seq && isFitted(it))) return undefined;
  // A new one there since then was never fitted in.
  return there?.kind === "part" && there.history.some((it) => it.seq > fitted.seq && it.seq < seq && it.verb === "fit" && it.isNew) ? undefined : fitted;
}

/** To what it lies or turns in: a size that is ground or bored fits anywhere. */
const fittedIn =
  /\b(scraped|bedded|blued|lapped|ground|fitted|filed|reamed)\b,? (in\b|by hand\b|to (blue|its|the|a) ?(?!drawing|figure|size|limit|gauge)|on(to)? (its|the)\b|with (its|the)\b|against\b|together\b)/iu;

/** A reason that speaks of the places, or of what may be changed over: that it is pitted is none. */
function isOfChange(text: string, places: readonly string[]): boolean {
  const words = wordsOf(text);
  return ofChange.test(text) || places.some((place) => wordsOf(place.replaceAll("-", " ")).some((it) => words.includes(it)));
}

const ofChange =
  /\b(swap\w*|\w*chang\w*|turn\w*|cross\w*|over|rotat\w*|mov(e|ed|ing)\w*|other|opposite|round|put|goes|go|going|went|instead|either|alike|same|even\w*|hand(ed)?|sides?|places?|wrong|back|spare|both|fits?)\b/iu;

/** They were changed over before, and are changed back. */
function isHome({ place }: PartCell, { moved }: PartMoment): boolean {
  return moved.length > 0 && moved.every(({ madeFor }) => madeFor === place);
}

/** Found swapped at either of the two places: none is where it belongs. */
function foundSwapped(story: Story, cell: PartCell, { seq, from }: PartMoment): Found | undefined {
  return (findingsOf(story).get(cell.thing.name) ?? []).findLast(
    (it) =>
      it.seq < seq &&
      (it.places.includes(cell.place) || it.places.includes(from ?? "") || it.entry.places.length === 0) &&
      it.conditions.some(({ condition }) => condition.kind === "swapped"),
  );
}

/** Put where it belongs since: once, for a second exchange swaps them again. */
function isExchanged(cell: PartCell, { seq }: PartMoment, found: Found): boolean {
  return !cell.history.some(
    (it) => it.seq > found.seq && it.seq < seq && it.verb === "fit" && it.phase === "done" && it.from !== undefined && it.from !== cell.place,
  );
}
