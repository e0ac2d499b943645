// Critical parts that came back with another size, bored or ground by so much or built up outside, and of which nobody wrote a size or a look since.
// Invariant: asked where no limit of the part asks for a reading by itself; any reading, look, finding or word of it since is enough.
import type { WorkDetail } from "../../grammar/tree.ts";
import { wordsOf } from "../model/read-with.ts";
import { relationsOf } from "../model/relations.ts";
import { isSamePlace } from "../model/same-place.ts";
import { allWords } from "../model/titles.ts";
import { type Where, where } from "../model/where.ts";
import { isForTheShelf } from "../story/away.ts";
import { findingsOf } from "../story/decisions.ts";
import { workBack } from "../story/put-right.ts";
import type { Moment, PartCell, Story } from "../story/story.ts";
import { givesSize, mendsNothing } from "../story/worked-in.ts";
import { wordsIn } from "./left-alone.ts";

export interface SizedUnread {
  readonly cell: PartCell;
  readonly work: WorkDetail;
  readonly at: Where;
}

export function sizedUnread(story: Story): SizedUnread[] {
  const out: SizedUnread[] = [];
  const { measuredBy } = relationsOf(story.job);
  for (const cell of story.parts) {
    const { thing } = cell;
    if (!thing.critical || thing.implied || cell.unsure || (measuredBy.get(thing.name) ?? []).some((it) => it.kind === "limit")) continue;
    const back = workBack(
      story,
      cell,
      undefined,
      (work) => resizes.test(work) && (amount.test(work) || buildsUp.test(work)) && givesSize(work) && !mendsNothing(work),
    );
    const since = back?.status?.date?.text;
    if (back === undefined || since === undefined || isForTheShelf(cell, { back: since, ...(back.sentOn === undefined ? {} : { sentOn: back.sentOn }) }))
      continue;
    if (cell.history.some((it) => it.phase === "done" && it.verb === "fit" && it.isNew)) continue;
    if (isToldSince(story, cell, since)) continue;
    const { file, entry, detail } = back;
    out.push({ cell, work: detail, at: where(file, entry, detail.row, detail.part?.at ?? detail.keyword) });
  }
  return out;
}

/** A figure, a look or a word of it, by one of its names, on the day that it came or later. */
function isToldSince(story: Story, { thing, place }: PartCell, since: string): boolean {
  const words = new Set(wordsOf(`${thing.name} ${thing.title ?? ""}`).filter((word) => word.length > 3));
  const isNamed = (text: string) => wordsOf(text).some((word) => words.has(word));
  const isLater = (it: Pick<Moment, "day">) => it.day === undefined || it.day >= since;
  const isHere = (it: Pick<Moment, "day"> & { readonly place: string }) => isLater(it) && isSamePlace(it.place, place);
  const isOf = (
    it: Parameters<typeof allWords>[0] & { readonly of: readonly { readonly text: string }[]; readonly with: readonly { readonly text: string }[] },
  ) => [...it.of, ...it.with].some(({ text }) => text === thing.name) || isNamed(allWords(it));
  if (story.readings.some((it) => it.stage !== "found" && isHere(it) && (it.limit.setBy.length === 0 || it.limit.of.length > 0) && isOf(it.limit))) return true;
  if (story.seen.some((it) => it.good && it.stage !== "found" && isHere(it) && isOf(it.check))) return true;
  if ((findingsOf(story).get(thing.name) ?? []).some((it) => isLater(it) && it.places.some((at) => isSamePlace(at, place)))) return true;
  return story.job.own.sheet.entries.some(
    (entry) => entry.kind !== "order" && measuredIn(entry.kind) && wordsIn(entry).some((text) => isNamed(text) && read.test(text)),
  );
}

function measuredIn(kind: string): boolean {
  return kind === "step" || kind === "measure" || kind === "seen" || kind === "finding" || kind === "release" || kind === "question";
}

const resizes =
  /\b(re-?|line[- ]?)?(bor(e|es|ed|ing)\b|grinds?\b|ground\b|grinding\b|skim\w*|turned\b|machined?\b|hon(e|ed|ing)\b|sleev\w*|spray\w*|chrom\w*|knurl\w*|metal\w*|built up|build up|weld\w* up)/iu;
/** By how much, or to what: what was only cleaned up in the lathe is left to whoever did it. */
const amount = /\d\s*("|in\b|inch|mm\b|thou\b|hundredths)|\b(over|under)[- ]?sized?\b|\b(first|second|third|next) (over|under|cut|size)/iu;
const buildsUp = /\b(built up|build up|weld\w* up|sleev\w*|spray\w*|knurl\w*)/iu;
const read = /\d|\b(measur\w*|gaug\w*|mic'?d?|micrometer|calipers?|checked|tried|size[ds]?|fits?|fitted|slid\w*|clearance\w*)\b/iu;
