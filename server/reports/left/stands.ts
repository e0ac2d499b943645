// How things stood at a moment: what is off, slack, unlocked, for now, away, drained, live or hanging, each with the line that left it so.
// Invariant: done work only, up to that moment; told cell by cell, and nothing is judged.
import { ordersOf } from "../../model/orders.ts";
import { midSentence, orderText } from "../../model/titles.ts";
import type { Where } from "../../model/where.ts";
import { awayAt } from "../../story/away.ts";
import { heldAgain } from "../../story/held-again.ts";
import { isOpen } from "../../story/standing.ts";
import { type Cell, type FastenerCell, type FluidCell, type Moment, type PartCell, type Story, type SupportState, hangsOn } from "../../story/story.ts";

export type GroupName =
  | "Unsafe"
  | "Hanging"
  | "Live"
  | "Off"
  | "Slack"
  | "Not locked"
  | "In for now"
  | "Drained"
  | "Away"
  | "Made safe"
  | "Held up"
  | "Not to be trusted"
  | "Wrong in what is planned"
  | "Not clear on the sheet"
  | "Waiting for an answer";

/** A row of that group, with the line that it comes from, and where it is. */
export type Put = (name: GroupName, text: string, from: Where, place?: string) => void;

/** All that was done before `seq`; `day`: for what is away. */
export function standsAt(story: Story, seq: number, day: string | undefined, put: Put): void {
  for (const cell of story.parts) partLeft(cell, seq, put);
  for (const cell of story.fasteners) fastenerLeft(cell, seq, put);
  for (const cell of story.fluids) {
    const state = stateAt(cell, seq);
    const last = lastAt(cell, seq);
    if (last === undefined) continue;
    if (!state.full) put("Drained", midSentence(cell.thing), (ranOut(cell, seq) ?? last).where, cell.place);
    else if (cell.thing.needsBleed && state.airIn) put("Drained", `${midSentence(cell.thing)}: filled, not bled`, last.where, cell.place);
  }
  for (const thing of story.job.things.values()) {
    // One that no line touched is live from the start, if it does not arise later.
    const cell = thing.kind === "hazard" ? story.cells(thing.name)[0] : undefined;
    if (cell?.kind !== "hazard") continue;
    const live = stateAt(cell, seq);
    const last = lastAt(cell, seq);
    const home = last?.where ?? { file: cell.thing.file, entry: cell.thing.entry, row: 0, at: cell.thing.at };
    if (live) put("Live", midSentence(cell.thing), home);
    else if (last !== undefined) {
      const how = cell.history.findLast((it) => it.seq < seq && it.verb === "safe")?.action?.text?.value;
      put("Made safe", `${midSentence(cell.thing)}${how === undefined ? "" : ` (${how})`}`, home);
    }
  }
  supportLeft(story, seq, put);
  for (const name of ordersOf(story.job).work.keys()) awayLeft(story, name, day, put);
}

function partLeft(cell: PartCell, seq: number, put: Put): void {
  const state = stateAt(cell, seq);
  const last = lastAt(cell, seq);
  if (last === undefined) return;
  const short = cell.total - state.on;
  // A line that can't be read may have put it back, or not: nobody is to find out with the machine running.
  if (cell.unsure && short > 0) put("Off", `${midSentence(cell.thing)} (a line about it can't be read)`, cameOff(cell, seq) ?? last.where, cell.place);
  else if (cell.unsure) return;
  else if (short > 0)
    put("Off", `${midSentence(cell.thing)}${cell.total > 1 ? ` (${short} of ${cell.total})` : ""}`, cameOff(cell, seq) ?? last.where, cell.place);
  else if (state.forNow) put("In for now", `${midSentence(cell.thing)}${why(cell, seq)}`, last.where, cell.place);
}

function fastenerLeft(cell: FastenerCell, seq: number, put: Put): void {
  const state = stateAt(cell, seq);
  const last = lastAt(cell, seq);
  if (last === undefined) return;
  const name = midSentence(cell.thing);
  const short = cell.total - state.on;
  if (cell.unsure) {
    if (short > 0 || !state.tight) put(short > 0 ? "Off" : "Slack", `${name} (a line about it can't be read)`, cameOff(cell, seq) ?? last.where, cell.place);
    return;
  }
  if (short > 0) put("Off", `${name}${cell.total > 1 ? ` (${short} of ${cell.total})` : ""}`, cameOff(cell, seq) ?? last.where, cell.place);
  else if (!state.tight && !(cell.thing.torque?.none ?? false)) put("Slack", name, last.where, cell.place);
  else if (isOpen(cell, state)) put("Not locked", name, last.where, cell.place);
  if (state.forNow && short <= 0) put("In for now", `${name}${why(cell, seq)}`, last.where, cell.place);
}

