// A place that is not declared, or that the thing has not got.
import type { Entry, Name, ReadingDetail } from "../../../grammar/tree.ts";
import { type Job, placesOf } from "../../model/job.ts";
import { mostPlaced } from "../../model/largest.ts";
import { oneAndMany } from "../../model/one-and-many.ts";
import { referencesOf } from "../../model/references.ts";
import type { Limit, Thing } from "../../model/things.ts";
import { where } from "../../model/where.ts";
import type { JobContext, JobRule } from "../rule.ts";
import { counted } from "../wording.ts";
import { faulty } from "./shared/mentions.ts";
import { isBound, ownPlaces } from "./shared/places-of.ts";
import { atOnePlace, misplacedWords, unknownKind, unknownPlace } from "./shared/places-said.ts";

export const rule: JobRule = {
  id: "place-unknown",
  group: "Writing",
  severity: "error",
  safety: true,
  title: "No such place, or more of them than are worked with",
  why: "What was done at a place that doesn't exist was never done: the nut at the place that was meant stays undone or unlocked in the account. Where a limit has places, each reading says which it is of.",
  wrong: `places end front, rear

part bearing "Main bearing shell"
  each end

finding bearing rera
#               ^^^^ error place-unknown (fix)
  is scored
  decision renew
`,
  right: `places end front, rear

part bearing "Main bearing shell"
  each end

finding bearing rear
  is scored
  decision renew
`,
  fixed: `places end front, rear

part bearing "Main bearing shell"
  each end

finding bearing rear
  is scored
  decision renew
`,
  scope: "job",
  check(context) {
    const leftOut = new Map(context.job.leftOut.map((it) => [it.kind, it]));
    for (const { path, sheet } of context.job.files) {
      for (const entry of sheet.entries) {
        const over = entry.kind === "places" && entry.placeKind !== undefined ? leftOut.get(entry.placeKind.text) : undefined;
        if (over !== undefined && leftOut.delete(over.kind))
          context.report({
            where: where(path, entry, 0, (entry as { placeKind: Name }).placeKind.at),
            severity: "error",
            message: `${over.places} places with ${counted(over.things, "thing")} at each${over.lines === 0 ? "" : ` and ${counted(over.lines, "line")} that ${over.lines === 1 ? "speaks" : "speak"} of all of them`} are more than are worked with: no more than ${mostPlaced} in all. The first ${over.kept} are, and nothing is said of the others.`,
          });
        const { places, kinds } = referencesOf(entry);
        for (const { name, row } of kinds) ofKind(context, path, entry, row, name);
        for (const { name, row, of } of places) ofPlace(context, path, entry, row, name, of);
        for (const it of oneAndMany(context.job).get(entry) ?? []) atOnePlace(context, path, entry, it);
        if (entry.kind === "measure" && entry.fault === undefined && entry.limit !== undefined) {
          const limit = context.job.things.get(entry.limit.text);
          if (limit?.kind === "limit" && !limit.implied)
            for (const detail of entry.details) if (detail.kind === "reading" && detail.fault === undefined) ofReading(context, path, entry, detail, limit);
        }
      }
    }
  },
};

function ofKind(context: JobContext, file: string, entry: Entry, row: number, kind: Name): void {
  const { placeKinds, unreadNames } = context.job;
  if (!placeKinds.has(kind.text) && !unreadNames.has(kind.text) && !faulty(entry, row)) unknownKind(context, file, entry, row, kind);
}

function ofPlace(context: JobContext, file: string, entry: Entry, row: number, place: Name, of: readonly string[]): void {
  const { job } = context;
  let thing: Thing | undefined;
  for (const name of of) {
    const it = job.things.get(name);
    const places = it === undefined ? undefined : ownPlaces(job, it);
    if (places !== undefined && !places.includes(place.text)) {
      thing = it;
      break;
    }
  }
  const isFine = job.kindsOfPlace.has(place.text) ? thing === undefined : job.unreadNames.has(place.text);
  // Of a kind that is declared nowhere: that is said where the kind stands.
  const isOfNoKind = !job.kindsOfPlace.has(place.text) && of.length > 0 && of.every((name) => hasNoKind(job, job.things.get(name)));
  if (!isFine && !isOfNoKind && !faulty(entry, row)) unknownPlace(context, file, entry, row, place, of, thing);
}

function hasNoKind(job: Job, thing: Thing | undefined): boolean {
  return thing !== undefined && "placeKind" in thing && thing.placeKind !== undefined && !job.placeKinds.has(thing.placeKind.text);
}

/** A place where the limit has places, a position where it has such, and no word more. */
function ofReading(context: JobContext, file: string, entry: Entry, detail: ReadingDetail, limit: Limit): void {
  const places = limit.placeKind === undefined ? undefined : placesOf(context.job, limit);
  const hasPlaces = places !== undefined && places.length > 0 && places[0] !== "";
  const [place, position, extra] = hasPlaces ? detail.words : [undefined, ...detail.words];
  const isPlaced = !hasPlaces || (place !== undefined && places.includes(place.text));
  const isPosition = position === undefined || (limit.positions.length === 0 ? !isBound(position.text) : limit.positions.includes(position.text));
  if (!isPlaced || !isPosition || extra !== undefined) misplacedWords(context, file, entry, detail, limit);
}
