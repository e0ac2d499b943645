// Whether a bearing that was off since it was read is shut again as it was: the same pieces, the same shims, the same torque, nothing set or mended.
// Invariant: done work only. What the sheet does not say of how it was shut is not taken for the same.
import { piecesAt } from "../story/cells.ts";
import type { StepEntry } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import { memo } from "../model/memo.ts";
import { isAt, ordersOf } from "../model/orders.ts";
import { pulledOver } from "../model/read-with.ts";
import { relationsOf } from "../model/relations.ts";
import type { Limit, Thing } from "../model/things.ts";
import { tightenedText } from "../model/torque.ts";
import { type Where, where } from "../model/where.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Reading, Story } from "../story/story.ts";
import { mendsNothing } from "../story/worked-in.ts";
import { isSamePull, isUpTo, pullsOf, stateAt } from "./pulls.ts";

/** What makes it another bearing than the one that was read. */
export interface Otherwise {
  readonly thing: Thing;
  readonly place: string;
  readonly what: string;
  readonly where: Where;
  /** Another piece, or other metal: that is asked about besides. */
  readonly isAnew: boolean;
}

/** How the bearing is now against how it was shut at the reading: the same, or what differs. Undefined where the sheet does not say that it was pulled up to its torque for it. */
export function shutAgainIfSo(story: Story, reading: Reading): "same" | Otherwise | undefined {
  const { limit, place } = reading;
  const holders = closersOf(story.job, limit).flatMap((name) => piecesAt(story, name, place).filter((it): it is FastenerCell => it.kind === "fastener"));
  if (holders.length === 0 || holders.some((it) => it.unsure)) return undefined;
  const shut = shutBefore(holders, reading);
  if (shut === undefined) return undefined;
  const parts = inBearing(story.job, limit, holders).flatMap((name) => piecesAt(story, name, place).filter((it): it is PartCell => it.kind === "part"));
  if (parts.some((it) => it.unsure) || parts.some((it) => isWith(limit, it) && stateAt(it, shut)?.on === 0)) return undefined;
  return (
    setterTurned(story, reading) ??
    turnedOtherwise(holders, shut) ??
    otherPieces(story, reading, parts, shut, isShut(holders)) ??
    toldOtherwise([...parts, ...holders], shut) ??
    "same"
  );
}

function isWith({ with: inIt, of }: Limit, { thing }: PartCell): boolean {
  return [...inIt, ...of].some(({ text }) => text === thing.name);
}

/** What pulls the cap down over it: by what the limit is of, what it is read with, and the shims that set it. */
function closersOf(job: Job, limit: Limit): readonly string[] {
  const tight = limit.with.filter(({ text }) => job.things.get(text)?.kind === "fastener").map(({ text }) => text);
  const over = limit.setBy.flatMap(({ text }) => {
    const part = job.things.get(text);
    if (part?.kind !== "part") return [];
    return part.behind.flatMap((name) => {
      const cap = job.things.get(name.text);
      return cap?.kind === "part" ? cap.heldBy.map((by) => by.text) : [];
    });
  });
  const own = pulledOver(job, limit).map((it) => it.name);
  return [...new Set([...(own.length > 0 || tight.length > 0 ? own : over), ...tight])];
}

/** The pieces between which it is, with what closes over them and what lies behind that. */
function inBearing(job: Job, limit: Limit, holders: readonly FastenerCell[]): readonly string[] {
  const { holds, behind } = relationsOf(job);
  const caps = holders.flatMap(({ thing }) => (holds.get(thing.name) ?? []).map((it) => it.name));
  const beyond = caps.flatMap((name) => (behind.get(name) ?? []).map((it) => it.name));
  return [...new Set([...[...limit.of, ...limit.setBy, ...limit.with].map(({ text }) => text), ...caps, ...beyond])];
}

function isShut(holders: readonly FastenerCell[]): boolean {
  return holders.every(({ now, total }) => now.tight && now.on >= total);
}

/** The last line above the reading with which all that holds it was up to its torque, by a figure; not after the day of the reading. */
function shutBefore(holders: readonly FastenerCell[], { seq, day }: Reading): number | undefined {
  const lines = holders.flatMap((it) => it.history.filter((was) => was.phase === "done" && was.seq < seq && was.verb === "tighten"));
  lines.sort((a, b) => b.seq - a.seq);
  const last = lines.find((line) =>
    holders.every((cell) => {
      const state = stateAt(cell, line.seq);
      return state !== undefined && "tight" in state && state.tight && state.on >= cell.total;
    }),
  );
  if (last === undefined || (day !== undefined && last.day !== undefined && day < last.day)) return undefined;
  return holders.every((cell) => pullsOf(cell, last.seq)?.every((it) => isUpTo(cell, it)) === true) ? last.seq : undefined;
}

/** What is turned to set it has another place each time: a wedge screw, a nut that is done up by its own clearance. */
function setterTurned(story: Story, { limit, place, seq }: Reading): Otherwise | undefined {
  for (const cell of limit.setBy.flatMap(({ text }) => piecesAt(story, text, place))) {
    if (cell.kind !== "fastener") continue;
    const turned = cell.history.findLast((it) => it.phase === "done" && it.seq > seq && it.verb !== "lock" && it.verb !== "found" && it.verb !== "other");
    if (turned !== undefined) return because(cell, turned, "was turned");
  }
  return undefined;
}

