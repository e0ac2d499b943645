// Critical parts that have another size, bored or ground by so much outside, or built up there or here, and of which nobody wrote a size or a look since.
// Invariant: asked where no limit of the part asks for a reading by itself; any reading, look, finding or word of it since is enough.
import { wordsOf } from "../model/read-with.ts";
import { relationsOf } from "../model/relations.ts";
import { isSamePlace } from "../model/same-place.ts";
import type { Limit } from "../model/things.ts";
import { allWords, wordsIn } from "../model/titles.ts";
import { type Where, where } from "../model/where.ts";
import { isForTheShelf } from "../story/away.ts";
import { findingsOf } from "../story/decisions.ts";
import { workBack } from "../story/put-right.ts";
import type { Moment, PartCell, Story } from "../story/story.ts";
import { givesSize, mendsNothing } from "../story/worked-in.ts";
import { namingNothing } from "./wording.ts";

export interface SizedUnread {
  readonly cell: PartCell;
  readonly at: Where;
  /** Done here, by a line of a step. */
  readonly isOurs: boolean;
}

export function sizedUnread(story: Story): SizedUnread[] {
  const out: SizedUnread[] = [];
  const { measuredBy } = relationsOf(story.job);
  for (const cell of story.parts) {
    const { thing } = cell;
    if (!thing.critical || thing.implied || cell.unsure || (measuredBy.get(thing.name) ?? []).some((it) => it.kind === "limit")) continue;
    const built = builtUpHere(cell);
    if (built !== undefined && !isToldSince(story, cell, built)) {
      out.push({ cell, at: built.where, isOurs: true });
      continue;
    }
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
    if (isToldSince(story, cell, { day: since, seq: -1 })) continue;
    const { file, entry, detail } = back;
    out.push({ cell, at: where(file, entry, detail.row, detail.part?.at ?? detail.keyword), isOurs: false });
  }
  return out;
}

/** A worn seat that was knurled, sprayed or sleeved here, whose words give no figure and say of nothing how it fits. */
function builtUpHere({ history }: PartCell): Moment | undefined {
  const done = history.filter((it) => it.phase === "done");
  const last = done.findLast((it) => it.verb === "repair" || (it.verb === "fit" && it.isNew));
  const text = last?.verb === "repair" ? (last.action?.text?.value ?? "") : "";
  return ofSeats.test(text) && !read.test(text) ? last : undefined;
}

/** A figure, a look or a word of it, by one of its names, on the day that it came or later; behind the line where one tells of the work. */
function isToldSince(story: Story, { thing, place }: PartCell, since: Pick<Moment, "day" | "seq">): boolean {
  const words = ownWords(story, thing);
  const whole = wordsOf(thing.name);
  const isNamed = (text: string) => {
    const said = wordsOf(text);
    return said.some((word) => words.has(word)) || whole.every((word) => said.includes(word));
  };
  const isLater = (it: Pick<Moment, "day" | "seq">) => it.seq > since.seq && (it.day === undefined || since.day === undefined || it.day >= since.day);
  const isHere = (it: Pick<Moment, "day" | "seq"> & { readonly place: string }) => isLater(it) && isSamePlace(it.place, place);
  const isOf = (
    it: Parameters<typeof allWords>[0] & { readonly of: readonly { readonly text: string }[]; readonly with: readonly { readonly text: string }[] },
  ) => [...it.of, ...it.with].some(({ text }) => text === thing.name) || isNamed(allWords(it));
  // A ring's gap is of the ring: in a bore that was bored out it says nothing of the piston.
  const isOfAnother = ({ of, ...limit }: Limit) => of.length > 0 && !of.some(({ text }) => text === thing.name) && gapOfRing.test(allWords(limit));
  if (
    story.readings.some(
      (it) => it.stage !== "found" && isHere(it) && (it.limit.setBy.length === 0 || it.limit.of.length > 0) && isOf(it.limit) && !isOfAnother(it.limit),
    )
  )
    return true;
  if (story.seen.some((it) => it.good && it.stage !== "found" && isHere(it) && isOf(it.check))) return true;
  if ((findingsOf(story).get(thing.name) ?? []).some((it) => isLater(it) && it.places.some((at) => isSamePlace(at, place)))) return true;
  return story.job.own.sheet.entries.some(
    (entry) => entry.kind !== "order" && measuredIn(entry.kind) && wordsIn(entry).some((text) => isNamed(text) && read.test(text)),
  );
}

/** Of its names the words that no other piece goes by: the driving axle box is not told of by the driving crank pin. */
function ownWords({ job }: Story, thing: PartCell["thing"]): ReadonlySet<string> {
  const of = (it: { readonly name: string; readonly title?: string }) => wordsOf(`${it.name} ${it.title ?? ""}`);
  const others = new Set([...job.things.values()].filter((it) => it !== thing && (it.kind === "part" || it.kind === "fastener") && !it.implied).flatMap(of));
  return new Set(of(thing).filter((word) => word.length > 3 && !namingNothing.includes(word) && !others.has(word)));
}

function measuredIn(kind: string): boolean {
  return kind === "step" || kind === "measure" || kind === "seen" || kind === "finding" || kind === "release" || kind === "question";
}

const gapOfRing = /\brings?\b.*\bgaps?\b|\bgaps?\b.*\brings?\b/iu;
const resizes =
  /\b(re-?|line[- ]?)?(bor(e|es|ed|ing)\b|grinds?\b|ground\b|grinding\b|skim\w*|turned\b|machined?\b|hon(e|ed|ing)\b|sleev\w*|spray\w*|chrom\w*|knurl\w*|metal\w*|built up|build up|weld\w* up)/iu;
/** By how much, or to what: what was only cleaned up in the lathe is left to whoever did it. */
const amount = /\d\s*("|in\b|inch|mm\b|thou\b|hundredths)|\b(over|under)[- ]?sized?\b|\b(first|second|third|next) (over|under|cut|size)/iu;
const ofSeats = /\b(knurl\w*|metal[- ]?spray\w*|sprayed|sleeved|(built|build) up|centre[- ]?punch\w*)\b/iu;
const buildsUp =
  /\b(built up|build up|weld\w* up|sleev\w*|spray\w*|knurl\w*|shrunk (on|in)|bushe?[ds]?\b|bor(e|ed|ing) (the |its |both |all )?(bearing )?(seats?|housings?|trunnions?))/iu;
const read = /\d|\b(measur\w*|gaug\w*|mic'?d?|micrometer|calipers?|checked|tried|size[ds]?|fits?|fitted|slid\w*|clearance\w*)\b/iu;
