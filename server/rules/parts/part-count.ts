// More or fewer than there should be.
import { isSamePlace } from "../../model/same-place.ts";
import { mostApart } from "../../model/largest.ts";
import type { ActionDetail } from "../../../grammar/tree.ts";
import { isBlankText } from "../../../grammar/blank-text.ts";
import type { Where } from "../../model/where.ts";
import { wholeNumber } from "../../model/declare.ts";
import type { Job } from "../../model/job.ts";
import { memo } from "../../model/memo.ts";
import { relationsOf } from "../../model/relations.ts";
import { workOrdered } from "../failures.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Story } from "../../story/story.ts";
import { isAllOver } from "../../story/actions.ts";
import { discardedAt, findingsOf } from "../../story/decisions.ts";
import { cameOffBeyond } from "../../story/pieces.ts";
import { completeSince } from "../../story/put-right.ts";
import { cellsFound, placeFound } from "../cells-found.ts";
import { curedReport } from "../found.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, called } from "../wording.ts";

export const rule: JobRule = {
  id: "part-count",
  group: "Parts",
  severity: "error; hint when cured",
  safety: true,
  title: "A wrong count: more or fewer than there should be",
  why: "A shim, a needle or a nut too few is somewhere it should not be, and one too many came from somewhere else. Count again, or correct the declared number.",
  wrong: `part shim "Hub shim"
  qty 2
step strip "Shims out"
  remove shim 3
#        ^^^^^^ error part-count
  done
`,
  right: `part shim "Hub shim"
  qty 2
step strip "Shims out"
  remove shim 2
  done
`,
  scope: "job",
  check(context) {
    const { story, report } = context;
    for (const { cell, where } of story.beyond)
      report({
        where,
        severity: "error",
        firm: true,
        message: `${called(cell.thing, cell.place)}: ${mostApart} of them are told apart by here, and no more are. From here on nothing is said of them. Write lines that speak of all of them, or declare some under a name of their own.`,
      });
    // A line that speaks of both sides is told once.
    const told = new Map<ActionDetail, Set<string>>();
    const isTold = (action: ActionDetail, name: string) => {
      const names = told.get(action) ?? new Set();
      const known = names.has(name);
      told.set(action, names.add(name));
      return known;
    };
    for (const cell of [...story.fasteners, ...story.parts]) {
      if (cell.unsure || cell.thing.implied) continue;
      const history = cell.history as (FastenerCell | PartCell)["history"];
      history.forEach((it, i) => {
        const written = it.action === undefined ? undefined : countsIn(it.action).get(cell.thing.name);
        const says = wholeNumber(written?.text);
        if ((written !== undefined && says === undefined && !isBlankText(written.text)) || says === 0) {
          const { text } = written as NonNullable<typeof written>;
          if (!isTold(it.action as ActionDetail, cell.thing.name))
            report({
              where: withCount(it, cell.thing.name),
              severity: "error",
              message: `${text} of them? A count is a whole number, one or more. Write how many there were.`,
            });
          return;
        }
        if (worksOn.has(it.verb) && says !== undefined && says > cell.total && !isAllOver(says, spokenOf(story, cell.thing.name, it.action))) {
          if (isTold(it.action as ActionDetail, cell.thing.name)) return;
          const each = (it.action?.places.length ?? 0) === 1 || cell.place === "" ? "" : " at each place";
          report({
            where: withCount(it, cell.thing.name),
            severity: "error",
            message: `${called(cell.thing, each === "" ? cell.place : "")}: ${says} are written here and there ${cell.total === 1 ? "is" : "are"} ${cell.total}${each}. Count them again, or correct the declared number.`,
          });
          return;
        }
        if (says !== undefined && isNumberedShort(history, i, cell.thing.name, says, cell.total)) {
          if (!isTold(it.action as ActionDetail, cell.thing.name))
            report({
              where: withCount(it, cell.thing.name),
              severity: "error",
              message: `${called(cell.thing, cell.place)}: a figure behind a name is how many, not which one. So 1 and so on to ${says} are ${(says * (says + 1)) / 2} of ${cell.total} by count, and by number the last ${cell.total - says === 1 ? "one was" : `${cell.total - says} were`} left out. Write one line that says how many.`,
            });
          return;
        }
        const run = says === undefined ? undefined : numberedRun(history, i, cell.thing.name, cell.total);
        if (run !== undefined) {
          if (!isTold(it.action as ActionDetail, cell.thing.name))
            report({
              where: withCount(it, cell.thing.name),
              severity: "error",
              message: `${called(cell.thing, cell.place)}: a figure behind a name is how many, not which one. ${inWords(run)} are ${run.reduce((sum, count) => sum + count, 0)} of ${cell.total} by count, and by number ${run.length} of ${cell.total}. Write one line that says how many were ${done[it.verb as "tighten" | "lock"]}.`,
            });
          return;
        }
        if (it.verb !== "remove" && it.verb !== "undo" && it.verb !== "fit") return;
        // Most counts are right: how it is called is asked for where one is not.
        const name = () => called(cell.thing, cell.place);
        const at = () => withCount(it, cell.thing.name);
        const again = () =>
          says !== undefined && isNumbered(history, i, cell.thing.name, says)
            ? "A figure behind a name is how many, not which one: write one line that says how many."
            : "Count them again, or correct the declared number.";
        const should = () => `there should be ${cell.total}`;
        if ((it.verb === "remove" || it.verb === "undo") && it.count > it.before.on && it.before.on > 0 && !isSaidExtra(story, cell, it)) {
          report({
            where: at(),
            severity: "error",
            message: `${name()}: ${it.count} come off and ${it.before.on} ${it.before.on === 1 ? "is" : "are"} on. ${numberFound(cell, it, context.line) ?? "Count them again, or correct the declared number."}`,
          });
        }
        const cameOff = it.verb === "fit" || it.before.on > 0 ? undefined : offSince(history, i, cell.thing.name);
        if (cameOff !== undefined && !isTold(it.action as ActionDetail, cell.thing.name))
          report({
            where: at(),
            severity: "error",
            message: `${name()} came off on line ${context.line(cameOff.where)} and ${agreeing(cell.thing, "is")} not back. Is another meant here? If it was on again, write \`fit ${cell.thing.name}\` between the two.`,
            related: [{ where: cameOff.where, message: "It came off here." }],
          });
        if (it.verb === "fit" && it.over.length > 0 && !("stillBehind" in it && it.stillBehind.length > 0) && !cameOffUnsaid(story, cell, it)) {
          const never = !history.some((was) => was.seq < it.seq && was.after.on < was.before.on);
          const off = cell.kind === "part" ? "remove" : "undo";
          report({
            where: at(),
            severity: "error",
            message: never
              ? `${name()}: a new one is fitted, and nothing says that the old one came off. Write \`${off} ${cell.thing.name}\` before it, in a step of whoever took it apart.`
              : `${name()}: ${it.before.on + it.count} would be on and ${should()}. ${again()}`,
          });
        } else if (it.verb === "fit" && it.after.on > cell.total && it.after.on > it.before.on) {
          report({
            where: at(),
            severity: "error",
            message: `${name()}: ${it.after.on} would be on and ${should()}. ${again()}`,
          });
        }
        // Fewer: the step's last word on it leaves some out, and it said how many.
        const explicit = "counted" in it ? it.counted : it.action?.things.some((thing) => thing.name.text === cell.thing.name && thing.count !== undefined);
        // What was found missing is said by its own rule until it is there.
        const isShort = it.verb === "fit" && explicit === true && it.after.on < cell.total;
        if (isShort && it.after.on < cell.total - missingBy(cell, it.seq) - discardedAt(story, cell) && leftSo(history, i) && !mayBeInBlank(it)) {
          const cure = completeSince(cell, it.seq);
          // The rest may be in the tray still.
          const isUnderWay = it.phase === "done" && it === history.at(-1) && story.release === undefined;
          report(
            curedReport(
              context,
              at(),
              "error",
              isUnderWay
                ? `${name()}: ${it.after.on} of ${cell.total} ${it.after.on === 1 ? "is" : "are"} on so far. Fit the rest, or correct the declared number.`
                : `${name()}: ${it.after.on} ${it.after.on === 1 ? "is" : "are"} on and ${should()}. Fit what is missing, or correct the declared number.`,
              [cure === undefined ? undefined : { ...cure, planned: cure.planned && it.phase === "done" }],
            ),
          );
        }
      });
    }
    for (const found of story.findings) {
      const cells = cellsFound(story, found).filter((cell): cell is FastenerCell | PartCell => cell.kind !== "fluid");
      const total = cells.reduce((sum, cell) => sum + cell.total, 0);
      if (found.count !== undefined && cells.length > 0 && !found.thing.implied && found.count > total) {
        report({
          where: found.where,
          severity: "error",
          message: `${called(found.thing, placeFound(found))}: the finding says ${found.count} and there should be ${total}. Count them again, or correct the declared number.`,
        });
      }
      for (const { condition, where } of found.conditions) {
        if (condition.kind !== "extra") continue;
        const count = wholeNumber(condition.count?.text) ?? 1;
        const cures = cells.map((cell) => {
          const history: readonly (PartMoment | FastenerMoment)[] = cell.history;
          const beyond = cameOffBeyond(cell, found.seq);
          const moment = history.find((it) =>
            beyond !== undefined && beyond.more >= count
              ? it.seq === beyond.seq
              : // Of two too many, one that came out leaves one.
                it.seq > found.seq && (it.verb === "remove" || it.verb === "undo") && it.after.on <= cell.total,
          );
          return moment === undefined ? undefined : { moment, planned: moment.phase === "planned" };
        });
        report(
          curedReport(
            context,
            where,
            "error",
            `${called(found.thing, placeFound(found))}: ${count} more than there should be. Find out where it belongs, and take it out.`,
            cures,
          ),
        );
      }
    }
  },
};

