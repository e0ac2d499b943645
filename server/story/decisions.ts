// What findings decide for a thing at a place: so many to be renewed, so many kept or mended, so many waiting for an answer.
// Invariant: the last word counts. A later finding of the same pieces takes the place of an earlier one.
import type { ConditionKind } from "../../grammar/tree.ts";
import { memo } from "../model/memo.ts";
import { wholeNumber } from "../model/declare.ts";
import type { FastenerCell, FastenerMoment, Found, PartCell, PartMoment, Story } from "./story.ts";

export interface Decided {
  readonly found: Found;
  readonly count: number;
  readonly says: "new" | "otherwise" | "waiting";
  /** Said in so many words, and not by the condition alone. */
  readonly inWords: boolean;
  /** The question that it waits for. */
  readonly question?: string;
}

/** What stands decided for a thing at a place, of which there are `total` there. Findings that decide nothing are left out. */
export function decidedAt(story: Story, name: string, place: string, total: number): Decided[] {
  let list: Decided[] = [];
  // Of that list: how many pieces it speaks of, and whether all of them are to be renewed.
  let spoken = 0;
  let allNew = true;
  const put = (it: Decided, alone: boolean) => {
    if (alone) list = [it];
    else list.push(it);
    spoken = (alone ? 0 : spoken) + it.count;
    allNew = (alone || allNew) && it.says === "new";
  };
  for (const found of findingsOf(story).get(name) ?? []) {
    // Of thousands of places each has its own findings, and most are of another.
    if (!found.places.includes(place)) continue;
    const said = saysOf(story, found);
    if (said === undefined) continue;
    const { count, counted } = countAt(found, place, total);
    if (count === 0) continue;
    const room = total - spoken;
    const it: Decided = { found, count, ...said };
    // Counted pieces that fit beside the others are other pieces; else the same are spoken of again.
    if (counted && count <= room) put(it, false);
    else if (said.says === "new" && list.length > 0 && allNew) put({ ...it, count: Math.max(room, 0) }, false);
    else put(it, true);
  }
  return list;
}

/** How many at a place a finding is about: its own count, that of `missing N`, else all. A count without a place is one for all places together; beside a list of places it is of each. */
export function countAt(found: Found, place: string, total: number): { count: number; counted: boolean } {
  const index = found.places.indexOf(place);
  if (index < 0) return { count: 0, counted: false };
  const missing = found.conditions.find(({ condition }) => condition.kind === "missing")?.condition.count;
  const count = found.count ?? wholeNumber(missing?.text);
  if (count === undefined) return { count: total, counted: false };
  const before = found.entry.places.length > 1 ? 0 : index * total;
  return { count: Math.max(0, Math.min(total, count - before)), counted: true };
}

/** Is a question, as far as the sheet says, without an answer? */
export function isOpenQuestion(story: Story, name: string): boolean {
  const question = story.job.things.get(name);
  return question?.kind !== "question" || (question.answer === undefined && !question.unread.has("answer"));
}

function saysOf(story: Story, found: Found): Pick<Decided, "says" | "inWords" | "question"> | undefined {
  const decision = found.decision?.detail;
  switch (decision?.decision) {
    case "renew":
    case "exchange":
      return { says: "new", inWords: true };
    case "reuse":
    case "repair":
    case "make":
    case "discard":
      return { says: "otherwise", inWords: true };
    case "ask":
      if (decision.question !== undefined && isOpenQuestion(story, decision.question.text))
        return { says: "waiting", inWords: true, question: decision.question.text };
      break;
    default:
  }
  return found.conditions.some(({ condition }) => condition.kind === "missing" || condition.kind === "damaged") ? { says: "new", inWords: false } : undefined;
}

/** The findings of each thing, by its name, in the order of the sheet. */
export const findingsOf = memo((story: Story): ReadonlyMap<string, readonly Found[]> => {
  const byName = new Map<string, Found[]>();
  for (const found of story.findings) {
    const list = byName.get(found.thing.name);
    if (list === undefined) byName.set(found.thing.name, [found]);
    else list.push(found);
  }
  return byName;
});

/**
 * How many of a thing at a place are set aside by a word, as it stands now: all of them, where the finding names no number, and at each place as many as it names. What holds
 * a wheel or steers is not left off on a word.
 */
export function discardedAt(story: Story, cell: PartCell | FastenerCell): number {
  if (cell.thing.critical) return 0;
  let count = 0;
  // From the last: what is decided otherwise later, of all or of more than there are beside those, takes a discard back. The most that any of it speaks of.
  let most: number | undefined;
  for (const found of (findingsOf(story).get(cell.thing.name) ?? []).toReversed()) {
    if (found.decision === undefined || !found.places.includes(cell.place)) continue;
    if (found.decision.detail.decision !== "discard") most = Math.max(most ?? 0, found.count ?? Number.POSITIVE_INFINITY);
    else if (most === undefined || (found.count !== undefined && most + found.count <= cell.total)) count += discardedBy(story, cell, found);
  }
  return count;
}

/** A number without a place is one for all of them: what is lacking at the others is of it. Behind a line that took off as many at each, and names no place either, it is of each. */
function discardedBy(story: Story, { thing, place, total }: PartCell | FastenerCell, found: Found): number {
  const { count, places, entry } = found;
  if (count === undefined || entry.places.length > 0 || isSaidOfEach(story, found)) return count ?? total;
  let left = count;
  for (const other of places.slice(0, places.indexOf(place))) {
    const cell = story.cell(thing.name, other);
    if (cell?.kind === "part" || cell?.kind === "fastener") left -= Math.max(0, cell.total - cell.now.on);
  }
  return Math.max(0, left);
}

/** `remove shim 1`, and below it `finding shim 1`: the one line had as many off at each place as the other names. */
function isSaidOfEach(story: Story, { thing, places, count, seq }: Found): boolean {
  const lines = places.map((place) => {
    const cell = story.cell(thing.name, place);
    if (cell?.kind !== "part" && cell?.kind !== "fastener") return undefined;
    const history = cell.history as readonly (PartMoment | FastenerMoment)[];
    return history.findLast((it) => it.phase === "done" && it.seq < seq && it.verb !== "found" && it.after.on < it.before.on);
  });
  const [first] = lines;
  return (
    first?.action !== undefined &&
    first.action.places.length === 0 &&
    lines.every((it) => it?.action === first.action && it?.visit === first.visit && it?.count === count && it?.before.on === first.before.on)
  );
}

/** What these mean needs no word: reuse, or tighten, lock, take out. */
export const obvious: ReadonlySet<ConditionKind> = new Set(["serviceable", "loose", "unlocked", "clean", "extra", "reversed", "swapped", "dry", "blocked"]);
