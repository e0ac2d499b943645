// One place read or looked at twice, and its fellow never: the second line was to be the other place.
// Invariant: it holds a release only where nothing else in the sheet says anything of the fellow.
import { type Job, placesOf } from "../../model/job.ts";
import { isSamePlace } from "../../model/same-place.ts";
import type { Moment } from "../../story/story.ts";
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
  check({ job, story, report, line }) {
    const read = story.readings.filter((it) => it.phase === "done");
    for (const [limit, readings] of grouped(read, (it) => it.limit)) {
      const known = new Set(readings.map(spotOf));
      for (const [, here] of grouped(readings, (it) => it.entry)) {
        // Where the limit is of no places, a place stands where a position would.
        const positions = new Set(here.flatMap((it) => [it.position, ...alongWith(job, it.position)]));
        const places = new Set([...placesOf(job, limit), ...here.map((it) => it.place)]);
        const all = [...places].flatMap((place) => [...positions].map((position) => ({ place, position })));
        for (const [first, again] of doubled(here, spotOf)) {
          if (again.detail.again !== undefined) continue;
          // The fellow differs in its side or in its position, and not in both.
          tell(
            first,
            again,
            spotOf(again),
            all.filter((it) => it.position === again.position || isSamePlace(it.place, again.place)).map(spotOf),
            new Set(here.map(spotOf)),
            known,
          );
        }
      }
    }
    const looks = story.seen.filter((it) => it.phase === "done");
    for (const [check, seen] of grouped(looks, (it) => it.check)) {
      const known = new Set(seen.map((it) => it.place));
      if (known.has("")) continue;
      for (const [, here] of grouped(seen, (it) => `${it.stage} ${it.day ?? ""} ${it.good}`)) {
        const now = new Set(seen.flatMap((it) => (it.stage === here[0]?.stage ? [it.place] : [])));
        // Twice in one list is told by its own rule.
        for (const [first, again] of doubled(here, (it) => it.place))
          if (first.entry !== again.entry) tell(first, again, again.place, placesOf(job, check), now, known);
      }
    }

    /** `now`: what was read along with it; `known`: what was read at any time. */
    function tell(first: Moment, again: Moment, spot: string, fellows: readonly string[], now: ReadonlySet<string>, known: ReadonlySet<string>): void {
      const missing = fellows.filter((it) => !now.has(it));
      const never = missing.filter((it) => !known.has(it));
      if (missing.length === 0 || spot === "") return;
      report({
        where: again.where,
        severity: "warning",
        open: never.length > 0,
        message: `${capital(spot)} stands here and on line ${line(first.where)}, and ${listed((never.length > 0 ? never : missing).slice(0, 3))} does not. Write each at its own place.`,
        related: [{ where: first.where, message: "The same place, above." }],
      });
    }
  },
};

function spotOf({ place, position }: { readonly place: string; readonly position: string | undefined }): string {
  return [place, position ?? ""].filter((it) => it !== "").join(" ");
}

/** Each that has a key which one above it has, with the first of them. */
function doubled<T>(list: readonly T[], key: (it: T) => string): [T, T][] {
  const before = new Map<string, T>();
  return list.flatMap((it): [T, T][] => {
    const first = before.get(key(it));
    if (first === undefined) before.set(key(it), it);
    return first === undefined ? [] : [[first, it]];
  });
}

/** The declared places of which a position is one. */
function alongWith(job: Job, position: string | undefined): readonly string[] {
  return [...(job.kindsOfPlace.get(position ?? "") ?? [])].flatMap((kind) => job.placeKinds.get(kind) ?? []);
}

function grouped<T, K>(list: readonly T[], by: (it: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const it of list) {
    const group = groups.get(by(it));
    if (group === undefined) groups.set(by(it), [it]);
    else group.push(it);
  }
  return groups;
}