/** Counted as they came off, and the finding below says that those were too many. */
function isSaidExtra(story: Story, cell: FastenerCell | PartCell, it: FastenerMoment | PartMoment): boolean {
  return (findingsOf(story).get(cell.thing.name) ?? []).some(
    (found) =>
      found.places.includes(cell.place) &&
      cameOffBeyond(cell, found.seq)?.seq === it.seq &&
      found.conditions.some(({ condition }) => condition.kind === "extra" && (wholeNumber(condition.count?.text) ?? 1) >= it.count - it.before.on),
  );
}

/** What a line counts, by name: asked for each cell of a line that may name thousands. */
const countsIn = memo(
  (action: ActionDetail) => new Map(action.things.flatMap(({ name, count }) => (count === undefined ? [] : [[name.text, count] as const]))),
);

/** The cells that a line speaks of. */
function spokenOf(story: Story, name: string, action: ActionDetail | undefined): readonly (FastenerCell | PartCell)[] {
  const places = action?.places ?? [];
  return story
    .cells(name)
    .filter(
      (it): it is FastenerCell | PartCell =>
        (it.kind === "part" || it.kind === "fastener") && (places.length === 0 || places.some(({ text }) => text === it.place)),
    );
}

const worksOn: ReadonlySet<string> = new Set(["slacken", "tighten", "lock", "repair", "mark"]);

