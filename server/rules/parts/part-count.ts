// More or fewer than there should be.
import { mostApart } from "../../model/largest.ts";
import type { ActionDetail } from "../../../grammar/tree.ts";
import { isBlankText } from "../../../grammar/blank-text.ts";
import type { Where } from "../../model/where.ts";
import { wholeNumber } from "../../model/declare.ts";
import type { Job } from "../../model/job.ts";
import { relationsOf } from "../../model/relations.ts";
import type { FastenerCell, FastenerMoment, Found, PartCell, PartMoment, Story } from "../../story/story.ts";
import { isAllOver } from "../../story/actions.ts";
import { discardedAt, findingsOf } from "../../story/decisions.ts";
import { cameOffBeyond } from "../../story/pieces.ts";
import { type Cure, completeSince } from "../../story/put-right.ts";
import { cellsFound, placeFound } from "../cells-found.ts";
import { curedReport } from "../found.ts";
import type { JobContext, JobRule, Report } from "../rule.ts";
import { agreeing, called } from "../wording.ts";
import { cameOffUnsaid } from "./shared/came-off-unsaid.ts";
import { countsIn, isNumbered, isNumberedShort, numberedRun } from "./shared/numbered-lines.ts";

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
      const history: readonly Counted["it"][] = cell.history;
      for (const [index, it] of history.entries()) {
        const written = it.action === undefined ? undefined : countsIn(it.action).get(cell.thing.name);
        const line: Counted = { context, cell, history, index, it, written: written?.text, says: wholeNumber(written?.text) };
        const wrong = wrongByItself(line);
        if (wrong !== undefined) {
          if (!isTold(it.action as ActionDetail, cell.thing.name)) report(atCount(line, wrong));
          continue;
        }
        if (it.verb !== "remove" && it.verb !== "undo" && it.verb !== "fit") continue;
        const again = offAlready(line);
        const isSaid = again !== undefined && isTold(it.action as ActionDetail, cell.thing.name);
        for (const wrong of [moreOffThanOn(line), isSaid ? undefined : again, takenFromWhereItIsOn(line), tooManyOn(line), tooFewOn(line)])
          if (wrong !== undefined) report(wrong);
      }
    }
    for (const found of story.findings) for (const it of foundTooMany(context, found)) report(it);
  },
};

/** What a line of a step makes of one thing at one place, and the count that it writes. */
interface Counted {
  readonly context: JobContext;
  readonly cell: FastenerCell | PartCell;
  readonly history: readonly (FastenerMoment | PartMoment)[];
  /** Where it stands in the history. */
  readonly index: number;
  readonly it: FastenerMoment | PartMoment;
  /** The count as it is written, and as a whole number. */
  readonly written: string | undefined;
  readonly says: number | undefined;
}

const whichOne = "a figure behind a name is how many, not which one";
const countAgain = "Count them again, or correct the declared number.";

function atCount({ it, cell }: Counted, message: string): Report {
  return { where: withCount(it, cell.thing.name), severity: "error", message };
}

/** What is wrong with the figure whatever was on before: then nothing else is asked of the line. */
function wrongByItself(line: Counted): string | undefined {
  const { context, cell, history, index, it, written, says } = line;
  if (written === undefined) return undefined;
  const isShims = context.job.things.get(cell.thing.name)?.kind === "shims";
  if (says === undefined && !isBlankText(written) && isShims)
    return `${written} is no count. How thick they are is written under the shims: \`shims ${cell.thing.name}\`, and below it \`fitted …\` with all that are in now; here only how many.`;
  if ((says === undefined && !isBlankText(written)) || says === 0)
    return `${written} of them? A count is a whole number, one or more. Write how many there were.`;
  if (says === undefined) return undefined;
  const { thing, place, total } = cell;
  if (worksOn.has(it.verb) && says > total && !isAllOver(says, spokenOf(context.story, thing.name, it.action))) {
    const each = (it.action?.places.length ?? 0) === 1 || place === "" ? "" : " at each place";
    return `${called(thing, each === "" ? place : "")}: ${says} are written here and there ${total === 1 ? "is" : "are"} ${total}${each}. ${countAgain}`;
  }
  if (isNumberedShort(history, index, thing.name, says, total))
    return `${called(thing, place)}: ${whichOne}. So 1 and so on to ${says} are ${(says * (says + 1)) / 2} of ${total} by count, and by number the last ${total - says === 1 ? "one was" : `${total - says} were`} left out. Write one line that says how many.`;
  const run = numberedRun(history, index, thing.name, total);
  if (run === undefined) return undefined;
  return `${called(thing, place)}: ${whichOne}. ${inWords(run)} are ${run.reduce((sum, count) => sum + count, 0)} of ${total} by count, and by number ${run.length} of ${total}. Write one line that says how many were ${done[it.verb as "tighten" | "lock"]}.`;
}