/** The line by which it came off, not the one that says what was then seen of it. */
function cameOff(cell: PartCell | FastenerCell, seq: number): Where | undefined {
  const history = cell.history as readonly (Moment & { before: { on: number }; after: { on: number } })[];
  return history.findLast((it) => it.seq < seq && it.after.on < it.before.on)?.where;
}

/** The line by which it ran out or was let out, not the one that says what was then found of it. */
function ranOut(cell: FluidCell, seq: number): Moment | undefined {
  return cell.history.findLast((it) => it.seq < seq && it.before.full && !it.after.full);
}

function why(cell: PartCell | FastenerCell, seq: number): string {
  const it = (cell.history as readonly (Moment & { forNow: boolean; action: FastenerCell["history"][number]["action"] })[]).findLast(
    (moment) => moment.seq < seq && moment.forNow,
  );
  return it?.action?.forNow === undefined ? "" : `: ${it.action.forNow.value}`;
}

function supportLeft(story: Story, seq: number, put: Put): void {
  const last = story.support.findLast((it) => it.seq < seq && it.phase === "done");
  if (last === undefined) return;
  const state: SupportState = last.after;
  const hanging = hangsOn(state);
  if (state.raised !== undefined && hanging !== undefined && hanging !== "lift")
    put("Hanging", `on a ${hanging}, with nothing under it since`, state.raised.moment.where);
  else if (state.raised !== undefined && hanging === "lift") put("Held up", "on the lift", state.raised.moment.where);
  for (const it of state.supports) {
    // What was set down and is on again, tight, hangs on the machine and no more on what it lay on.
    if (it.part !== undefined && isBack(story, it.part, it.moment.seq, seq)) continue;
    if (it.part !== undefined && it.on === "crane" && heldAgain(story, it.part, it, (moment) => moment.seq < seq)) continue;
    const under = it.underText ?? it.underPart;
    const words = `${it.part === undefined ? "" : `the ${titleOf(story, it.part)} `}on ${it.on}${under === undefined ? "" : `, under ${under}`}`;
    put(it.on === "crane" ? "Hanging" : "Held up", words, it.moment.where);
  }
  if (state.under !== undefined) put("Hanging", "somebody is written as being underneath", state.under.where);
}

function titleOf({ job }: Story, name: string): string {
  const thing = job.things.get(name);
  return thing === undefined ? name : midSentence(thing);
}

/** Fitted since, by that time, with all that holds it tight. */
function isBack(story: Story, name: string, since: number, seq: number): boolean {
  const thing = story.job.things.get(name);
  if (thing?.kind !== "part" || thing.heldBy.length === 0) return false;
  const fitted = story
    .cells(name)
    .some((cell) => cell.kind === "part" && cell.history.some((it) => it.phase === "done" && it.verb === "fit" && it.seq > since && it.seq < seq));
  return (
    fitted &&
    thing.heldBy.every(({ text }) =>
      story.cells(text).every((cell) => {
        if (cell.kind !== "fastener") return true;
        const last = cell.history.findLast((it) => it.phase === "done" && it.seq < seq);
        return last === undefined || (last.after.on >= cell.total && last.after.tight);
      }),
    )
  );
}

function awayLeft(story: Story, name: string, day: string | undefined, put: Put): void {
  const cells = story.cells(name);
  const thing = story.job.things.get(name);
  if (thing === undefined) return;
  for (const place of cells.length === 0 ? [""] : cells.map((it) => it.place)) {
    const away = awayAt(story.job, name, place, day);
    if (away !== undefined) put("Away", `${midSentence(thing, place)}, ${orderText(away.reference)}`, away.where);
  }
}

/** The state of a cell just before `seq`: what it was before its first later moment, else what its last left. */
function stateAt<C extends Cell>(cell: C, seq: number): C["now"] {
  const history = cell.history as readonly { seq: number; before: C["now"]; after: C["now"] }[];
  const later = history.find((it) => it.seq >= seq);
  if (later !== undefined) return later.before;
  return history.at(-1)?.after ?? cell.now;
}

function lastAt(cell: Cell, seq: number): Moment | undefined {
  return (cell.history as readonly Moment[]).findLast((it) => it.seq < seq);
}
