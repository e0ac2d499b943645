// The differences of two readings: spread, ovality, taper. Their U is the root of the sum of both squared: of one gauge, the root of two times its own.
import { grouped } from "../model/grouped.ts";
import { bandOf, measured } from "../model/values.ts";
import type { Exact } from "../quantities/exact.ts";
import { asDifference } from "../quantities/quantity.ts";
import { type Band, verdict as compare } from "../quantities/range.ts";
import { squared, uncertaintyOf } from "./bands.ts";
import { roundOf } from "./sittings.ts";
import type { Reading, Spot, Story } from "./story.ts";
import { type Group, type Verdict, made } from "./verdict.ts";
import { greatest, least, mean } from "./worked-out.ts";

export const none: readonly never[] = [];

export function spreads(group: Group, sound: ReadonlyMap<Reading, readonly Spot[]>): readonly Verdict[] {
  const { limit, stood } = group;
  if (stood.spread === undefined && stood.ovality === undefined && stood.taper === undefined) return none;
  const out: Verdict[] = [];
  const last = group.readings[group.readings.length - 1] as Reading;
  const difference = (name: "spread" | "ovality" | "taper", value: Exact, reading: Reading, spot: Spot, other: Reading, position?: string): void => {
    const most = measured(stood[name]);
    if (most === undefined || spot.figures.some((it) => it.unit.dimension !== most.unit.dimension)) return;
    const u2 = ofBoth(squared(uncertaintyOf(reading.gauge, spot.value)), squared(uncertaintyOf(other.gauge, spot.value)));
    const band: Band = { high: asDifference(most), unit: most.unit, text: `max ${most.figure} ${most.unit.spelling}` };
    const raw = compare(band, value, u2 === undefined ? undefined : { squared: u2 });
    const outcome = raw === "in" || raw === "in-plain" ? "in" : raw === "out" || raw === "out-plain" ? "out" : "doubt";
    out.push(
      made(
        limit,
        group.place,
        group.stage,
        reading,
        spot.at,
        value,
        u2,
        name,
        band,
        outcome,
        position === undefined ? { seq: last.seq } : { position, seq: last.seq },
      ),
    );
  };
  if (stood.spread !== undefined) {
    const all = group.readings.flatMap((reading) => (sound.get(reading) ?? []).map((spot) => ({ reading, spot })));
    if (all.length > 1) {
      const values = all.map((it) => it.spot.value);
      const most = greatest(values);
      const high = all.find((it) => it.spot.value.compare(most) === 0) as (typeof all)[number];
      const low = all.find((it) => it.spot.value.compare(least(values)) === 0) as (typeof all)[number];
      difference("spread", most.sub(least(values)), high.reading, high.spot, low.reading);
    }
  }
  const byPosition = new Map<string, { reading: Reading; spots: Spot[] }>();
  for (const reading of group.readings) {
    const spots = sound.get(reading) ?? [];
    const key = reading.position ?? "";
    const at = byPosition.get(key);
    if (at === undefined) byPosition.set(key, { reading, spots: [...spots] });
    else {
      for (const spot of spots) at.spots.push(spot);
      at.reading = reading;
    }
  }
  if (stood.ovality !== undefined) {
    for (const [position, { reading, spots }] of byPosition) {
      if (spots.length < 2) continue;
      const values = spots.map((spot) => spot.value);
      // The one that stands nearest to the limit of wear is the worst of the two.
      const worst = bandOf(stood.worn)?.low !== undefined && bandOf(stood.worn)?.high === undefined ? least(values) : greatest(values);
      const high = spots.find((spot) => spot.value.compare(worst) === 0) as Spot;
      const homeOf = (spot: Spot) => group.readings.find((it) => (sound.get(it) ?? []).includes(spot)) ?? reading;
      const far = worst.compare(greatest(values)) === 0 ? least(values) : greatest(values);
      const other = spots.find((spot) => spot.value.compare(far) === 0) as Spot;
      difference("ovality", greatest(values).sub(least(values)), homeOf(high), high, homeOf(other), position);
    }
  }
  if (stood.taper !== undefined && byPosition.size > 1) {
    const ends = [...byPosition.values()].filter((it) => it.spots.length > 0).map((it) => ({ ...it, mean: mean(it.spots.map((spot) => spot.value)) }));
    const means = ends.map((it) => it.mean);
    const spots = sound.get(last) ?? [];
    if (means.length > 1 && spots[0] !== undefined) {
      const [high, low] = [greatest(means), least(means)];
      // The last stands for the one that it is an end of; the other is another gauge's where two were used.
      const other = ends.find((it) => it.reading.gauge !== last.gauge && (it.mean.compare(high) === 0 || it.mean.compare(low) === 0));
      difference("taper", high.sub(low), last, spots[0], other?.reading ?? last);
    }
  }
  return out;
}

/** One that is not known adds nothing that could be told. */
function ofBoth(a: Exact | undefined, b: Exact | undefined): Exact | undefined {
  return a === undefined || b === undefined ? (a ?? b) : a.add(b);
}

/**
 * A spread of which each place has one figure is told over the places, each round of them by itself: backlash at four spots of one wheel. One figure alone spreads over nothing,
 * so no other spread can be meant. It stands at no place, for it is of all of them.
 */
export function overPlaces(story: Story, groups: readonly Group[], sound: ReadonlyMap<Reading, readonly Spot[]>): Verdict[] {
  const placed = groups.filter((it) => it.stood.spread !== undefined && it.place !== "");
  return [...grouped(placed, (it) => roundOf(story, it.entry)).values()].flatMap((list) => {
    const readings = list.flatMap((it) => it.readings);
    if (list.length < 2 || readings.length !== list.length || readings.some((it) => sound.get(it)?.length !== 1)) return [];
    return spreads({ ...(list[0] as Group), place: "", readings }, sound).filter((it) => it.band === "spread");
  });
}

/** A taper whose ends were each read in an entry of its own, which says nothing of it by itself. */
export function overEntries(story: Story, groups: readonly Group[], sound: ReadonlyMap<Reading, readonly Spot[]>): Verdict[] {
  const tapered = groups.filter((it) => it.stood.taper !== undefined);
  const rounds = [...grouped(tapered, (it) => roundOf(story, it.entry)).values()];
  return rounds
    .flatMap((round) => [...grouped(round, (it) => it.place).values()])
    .flatMap((list) => {
      if (list.length < 2) return [];
      return spreads({ ...(list[0] as Group), readings: list.flatMap((it) => it.readings) }, sound).filter((it) => it.band === "taper");
    });
}
