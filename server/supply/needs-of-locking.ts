// The locking that a job needs new: once for each opening of its fastener, where it is used once; and what planned steps lock with new.
// Invariant: an opening counts once, whether it was found unlocked, undone, or both; it is closed only by new locking.
import type { Locking } from "../../grammar/tree.ts";
import { midSentence } from "../model/titles.ts";
import { one, ratio } from "../quantities/exact.ts";
import { countAt } from "../story/decisions.ts";
import { type Amount, type Item, isFromABottle, lockingItem, wireLength } from "./items.ts";
import type { PlacedNeed, Reason, Use } from "./need.ts";
import type { Slot, Slots } from "./slots.ts";
import type { FastenerCell, FastenerMoment, Story } from "../story/story.ts";
import { isUnlikeLocking } from "./unlike-locking.ts";
import { countOf } from "../story/lots.ts";
import { usedOnce } from "../story/used-once.ts";

/** Parts that lock are asked for among the pieces, where they count once with whatever else asks for them. */
export function askForLockingParts(story: Story, slots: Slots): void {
  const asked = new Map<Slot, number>();
  for (const cell of story.fasteners) {
    for (const it of openings(story, cell)) {
      const part = it.locking.part === undefined ? undefined : story.job.things.get(it.locking.part.text);
      if (it.locking.kind !== "part" || part?.kind !== "part") continue;
      const count = Number(amountFor(cell, it).value.n);
      for (const slot of slots.beside(part, cell.place)) {
        if (it.kind !== "used") {
          // The plates of two fasteners add up; there are never more asked for than there are.
          const sum = Math.min(slot.total, count + (asked.get(slot) ?? 0));
          asked.set(slot, sum);
          slot.asks.push({ seq: it.openedAt, count: sum, adds: false, reasons: it.reasons });
        }
        // Locked with the new part, and nobody has said that it was fitted: it is.
        if (it.moment !== undefined && !fittedNew(story, slot, it.openedAt, it.moment.seq)) slot.fitted.push({ moment: it.moment, count, made: 0 });
      }
    }
  }
}

/** All other locking. */
export function needsOfLocking(story: Story): { needed: PlacedNeed[]; used: Use[] } {
  const needed: PlacedNeed[] = [];
  const used: Use[] = [];
  for (const cell of story.fasteners) {
    for (const it of openings(story, cell)) {
      const item = it.locking.kind === "part" ? undefined : lockingItem(story.job, it.locking);
      if (item === undefined) continue;
      if (it.kind === "used") {
        // A bottle is not used up by what it locks.
        if (it.moment !== undefined && !isFromABottle(item)) used.push({ item, amount: amountFor(cell, it), moment: it.moment });
        continue;
      }
      needed.push({ item, place: cell.place, amount: isFromABottle(item) ? { value: one } : amountFor(cell, it), reasons: it.reasons });
    }
  }
  return { needed, used };
}

/** Fasteners opened, or locked with new: `count` is of fasteners, not yet of what locks them. */
interface Opening {
  readonly kind: "open" | "planned" | "used";
  readonly locking: Locking;
  readonly count: number;
  readonly reasons: readonly Reason[];
  /** Of the locking, where it was locked; of the opening else. */
  readonly moment: FastenerMoment | undefined;
  readonly openedAt: number;
}