/**
 * The old one came off without a line of its own: what only locks comes off with its fastener; what is renewed with a part comes off with that; and what
 * is renewed whenever it is disturbed is bared when what is before it is off.
 */
function cameOffUnsaid(story: Story, cell: PartCell | FastenerCell, it: PartMoment | FastenerMoment): boolean {
  // Nothing says that there ever was an old one: it is added, or stands for another by its own name.
  const { behind } = relationsOf(story.job);
  const belongs = cell.kind === "fastener" || cell.thing.heldBy.length > 0 || cell.thing.behind.length > 0 || behind.has(cell.thing.name);
  if (!belongs && cell.thing.perPlace === undefined && cell.history[0] === it && it.over.every((lot) => lot.notes.length === 0)) return true;
  // What was sent out is off.
  if (workOrdered(story, cell)) return true;
  if (cameApart(story, cell, it)) return true;
  if (cell.kind !== "part" || !("overOff" in it)) return false;
  const since = cell.history.findLast((was) => was.seq < it.seq && was.verb === "fit")?.seq ?? -1;
  const opened = (name: string, verbs: readonly string[]) =>
    story
      .cells(name)
      .some(
        (other) =>
          (other.kind === "part" || other.kind === "fastener") &&
          isSamePlace(other.place, cell.place) &&
          (other.history as readonly (PartMoment | FastenerMoment)[]).some((was) => was.seq > since && was.seq < it.seq && verbs.includes(was.verb)),
      );
  for (const other of lockedByPart(story.job).get(cell.thing.name) ?? []) if (opened(other, ["undo", "slacken", "found", "fit"])) return true;
  if (cell.thing.renewWith.some((name) => opened(name.text, ["remove"]))) return true;
  return (
    (cell.thing.renew || cell.thing.renewWith.length > 0) &&
    (cell.thing.behind.some((name) => opened(name.text, ["remove"])) || cell.thing.heldBy.some((name) => opened(name.text, ["undo"])))
  );
}