function moreOffThanOn(line: Counted): Report | undefined {
  const { context, cell, it } = line;
  const { on } = it.before;
  if (it.verb === "fit" || it.count <= on || on === 0 || isSaidExtra(context.story, cell, it)) return undefined;
  return atCount(
    line,
    `${called(cell.thing, cell.place)}: ${it.count} come off and ${on} ${on === 1 ? "is" : "are"} on. ${numberFound(cell, it, context.line) ?? countAgain}`,
  );
}

/** All came off by another line, and none went back. */
function offAlready(line: Counted): Report | undefined {
  const { context, cell, history, index, it } = line;
  const before = it.verb === "fit" || it.before.on > 0 ? undefined : offSince(history, index, cell.thing.name);
  if (before === undefined) return undefined;
  return {
    ...atCount(
      line,
      `${called(cell.thing, cell.place)} came off on line ${context.line(before.where)} and ${agreeing(cell.thing, "is")} not back. Is another meant here? If it was on again, write \`fit ${cell.thing.name}\` between the two.`,
    ),
    related: [{ where: before.where, message: "It came off here." }],
  };
}

/** Put in from another place, where nothing came off: it can't be at both. */
function takenFromWhereItIsOn(line: Counted): Report | undefined {
  const { context, cell, it } = line;
  if (it.verb !== "fit" || it.isNew || it.from === undefined || it.from === cell.place || it.phase !== "done") return undefined;
  const source = context.story.cell(cell.thing.name, it.from);
  if ((source?.kind !== "part" && source?.kind !== "fastener") || source.unsure || source.place !== it.from) return undefined;
  const moments = source.history as readonly (FastenerMoment | PartMoment)[];
  // What came off there at any time may lie in the tray.
  if (moments.some((was) => was.seq < it.seq && (was.after.on < was.before.on || was.after.off > 0))) return undefined;
  return atCount(
    line,
    `${called(cell.thing, source.place)} ${agreeing(cell.thing, "is")} on, and can't go in at ${cell.place} too. Write what came off there, or take \`from ${it.from}\` out.`,
  );
}

function tooManyOn(line: Counted): Report | undefined {
  const { context, cell, history, index, it, says } = line;
  const { thing, place, total } = cell;
  if (it.verb !== "fit") return undefined;
  const isOverOld = it.over.length > 0 && !("stillBehind" in it && it.stillBehind.length > 0) && !cameOffUnsaid(context.story, cell, it);
  if (!isOverOld && (it.after.on <= total || it.after.on <= it.before.on)) return undefined;
  if (isOverOld && !history.some((was) => was.seq < it.seq && was.after.on < was.before.on))
    return atCount(
      line,
      `${called(thing, place)}: a new one is fitted, and nothing says that the old one came off. Write \`${cell.kind === "part" ? "remove" : "undo"} ${thing.name}\` before it, in a step of whoever took it apart.`,
    );
  const on = isOverOld ? it.before.on + it.count : it.after.on;
  const advice =
    says !== undefined && isNumbered(history, index, thing.name, says)
      ? "A figure behind a name is how many, not which one: write one line that says how many."
      : `Count them again, ${orDeclare(context.job, cell, on)}.`;
  return atCount(line, `${called(thing, place)}: ${on} would be on and there should be ${total}. ${advice}`);
}

