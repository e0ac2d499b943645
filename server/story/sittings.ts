// Which `measure` entries belong together: a difference of figures, each written in an entry of its own.
// Invariant: one limit, one stage, whichever gauge, and nothing that the limit is of or set by moved between two of them. Figures of one spot belong together one by one, where the limit
// is of their difference and nothing else; those of several places or ends do where none of them is read twice.
import type { MeasureEntry } from "../../grammar/tree.ts";
import { memo } from "../model/memo.ts";
import type { Limit } from "../model/things.ts";
import { firstBehind } from "./looked-up.ts";
import type { FastenerMoment, PartMoment, Reading, Story } from "./story.ts";

/** What stands for all the entries of one sitting: the first of them; an entry that says it all itself stands for itself. */
export function sittingOf(story: Story, entry: MeasureEntry): MeasureEntry {
  return sittings(story).get(entry) ?? entry;
}

/** A spread, an ovality or a taper, and nothing else: one figure alone says nothing of it. */
export function isDifferenceAlone(limit: Limit): boolean {
  return (
    (limit.spread ?? limit.ovality ?? limit.taper) !== undefined &&
    (limit.new ?? limit.worn ?? limit.set) === undefined &&
    !["new", "worn", "set"].some((word) => limit.unread.has(word))
  );
}

const sittings = memo((story: Story): ReadonlyMap<MeasureEntry, MeasureEntry> => {
  const out = new Map<MeasureEntry, MeasureEntry>();
  const last = new Map<string, Reading>();
  for (const [i, reading] of story.readings.entries()) {
    if (!isDifferenceAlone(reading.limit)) continue;
    const before = last.get(reading.limit.name);
    const isAlone = reading.spots.length === 1 && story.readings[i - 1]?.entry !== reading.entry && story.readings[i + 1]?.entry !== reading.entry;
    if (isAlone) last.set(reading.limit.name, reading);
    else last.delete(reading.limit.name);
    if (isAlone && before !== undefined && goesOn(story, before, reading)) out.set(reading.entry, out.get(before.entry) ?? before.entry);
  }
  return out;
});

/** What stands for all the entries in which one place, or one end, was read after the other: the first of them. */
export function roundOf(story: Story, entry: MeasureEntry): MeasureEntry {
  return rounds(story).get(entry) ?? entry;
}

const rounds = memo((story: Story): ReadonlyMap<MeasureEntry, MeasureEntry> => {
  const out = new Map<MeasureEntry, MeasureEntry>();
  const going = new Map<string, { first: MeasureEntry; last: Reading; read: Set<string> }>();
  for (const reading of story.readings) {
    const { limit, entry } = reading;
    if (limit.spread === undefined && limit.taper === undefined) continue;
    const at = `${reading.place} ${reading.position ?? ""}`;
    const round = going.get(limit.name);
    const isSame = round?.last.entry === entry;
    if (round !== undefined && (isSame || (!round.read.has(at) && goesOn(story, round.last, reading)))) {
      if (!isSame) out.set(entry, round.first);
      round.last = reading;
      round.read.add(at);
    } else going.set(limit.name, { first: entry, last: reading, read: new Set([at]) });
  }
  return out;
});

function goesOn(story: Story, before: Reading, reading: Reading): boolean {
  if (before.stage !== reading.stage || before.stood !== reading.stood) return false;
  const { job } = story;
  const names = [...reading.limit.of, ...reading.limit.setBy].map((name) => name.text);
  for (const name of [...names, ...names.flatMap((it) => job.things.get(it)).flatMap((it) => (it?.kind === "part" ? it.heldBy.map((by) => by.text) : []))])
    for (const cell of story.cells(name))
      if (cell.kind === "part" || cell.kind === "fastener") {
        const moves = (it: PartMoment | FastenerMoment) => it.phase === "done" && it.verb !== "found" && it.verb !== "mark";
        const next = firstBehind(cell.history as readonly (PartMoment | FastenerMoment)[], before.seq, (it) => it.seq > reading.seq || moves(it));
        if (next !== undefined && next.seq < reading.seq) return false;
      }
  return true;
}