/**
 * It came apart before this job, and lies in boxes: what it holds, or what it is behind or held by, went on from there; or some old piece of the machine did, and nothing
 * had come off by then.
 */
function cameApart(story: Story, cell: PartCell | FastenerCell, it: PartMoment | FastenerMoment): boolean {
  const { firstOff, beganOff } = boxesOf(story);
  if (beganOff.size === 0) return false;
  if (it.seq < firstOff) return true;
  const { holds } = relationsOf(story.job);
  const around =
    cell.kind === "fastener"
      ? (holds.get(cell.thing.name) ?? []).map((part) => part.name)
      : [...cell.thing.behind, ...cell.thing.heldBy].map((name) => name.text);
  return around.some((name) => [...(beganOff.get(name) ?? [])].some((place) => isSamePlace(place, cell.place)));
}

interface Boxes {
  /** The number of the first line that took anything off. */
  readonly firstOff: number;
  /** The names, and the places, of old ones that went on and never came off here. */
  readonly beganOff: ReadonlyMap<string, ReadonlySet<string>>;
}

const boxesOf = memo((story: Story): Boxes => {
  let firstOff = Number.POSITIVE_INFINITY;
  const beganOff = new Map<string, Set<string>>();
  for (const cell of [...story.fasteners, ...story.parts])
    for (const it of cell.history as readonly (PartMoment | FastenerMoment)[]) {
      if (it.verb === "undo" || it.verb === "remove" || it.verb === "slacken") firstOff = Math.min(firstOff, it.seq);
      if (it.verb === "fit" && it.beganOff && it.phase === "done" && !cell.thing.implied)
        beganOff.set(cell.thing.name, (beganOff.get(cell.thing.name) ?? new Set<string>()).add(cell.place));
    }
  return { firstOff, beganOff };
});

/** Part -> the fasteners that it locks. */
const lockedByPart = memo((job: Job) => {
  const by = new Map<string, string[]>();
  for (const thing of job.things.values()) {
    const part = thing.kind === "fastener" ? thing.locking?.locking.part?.text : undefined;
    if (part === undefined) continue;
    const list = by.get(part);
    if (list === undefined) by.set(part, [thing.name]);
    else list.push(thing.name);
  }
  return by;
});