function openings(story: Story, cell: FastenerCell): Opening[] {
  const declared = cell.thing.locking?.locking;
  const once = declared !== undefined && usedOnce(story.job, declared, cell.thing);
  const out: Opening[] = [];
  let pending = 0;
  let reasons: Reason[] = [];
  let openedAt = -1;
  const open = (moment: FastenerMoment, count: number, text: string) => {
    if (count <= 0) return;
    if (pending === 0) openedAt = moment.seq;
    pending = Math.min(cell.total, count);
    reasons.push({
      where: moment.where,
      place: cell.place,
      text: `${midSentence(cell.thing, cell.place)} ${text}${moment.phase === "planned" ? " (planned)" : ""}`,
    });
  };
  const closed = (count = pending) => {
    pending = Math.max(0, pending - count);
    if (pending === 0) reasons = [];
  };
  /** Those that are open behind this line: as many as it says at least, and those that were open before and are off, or were locked until now, besides. */
  const openedBy = ({ verb, before, after, count }: FastenerMoment): number => {
    // Undone again without a word of its coming back: it was all back.
    if (before.on === 0) return pending === 0 ? cell.total : Math.max(pending, count);
    const most = verb === "undo" ? Math.min(pending, cell.total - before.on) + count : cell.total;
    return Math.max(pending, count, Math.min(most, pending + lockedIn(before) - lockedIn(after)));
  };
  for (const moment of cell.history) {
    switch (moment.verb) {
      case "found": {
        const words = moment.found?.conditions.map(({ condition }) => condition.kind) ?? [];
        const bare = words.includes("unlocked") ? "found unlocked" : words.includes("undrilled") && once ? "found with no hole for its locking" : undefined;
        if (bare !== undefined && moment.found !== undefined) open(moment, pending + countAt(moment.found, cell.place, cell.total).count, bare);
        break;
      }
      case "undo":
        if (once) open(moment, openedBy(moment), "undone");
        break;
      case "slacken":
        if (once) open(moment, openedBy(moment), "slackened");
        break;
      case "fit":
        // A new self-locking nut is its own new locking. A planned one is not: it may be the bolt that is meant, and the nut is bought beside it.
        if (declared?.kind === "self-locking nut" && moment.isNew && moment.phase === "done") {
          closed(moment.count);
        }
        break;
      case "lock": {
        const locking = moment.with ?? declared;
        if (locking === undefined) break;
        // Locked with another than its own, it still wants its own: what was put in is used, and the need stands.
        const wrong = moment.with !== undefined && declared !== undefined && declared.kind !== "nothing" && isUnlikeLocking(moment.with, declared);
        if (moment.isNew) {
          const planned = moment.phase === "planned";
          const counted = isCounted(moment, cell) ? moment.count : undefined;
          const last: Reason = { where: moment.where, place: cell.place, text: `${midSentence(cell.thing, cell.place)} to be locked with new (planned)` };
          out.push({
            kind: planned ? "planned" : "used",
            locking,
            count: counted ?? (pending > 0 ? pending : cell.total),
            reasons: planned ? [...reasons, last] : reasons,
            moment,
            openedAt,
          });
          if (!wrong || planned) closed(counted);
          else open(moment, Math.max(pending, moment.count), "locked with another than its own");
        } else if (!usedOnce(story.job, locking, cell.thing)) closed(isCounted(moment, cell) ? moment.count : undefined);
        break;
      }
      default:
    }
  }
  if (pending > 0 && declared !== undefined) out.push({ kind: "open", locking: declared, count: pending, reasons, moment: undefined, openedAt });
  return out;
}

function lockedIn({ lots }: FastenerMoment["before"]): number {
  return countOf(lots.filter((lot) => lot.locked));
}

/** The line says how many of them. */
function isCounted({ action }: FastenerMoment, cell: FastenerCell): boolean {
  return action?.things.some((it) => it.name.text === cell.thing.name && it.count !== undefined) ?? false;
}

function amountFor(cell: FastenerCell, it: Opening): Amount {
  const serves = it.locking === cell.thing.locking?.locking ? Math.max(1, cell.thing.locking.serves) : 1;
  const count = Math.ceil(it.count / serves);
  const length = wireLength(it.locking);
  return length === undefined ? { value: ratio(count) } : { ...length, value: length.value.mul(count) };
}

function fittedNew(story: Story, slot: Slot, from: number, to: number): boolean {
  const cell = story.cell(slot.thing.name, slot.place);
  return cell?.kind === "part" && cell.history.some((it) => it.verb === "fit" && it.isNew && it.seq > from && it.seq < to);
}

/** What planned steps lock with new: by the moment of the lock. A part that locks is left out where its own `fit … new` stands for it. */
export function plannedLocking(story: Story): { cell: FastenerCell; item: Item; amount: Amount; moment: FastenerMoment }[] {
  return story.fasteners.flatMap((cell) =>
    openings(story, cell).flatMap((it) => {
      const item = lockingItem(story.job, it.locking);
      if (it.kind !== "planned" || it.moment === undefined || item === undefined) return [];
      const part = it.locking.part === undefined ? undefined : story.cell(it.locking.part.text, cell.place);
      const fitted = part?.kind === "part" && part.history.some((moment) => moment.verb === "fit" && moment.isNew && moment.seq > it.openedAt);
      return fitted ? [] : [{ cell, item, amount: amountFor(cell, it), moment: it.moment }];
    }),
  );
}
