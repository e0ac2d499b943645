// How true something runs that was worked on again after it was trued and read, where no line says that what sets it was moved: a flywheel whose key way was cut anew.
// Invariant: asked of run-outs alone; of one that is set it is told of parts that its setters hold and that it is called by.
import { isAt, ordersOf, statusUnread } from "../../../model/orders.ts";
import { isOfRunOut, wordsOf } from "../../../model/read-with.ts";
import { relationsOf } from "../../../model/relations.ts";
import { isSamePlace } from "../../../model/same-place.ts";
import type { Part } from "../../../model/things.ts";
import { allWords } from "../../../model/titles.ts";
import { type Where, where } from "../../../model/where.ts";
import type { Reading, Story } from "../../../story/story.ts";
import { givesSize, mendsNothing } from "../../../story/worked-in.ts";
import { isOnlyElsewhere } from "../../worked-elsewhere.ts";

export interface WorkedAfter {
  readonly thing: Part;
  readonly place: string;
  /** The line of the work, here or in an order. */
  readonly where: Where;
}

export function workedAfter(story: Story, { limit, place, seq, day }: Reading): WorkedAfter | undefined {
  if (!isOfRunOut(limit)) return undefined;
  for (const thing of partsTrued(story, limit)) {
    const isElsewhere = isOnlyElsewhere(story, [{ text: thing.name }], limit);
    for (const cell of story.cells(thing.name)) {
      if (cell.kind !== "part" || cell.unsure || !isSamePlace(cell.place, place)) continue;
      // Of what a size is of, work here is asked after at the release.
      if (limit.setBy.length === 0) break;
      const repair = cell.history.find((it) => it.phase === "done" && it.seq > seq && it.verb === "repair" && movesMetal(it.action?.text?.value ?? ""));
      if (repair !== undefined && !isElsewhere) return { thing, place: cell.place, where: repair.where };
    }
    for (const { file, entry, detail, status, sentOn } of ordersOf(story.job).work.get(thing.name) ?? []) {
      const since = sentOn ?? status?.date?.text;
      if (status?.status !== "received" || statusUnread(story.job, entry) || !isAt(detail, place) || since === undefined || day === undefined) continue;
      if (day < since && movesMetal(detail.text?.value ?? ""))
        return { thing, place: detail.places.length === 1 ? place : "", where: where(file, entry, detail.row, detail.part?.at ?? detail.keyword) };
    }
  }
  return undefined;
}

/** What it is of; or what a setter of it holds, and its name or its title names: flywheels that are drawn up by the nuts of their pin. */
function partsTrued({ job }: Story, limit: Reading["limit"]): readonly Part[] {
  if (limit.setBy.length === 0)
    return limit.of.flatMap(({ text }) => {
      const thing = job.things.get(text);
      return thing?.kind === "part" ? [thing] : [];
    });
  const words = new Set(wordsOf(allWords(limit)));
  const held = limit.setBy.flatMap(({ text }) => relationsOf(job).holds.get(text) ?? []);
  return [...new Set(held)].filter((it) => limit.of.some(({ text }) => text === it.name) || wordsOf(it.name).every((word) => words.has(word)));
}

function movesMetal(text: string): boolean {
  return !mendsNothing(text) && (givesSize(text) || forced.test(text));
}

const forced = /\b(hammer\w*|beat\w*|knock\w*|driv\w*|drove|press\w*|straight\w*|bent|heat\w*|weld\w*|braz\w*|fac(ed|ing)|rivet\w*|drill\w*)\b/iu;