/** How many were found missing before and are not back. */
function missingBy(cell: PartCell | FastenerCell, seq: number): number {
  let gone = 0;
  for (const it of cell.history as readonly (PartMoment | FastenerMoment)[]) {
    if (it.seq > seq) break;
    if (it.verb === "found") gone += Math.max(0, it.before.on + it.before.off - it.after.on - it.after.off);
  }
  return gone;
}

/** The step goes on to nothing that brings the others: what tightens or locks after it leaves as many on as there were. */
function leftSo(history: readonly (FastenerMoment | PartMoment)[], index: number): boolean {
  const it = history[index] as FastenerMoment | PartMoment;
  for (const next of history.slice(index + 1)) {
    if (next.visit !== it.visit) break;
    if (next.verb === "fit" || next.verb === "undo" || next.verb === "remove" || next.after.on !== it.after.on) return false;
  }
  return true;
}

/** The line by its name that took off the last of what was on, where another takes it off again. */
function offSince(history: readonly (FastenerMoment | PartMoment)[], index: number, name: string): FastenerMoment | PartMoment | undefined {
  const isByName = ({ action }: FastenerMoment | PartMoment) => action?.things.some((it) => it.name.text === name) === true;
  if (!isByName(history[index] as FastenerMoment | PartMoment)) return undefined;
  for (let i = index - 1; i >= 0; i--) {
    const was = history[i] as FastenerMoment | PartMoment;
    if (was.after.on > 0 || was.verb === "fit") return undefined;
    if (was.before.on > 0) return (was.verb === "remove" || was.verb === "undo") && isByName(was) ? was : undefined;
  }
  return undefined;
}

/**
 * Tightened or locked one, two, three of four, line behind line in one step: no fewer by count than there are, so they were numbered and not counted, and it stops
 * before the last. Where it goes on to the last, nothing is left out. This is the last line of such a run.
 */
function isNumberedShort(history: readonly (FastenerMoment | PartMoment)[], index: number, name: string, says: number, total: number): boolean {
  const last = history[index] as FastenerMoment | PartMoment;
  if (says < 3 || says >= total || (says * (says + 1)) / 2 < total || (last.verb !== "tighten" && last.verb !== "lock")) return false;
  for (let i = index + 1; history[i]?.visit === last.visit && i < history.length; i++) {
    if (history[i]?.verb !== last.verb) continue;
    if (countAt(history[i], name) === says + 1) return false;
    break;
  }
  return isNumbered(history, index, name, says);
}

/**
 * Lines of one verb, one under the other and alike but for their figures, no two of which are the same: where one of them counts more than are left to do, they are numbers. All numbers
 * from one to the last are all of them. This is the last line of such a run; its figures.
 */
function numberedRun(history: readonly (FastenerMoment | PartMoment)[], index: number, name: string, total: number): readonly number[] | undefined {
  const last = history[index] as FastenerMoment | PartMoment;
  if ((last.verb !== "tighten" && last.verb !== "lock") || last.phase !== "done" || last.action === undefined || last.visit === undefined) return undefined;
  if (history[index + 1] !== undefined && goesOn(history, index + 1, last, name)) return undefined;
  const run: { readonly count: number; readonly open: number }[] = [];
  for (let i = index; i >= 0; i--) {
    const it = history[i] as FastenerMoment;
    if (it.visit !== last.visit || it.action === undefined || it.action.things.length !== 1 || !isNextTo(it, history[i + 1], i === index)) break;
    if (it.verb !== last.verb) continue;
    const count = countAt(it, name);
    if (count === undefined || !isAlikeBut(it.action, last.action)) break;
    run.unshift({ count, open: it.before.lots.reduce((sum, lot) => sum + ((last.verb === "lock" ? lot.locked : lot.tight) ? 0 : lot.count), 0) });
  }
  const counts = run.map((it) => it.count);
  if (counts.length < 2 || new Set(counts).size < counts.length || counts.length === total) return undefined;
  return run.some(({ count, open }, i) => i > 0 && open > 0 && count > open) ? counts : undefined;
}

