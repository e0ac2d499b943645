// Judges the limits that are worked out of the readings of others: a clearance of a bore and its pin.
import { isSamePlace } from "../model/same-place.ts";
import { asItStood } from "../model/as-it-stood.ts";
import { grouped } from "../model/grouped.ts";
import { placesOf } from "../model/job.ts";
import { readWith } from "../model/read-with.ts";
import type { Limit } from "../model/things.ts";
import { type Exact, exact, isNegative } from "../quantities/exact.ts";
import { type Judgement, type Renewed, asMadeFirst, bandsFor, isNew, judgeValue, knowsNegative, nearer, squared, uncertaintyOf } from "./bands.ts";
import { isMended, isRenewed, isWorn, namesOf, wasRenewed } from "./renewed.ts";
import type { Reading, Spot, Story } from "./story.ts";
import { type Group, type Unjudged, type Verdict, made } from "./verdict.ts";
import { type Operand, greatest, least, namesIn, workOut } from "./worked-out.ts";

/** Judged twice at most: from what was found, and from the latest readings where any of them is a final. */
export function workedOut(
  story: Story,
  limit: Limit,
  groups: ReadonlyMap<string, readonly Group[]>,
  sound: ReadonlyMap<Reading, readonly Spot[]>,
  unjudged: Unjudged[],
): Verdict[] {
  const expression = limit.expression as NonNullable<Limit["expression"]>;
  const names = [...namesIn(expression)];
  if (names.length === 0 || names.includes(limit.name)) return [];
  const out: Verdict[] = [];
  for (const place of placesOf(story.job, limit)) {
    for (const stage of ["found", "final"] as const) {
      const used: Group[] = [];
      const operand = (name: string): Operand | undefined => {
        const own = (groups.get(name) ?? []).filter(
          (it) =>
            isSamePlace(it.place, place) &&
            (stage === "found" ? it.stage === "found" : it.stage !== "trial") &&
            // A figure that slipped is none: the one before it stands.
            it.readings.some((reading) => (sound.get(reading) ?? []).length > 0),
        );
        const latest = own[own.length - 1];
        if (latest === undefined) return undefined;
        // Something renewed since it was last read has no reading that counts.
        const read = [...latest.limit.of.map((it) => it.text), ...readWith(story.job, latest.limit).map((it) => it.name)];
        const counts = (it: Group) => stage === "found" || it.stage === "final" || !isRenewed(story, read, it.place, Number.POSITIVE_INFINITY);
        if (!counts(latest)) return undefined;
        const list = lastOfEach(own, latest.stage).filter(counts);
        for (const it of list) used.push(it);
        const spots = list.flatMap((it) => it.readings.flatMap((reading) => (sound.get(reading) ?? []).map((spot) => spot.value)));
        const gauge = list.flatMap((it) => it.readings)[0]?.gauge;
        return {
          spots,
          uncertaintySquared: squared(uncertaintyOf(gauge, greatest(spots.map((it) => it.abs())))) ?? (exact("0") as Exact),
          dimension: undefined,
        };
      };
      const both = workOut(expression, operand);
      if (both === undefined || (stage === "final" && !used.some((it) => it.stage === "final"))) continue;
      const readings = used.flatMap((it) => it.readings).sort((a, b) => a.seq - b.seq);
      const last = readings[readings.length - 1] as Reading;
      const halves = stage === "final" ? used.map((it) => wasRenewed(story, namesOf(it.limit), it.place, last.seq)) : [];
      // What a limit of nothing was read of, nobody knows: it leaves the others as they are.
      const ofThings = halves.filter((_, i) => (used[i]?.limit.of.length ?? 0) > 0);
      const stood = asItStood(story.job, limit, last.entry);
      const old = halves.every((it) => it === "none");
      const foundHere = () => out.filter((it) => it.stage === "found" && it.place === place).map((it) => it.value);
      const isWorkedOn = stage === "final" && old && used.some((it) => isMended(story, namesOf(it.limit), it.place, last.seq)) && isWorn(foundHere(), stood);
      const isPoured = () => used.some((it) => isMended(story, namesOf(it.limit), it.place, last.seq, (work) => poured.test(work)));
      const renewed: Renewed = isWorkedOn ? (isPoured() ? "remade" : "mended") : old ? "none" : ofThings.every((it) => it === "all") ? "all" : "some";
      const bands = asMadeFirst(
        bandsFor(stood, stage, renewed),
        stood,
        renewed,
        both.map((it) => it.value),
      );
      const known = readings.every((reading) => reading.gauge !== undefined);
      if (bands.length === 0) {
        const values = both.map((it) => it.value);
        const [first] = both;
        const low = least(values);
        const high = greatest(values);
        if (first !== undefined && low !== undefined && high !== undefined)
          unjudged.push({
            ...{ limit, place, stage, seq: last.seq, day: last.day, where: last.where, reading: last, low, high },
            uncertaintySquared: known ? first.uncertaintySquared : undefined,
          });
        continue;
      }
      let worst: { judgement: Judgement; value: Exact; u2: Exact; approximate: boolean } | undefined;
      for (const it of both) {
        const plain = judgeValue(bands, it.value, known ? { squared: it.uncertaintySquared } : undefined, stage, renewed);
        const judgement: Judgement | undefined =
          // Past new and inside wear is no better: nothing wears to less than nothing.
          plain !== undefined && (plain.outcome === "in" || (plain.name === "new" && plain.outcome === "out")) && isNegative(it.value) && !knowsNegative(stood)
            ? { ...plain, outcome: "doubt", rank: 4 }
            : plain;
        if (
          judgement !== undefined &&
          (worst === undefined ||
            judgement.rank > worst.judgement.rank ||
            (judgement.rank === worst.judgement.rank && nearer(judgement, it.value, worst.judgement, worst.value)))
        ) {
          worst = { judgement, value: it.value, u2: it.uncertaintySquared, approximate: it.approximate };
        }
      }
      const spots = sound.get(last) ?? [];
      if (worst === undefined || spots[0] === undefined) continue;
      const end = spots[spots.length - 1] as Spot;
      out.push(
        made(
          limit,
          place,
          stage,
          last,
          end.at,
          worst.value,
          known ? worst.u2 : undefined,
          worst.judgement.name,
          worst.judgement.band,
          worst.judgement.outcome,
          {
            workedOut: true,
            approximate: worst.approximate,
            renewed: isNew(renewed),
            mended: renewed === "mended",
            stood,
            belowZero: isNegative(worst.value) && !knowsNegative(stood),
          },
        ),
      );
    }
  }
  return out;
}

/**
 * What was read last in this stage, of each place and each end, on whichever day. What is read without a place is of all of them, and stands until one is read by itself; so is what is
 * read without an end.
 */
function lastOfEach(own: readonly Group[], stage: Group["stage"]): readonly Group[] {
  const last = new Map<string, Map<string, Group>>();
  for (const it of own) {
    if (it.stage !== stage) continue;
    const ends = grouped(it.readings, (reading) => reading.position ?? "");
    const here = (ends.has("") ? undefined : last.get(it.place)) ?? new Map<string, Group>();
    if (it.place === "") last.clear();
    else last.delete("");
    here.delete("");
    last.set(it.place, here);
    for (const [end, readings] of ends) here.set(end, { ...it, readings: [...readings] });
  }
  return [...last.values()].flatMap((here) => [...here.values()]);
}

/** White metal that was poured anew is bored to the journal that it runs on, whatever that wore to. */
const poured = /\b(re-?metal(led|ling|s)?|white-?metalled|re-?poured|poured)\b/iu;
