// One place read or looked at twice, and its fellow never: the second line was to be the other place.
// Invariant: it holds a release only where nothing else in the sheet says anything of the fellow.
import { type Slices, someAtOnce } from "../../../grammar/slices.ts";
import { grouping } from "../../model/grouped.ts";
import { type Job, placesOf } from "../../model/job.ts";
import type { Check } from "../../model/things.ts";
import type { Moment, Reading, Seen } from "../../story/story.ts";
import { lastDisturbed } from "../moved.ts";
import type { JobRule } from "../rule.ts";
import { capital, listed } from "../wording.ts";

export const rule: JobRule = {
  id: "reading-doubled",
  group: "Limits, readings, checks",
  severity: "warning; it holds a release where its fellow was never read",
  safety: true,
  title: "One place read or looked at twice, and its fellow not",
  why: "Left is written twice and right not once: one of the two figures is the right one's, and nobody knows which. Figures of one place taken again stand behind one another on its line.",
  wrong: `places side left, right
part drum "Brake drum"
  each side
limit drum-bore "Drum bore"
  each side
  of drum
  worn max 180 mm
  source "Maker's handbook, page 12"
measure drum-bore found
  left 178.2 mm
  left 178.9 mm
#      ^^^^^^^^ warning reading-doubled
`,
  right: `places side left, right
part drum "Brake drum"
  each side
limit drum-bore "Drum bore"
  each side
  of drum
  worn max 180 mm
  source "Maker's handbook, page 12"
measure drum-bore found
  left 178.2 mm
  right 178.9 mm
`,
  scope: "job",
  *check({ job, story, report, line }) {
    const read = story.readings.filter((it) => it.phase === "done");
    yield;
    for (const [limit, readings] of yield* grouping(read, (it) => it.limit)) {
      for (const here of (yield* grouping(readings, (it) => it.entry)).values()) {
        const twice = yield* doubled(here, spotOf, ({ detail }) => detail.again === undefined);
        if (twice.length === 0) continue;
        // Where the limit is of no places, a place stands where a position would.
        const positions = new Set(here.flatMap((it) => [it.position, ...alongWith(job, it.position)]));
        const places = new Set([...placesOf(job, limit), ...here.map((it) => it.place)]);
        yield;
        const placesAt = yield* setsOf(
          here,
          (it) => it.position,
          (it) => it.place,
        );
        const positionsAt = yield* setsOf(
          here,
          (it) => it.place,
          (it) => it.position,
        );
        const isAlone = ({ place, position }: Reading) =>
          (placesAt.get(position)?.size ?? 0) < places.size || (positionsAt.get(place)?.size ?? 0) < positions.size;
        const [first, again] = twice.find(([, it]) => isAlone(it)) ?? [];
        if (first === undefined || again === undefined) continue;
        const now = new Set(here.map(spotOf));
        // The fellow differs in its side or in its position, and not in both.
        const fellows = [
          ...[...places].map((place) => spotOf({ place, position: again.position })),
          ...[...positions].map((position) => spotOf({ place: again.place, position })),
        ];
        tell(
          first,
          again,
          spotOf(again),
          fellows.filter((it) => !now.has(it)),
          new Set(readings.map(spotOf)),
        );
      }
    }
    const looks = story.seen.filter((it) => it.phase === "done");
    for (const [check, seen] of yield* grouping(looks, (it) => it.check)) {
      const known = new Set(seen.map((it) => it.place));
      if (known.has("")) continue;
      const byStage = yield* grouping(seen, (it) => it.stage);
      for (const [, here] of yield* grouping(seen, (it) => `${it.stage} ${it.day ?? ""} ${it.good}`)) {
        // Twice in one list is told by its own rule.
        const [twice] = (yield* doubled(here, (it) => it.place)).filter(([first, again]) => first.entry !== again.entry);
        if (twice === undefined) continue;
        const now = new Set(byStage.get(twice[1].stage)?.map((it) => it.place));
        tell(
          ...twice,
          twice[1].place,
          placesLookedAt(job, check).filter((it) => !now.has(it) && isAskedAt(twice[1], it)),
          known,
        );
      }
    }

    /** At the end nobody needs to look where nobody touched anything. */
    function isAskedAt({ check, stage }: Seen, place: string): boolean {
      return stage === "found" || check.of.length === 0 || lastDisturbed(story, [...check.of, ...check.setBy], place) !== undefined;
    }

    /** `known`: what was read at any time. */
    function tell(first: Moment, again: Moment, spot: string, missing: readonly string[], known: ReadonlySet<string>): void {
      if (missing.length === 0 || spot === "") return;
      const never = missing.filter((it) => !known.has(it));
      const others = (never.length > 0 ? never : missing).slice(0, 3);
      report({
        where: again.where,
        severity: "warning",
        open: never.length > 0,
        message: `${capital(spot)} stands here and on line ${line(first.where)}, and ${listed(others)} ${others.length === 1 ? "does" : "do"} not. Write each at its own place.`,
        related: [{ where: first.where, message: "The same place, above." }],
      });
    }
  },
};

/** A check of no places of its own is looked at wherever that is of which it is. */
function placesLookedAt(job: Job, check: Check): readonly string[] {
  if (check.placeKind !== undefined) return placesOf(job, check);
  const of = check.of.map(({ text }) => job.things.get(text)).filter((it) => it !== undefined);
  return [...new Set(of.flatMap((it) => ("placeKind" in it ? placesOf(job, it) : [])))].filter((it) => it !== "");
}

function spotOf({ place, position }: { readonly place: string; readonly position: string | undefined }): string {
  return [place, position ?? ""].filter((it) => it !== "").join(" ");
}

/** Each that has a key which one above it has, with the first of them. */
function* doubled<T>(list: readonly T[], key: (it: T) => string, counts: (it: T) => boolean = () => true): Slices<[T, T][]> {
  const before = new Map<string, T>();
  const out: [T, T][] = [];
  for (const [i, it] of list.entries()) {
    const first = before.get(key(it));
    if (first === undefined) before.set(key(it), it);
    else if (counts(it)) out.push([first, it]);
    if (i % someAtOnce === someAtOnce - 1) yield;
  }
  return out;
}

/** The declared places of which a position is one. */
function alongWith(job: Job, position: string | undefined): readonly string[] {
  return [...(job.kindsOfPlace.get(position ?? "") ?? [])].flatMap((kind) => job.placeKinds.get(kind) ?? []);
}

/** What goes with each key, each once. */
function* setsOf<T, K, V>(list: readonly T[], key: (it: T) => K, value: (it: T) => V): Slices<Map<K, Set<V>>> {
  const sets = new Map<K, Set<V>>();
  for (const [of, here] of yield* grouping(list, key)) sets.set(of, new Set((yield* grouping(here, value)).keys()));
  return sets;
}