/** The same lines go on below. */
function goesOn(history: readonly (FastenerMoment | PartMoment)[], from: number, last: FastenerMoment | PartMoment, name: string): boolean {
  for (let i = from; history[i]?.visit === last.visit && i < history.length; i++) {
    const it = history[i] as FastenerMoment | PartMoment;
    if (!isNextTo(history[i - 1] as FastenerMoment | PartMoment, it, false)) return false;
    if (it.verb === last.verb) return countAt(it, name) !== undefined && it.action !== undefined && isAlikeBut(it.action, last.action as ActionDetail);
  }
  return false;
}

/** One line under the other. */
function isNextTo(it: FastenerMoment | PartMoment, next: FastenerMoment | PartMoment | undefined, isLast: boolean): boolean {
  return isLast || (next?.action !== undefined && it.action !== undefined && next.action.row - it.action.row === 1);
}

/** Two lines say the same but for how many. */
function isAlikeBut(one: ActionDetail, other: ActionDetail): boolean {
  return saidBesides(one) === saidBesides(other);
}

const saidBesides = memo(({ places, isNew, forNow, to, stages, angle, by, text, with: locking }: ActionDetail) =>
  JSON.stringify([
    places.map((it) => it.text),
    isNew !== undefined,
    forNow?.value,
    to === undefined ? undefined : [to.figure.text, to.unit?.text],
    stages?.map((it) => it.figure.text),
    angle?.figure.text,
    by?.text,
    text?.value,
    locking && [locking.kind, locking.words, locking.size.map((it) => it.figure.text), locking.part?.text],
  ]),
);

function inWords(counts: readonly number[]): string {
  return `${counts.slice(0, -1).join(", ")} and ${counts.at(-1)}`;
}

const done = { tighten: "done up", lock: "locked" } as const;

/** The lines of one verb in one step count one, two, and so on up to this one: whoever writes so tells which one, and not how many. */
function isNumbered(history: readonly (FastenerMoment | PartMoment)[], index: number, name: string, says: number): boolean {
  const last = history[index] as FastenerMoment | PartMoment;
  let next = says;
  for (let i = index; i >= 0 && next > 0 && history[i]?.visit === last.visit; i--) {
    if (history[i]?.verb !== last.verb) continue;
    if (countAt(history[i], name) !== next) return false;
    next--;
  }
  return says > 1 && next === 0;
}

function countAt(it: FastenerMoment | PartMoment | undefined, name: string): number | undefined {
  return it?.action === undefined ? undefined : wholeNumber(countsIn(it.action).get(name)?.text);
}

/** Planned, with a `fit ___` in the same step: what is missing may be what is filled in there. Done, it says nothing. */
function mayBeInBlank({ phase, visit }: FastenerMoment | PartMoment): boolean {
  if (phase !== "planned") return false;
  return visit?.entry.details.some((it) => it.kind === "action" && it.verb === "fit" && it.things.length === 0 && it.blanks !== undefined) ?? false;
}

/** Some were found missing by a figure behind the name: whoever meant which one, and not how many, is told so where the count comes out wrong. */
function numberFound(cell: PartCell | FastenerCell, it: PartMoment | FastenerMoment, line: (where: Where) => string): string | undefined {
  const found = (cell.history as readonly (PartMoment | FastenerMoment)[]).findLast(
    (was) => was.seq < it.seq && was.found?.count !== undefined && was.found.count > 1 && was.before.on > was.after.on,
  )?.found;
  if (found?.count === undefined) return undefined;
  return `Line ${line(found.where)} says that ${found.count} are missing: a figure behind a name is how many, not which one. If it is one, write 1 there.`;
}

/** The name and the count behind it. */
function withCount(it: { readonly where: Where; readonly action: ActionDetail | undefined }, name: string): Where {
  const thing = it.action?.things.find((one) => one.name.text === name);
  return thing?.count === undefined ? it.where : { ...it.where, at: { from: thing.name.at.from, to: thing.count.at.to } };
}