/** Pulled up since to another figure, or without one. */
function turnedOtherwise(holders: readonly FastenerCell[], shut: number): Otherwise | undefined {
  for (const cell of holders) {
    const then = pullsOf(cell, shut)?.[0];
    const after = cell.history.filter((it) => it.phase === "done" && it.seq > shut);
    const back = after.find((it) => it.verb === "let");
    if (back !== undefined) return because(cell, back, "was let back");
    if (!cell.now.tight || then === undefined) continue;
    const other = [...new Set(cell.now.lots.map((lot) => after.find((it) => it.seq === lot.tightenedAt)))].find(
      (it) => it !== undefined && !isSamePull(cell, it, then),
    );
    if (other !== undefined)
      return because(
        cell,
        other,
        other.action?.to === undefined
          ? "was pulled up without a figure"
          : `was pulled to ${tightenedText(other.action)}, not to ${tightenedText(then.action ?? {})}`,
      );
  }
  return undefined;
}

function because({ thing, place }: FastenerCell | PartCell, { where: at }: FastenerMoment | PartMoment, what: string, isAnew = false): Otherwise {
  return { thing, place, what, where: at, isAnew };
}

/** Another piece, another one's, one that was worked on, or another number of them. */
function otherPieces(story: Story, { limit, place, day, entry }: Reading, parts: readonly PartCell[], shut: number, isClosed: boolean): Otherwise | undefined {
  const { entries } = story.job.own.sheet;
  for (const cell of parts) {
    const after = cell.history.filter((it) => it.phase === "done" && it.seq > shut);
    const fresh = after.find((it) => it.verb === "fit" && (it.isNew || it.from !== undefined));
    if (fresh !== undefined) return because(cell, fresh, fresh.isNew ? "went in new" : "went in from another place", fresh.isNew);
    const mended = after.find((it) => it.verb === "repair" && !mendsNothing(it.action?.text?.value ?? ""));
    if (mended !== undefined) return because(cell, mended, "was worked on", true);
    const sent = (ordersOf(story.job).work.get(cell.thing.name) ?? []).find(
      (it) => isAt(it.detail, place) && (entries.indexOf(it.entry) > entries.indexOf(entry) || (day !== undefined && (it.status?.date?.text ?? "") > day)),
    );
    if (sent !== undefined)
      return {
        thing: cell.thing,
        place: cell.place,
        what: "was sent out to be worked on",
        isAnew: true,
        where: where(sent.file, sent.entry, sent.detail.row, sent.detail.keyword),
      };
    const then = stateAt(cell, shut)?.on ?? cell.total;
    const last = after.findLast((it) => it.after.on !== it.before.on);
    if (isClosed && last !== undefined && cell.now.on !== then) return because(cell, last, `was ${then}, and is ${cell.now.on}`);
  }
  for (const { text } of limit.setBy) {
    const thing = story.job.things.get(text);
    const anew = thing?.kind === "shims" ? entries.slice(entries.indexOf(entry)).find((it) => it.kind === "shims" && it.name?.text === text) : undefined;
    if (thing !== undefined && anew !== undefined)
      return { thing, place, what: "was counted anew", isAnew: false, where: { file: story.job.own.path, entry: anew, row: 0, at: anew.keyword } };
  }
  return undefined;
}

/** What is written over a step that had it open again: a shim more, a shell scraped. */
function toldOtherwise(cells: readonly (FastenerCell | PartCell)[], shut: number): Otherwise | undefined {
  const known = new Set<StepEntry>();
  for (const cell of cells)
    for (const it of cell.history as readonly (FastenerMoment | PartMoment)[])
      if (it.phase === "done" && it.seq <= shut && it.visit !== undefined) known.add(it.visit.entry);
  for (const cell of cells) {
    for (const it of cell.history as readonly (FastenerMoment | PartMoment)[]) {
      const step = it.visit?.entry;
      if (it.phase !== "done" || it.seq <= shut || step === undefined || known.has(step)) continue;
      known.add(step);
      if (textsOf(step).some(tellsOther)) return because(cell, it, "was off in a step that tells of other shims or of work");
    }
  }
  return undefined;
}

const textsOf = memo((entry: StepEntry): readonly string[] =>
  [entry.title?.value, ...entry.details.map((it) => (it.kind === "note" ? it.text?.value : undefined))].filter((it) => it !== undefined),
);

function tellsOther(said: string): boolean {
  // The wire itself is scraped off.
  const text = said.replace(
    /\b(wire|strip|lead|plastic|thread)s? (was |were |is |are )?(all )?(scraped|peeled|picked|wiped|cleaned|eased|filed) (off|out|away)\b/giu,
    " ",
  );
  return ((shims.test(text) && changed.test(text)) || worked.test(text)) && !asBefore.test(text);
}

const shims = /\b(shims?|shimmed|laminat\w*|leaf|leaves|packings?|thou|tenths?|hundredths?)\b/iu;
const changed =
  /\b(out|took|taken|removed|add(ed)?|more|less|fewer|extra|another|other|thinner|thicker|peel\w*|changed?|swapped|different|re-?shimmed|new|to (close|open|bring|get|set))\b/iu;
const worked = /\b(scrap(e|ed|ing)|eased|easing|stoned|filed|lapped|re-?shimmed)\b/iu;
const asBefore = /\b(same|as (it|they) (was|were)|nothing (was |else )?(taken|changed|moved|touched)|not (touched|changed|scraped|disturbed|moved))\b/iu;