/** The step's last word on it leaves some out, and it said how many. */
function tooFewOn(line: Counted): Report | undefined {
  const { context, cell, history, index, it } = line;
  const { total } = cell;
  const { on } = it.after;
  const isCounted = "counted" in it ? it.counted : it.action?.things.some((thing) => thing.name.text === cell.thing.name && thing.count !== undefined);
  if (it.verb !== "fit" || isCounted !== true || on >= total) return undefined;
  // What was found missing is said by its own rule until it is there.
  if (on >= total - missingBy(cell, it.seq) - discardedAt(context.story, cell) || !leftSo(history, index) || mayBeInBlank(it)) return undefined;
  const cure = completeSince(cell, it.seq);
  // The rest may be in the tray still.
  const isUnderWay = it.phase === "done" && it === history.at(-1) && context.story.release === undefined;
  const [so, what] = isUnderWay
    ? [`${on} of ${total} ${on === 1 ? "is" : "are"} on so far`, "the rest"]
    : [`${on} ${on === 1 ? "is" : "are"} on and there should be ${total}`, "what is missing"];
  return curedReport(
    context,
    withCount(it, cell.thing.name),
    "error",
    `${called(cell.thing, cell.place)}: ${so}. Fit ${what}, ${orDeclare(context.job, cell, on)}.`,
    [cure === undefined ? undefined : { ...cure, planned: cure.planned && it.phase === "done" }],
  );
}

/** What sets something may be another number from now on, and was what it was until then: the number at the head of the sheet stays. */
function orDeclare(job: Job, { kind, thing }: FastenerCell | PartCell, now: number): string {
  if (kind !== "part" || !relationsOf(job).sets.has(thing.name)) return "or correct the declared number";
  return `or, if ${now} set it now, write \`part ${thing.name}\` and \`${thing.placeKind === undefined ? "qty" : `each ${thing.placeKind.text}`} ${now}\` above this step`;
}

/** A finding that counts more than there should be, or says of some that they are too many. */
function foundTooMany(context: JobContext, found: Found): readonly Report[] {
  const out: Report[] = [];
  const cells = cellsFound(context.story, found).filter((cell): cell is FastenerCell | PartCell => cell.kind !== "fluid");
  const total = cells.reduce((sum, cell) => sum + cell.total, 0);
  const name = () => called(found.thing, placeFound(found));
  if (found.count !== undefined && cells.length > 0 && !found.thing.implied && found.count > total)
    out.push({ where: found.where, severity: "error", message: `${name()}: the finding says ${found.count} and there should be ${total}. ${countAgain}` });
  for (const { condition, where } of found.conditions) {
    if (condition.kind !== "extra") continue;
    const count = wholeNumber(condition.count?.text) ?? 1;
    const cures = cells.map((cell) => cameOut(cell, found, count));
    out.push(curedReport(context, where, "error", `${name()}: ${count} more than there should be. Find out where it belongs, and take it out.`, cures));
  }
  return out;
}

/** The line by which those that a finding says are too many came out. */
function cameOut(cell: FastenerCell | PartCell, { seq }: Found, count: number): Cure | undefined {
  const history: readonly (PartMoment | FastenerMoment)[] = cell.history;
  const beyond = cameOffBeyond(cell, seq);
  const moment = history.find((it) =>
    beyond !== undefined && beyond.more >= count
      ? it.seq === beyond.seq
      : // Of two too many, one that came out leaves one.
        it.seq > seq && (it.verb === "remove" || it.verb === "undo") && it.after.on <= cell.total,
  );
  return moment === undefined ? undefined : { moment, planned: moment.phase === "planned" };
}

/** Counted as they came off, and the finding below says that those were too many. */
function isSaidExtra(story: Story, cell: FastenerCell | PartCell, it: FastenerMoment | PartMoment): boolean {
  return (findingsOf(story).get(cell.thing.name) ?? []).some(
    (found) =>
      found.places.includes(cell.place) &&
      cameOffBeyond(cell, found.seq)?.seq === it.seq &&
      found.conditions.some(({ condition }) => condition.kind === "extra" && (wholeNumber(condition.count?.text) ?? 1) >= it.count - it.before.on),
  );
}

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

function inWords(counts: readonly number[]): string {
  return `${counts.slice(0, -1).join(", ")} and ${counts.at(-1)}`;
}

const done = { tighten: "done up", lock: "locked" } as const;

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
