// Readings and torques that an honest gauge would show: well inside, just past, far out. All in the unit of the plant.
import type { Chance } from "./chance.ts";
import type { Row } from "./deeds.ts";
import type { Fastener, Limit, Plant } from "./plant.ts";

export const tidy = (plant: Plant, value: number): number => Number(value.toFixed(plant.length === "mm" ? 3 : 4));

export const doubt = (plant: Plant, limit: Limit): number => plant.gauges.find((it) => it.name === limit.gauge)?.uncertainty ?? 0;

export function inside(plant: Plant, [low, high]: readonly [number, number], c: Chance): number {
  return tidy(plant, low + (high - low) * (0.35 + c.whole(0, 6) * 0.05));
}

/** What the limit takes as good now: as set, as made, or a used piece inside of its wear. */
export function goodRange(limit: Limit, fresh: boolean): [number, number] {
  if (limit.set !== undefined) return limit.set;
  if (limit.spread !== undefined) return [0, limit.spread];
  const [low, high] = limit.fresh ?? [0, limit.wornMax ?? 1];
  if (fresh) return [low, high];
  if (limit.wornMax !== undefined) return [low, (high + limit.wornMax) / 2];
  if (limit.wornMin !== undefined) return [(low + limit.wornMin) / 2, high];
  return [low, high];
}

/** Rows of a reading that is as it should be, at those places. */
export function goodRows(plant: Plant, limit: Limit, places: string[] | undefined, fresh: boolean, c: Chance): Row[] {
  const rows: Row[] = [];
  for (const at of places ?? [undefined]) {
    const middle = inside(plant, goodRange(limit, fresh), c);
    const small = tidy(plant, Math.min(limit.ovality ?? Infinity, limit.taper ?? Infinity, limit.spread ?? Infinity, (limit.wornMax ?? Infinity) / 50) / 5);
    const nudge = Number.isFinite(small) ? Math.min(small, spanOf(limit, fresh) / 10) : 0;
    for (const position of limit.positions ?? [undefined]) {
      const spots = limit.spread !== undefined ? 4 : limit.ovality !== undefined ? 2 : c.yes(0.2) && limit.set === undefined && nudge > 0 ? 2 : 1;
      const values = Array.from({ length: spots }, (_, i) => tidy(plant, limit.spread !== undefined ? nudge * ((i * 2) % 3) : middle + (i % 2) * nudge));
      const again = spots === 1 && c.yes(0.15);
      rows.push({ at, position, values: again ? [middle, middle] : values, ...(again ? { again } : {}) });
    }
  }
  return rows;
}

const spanOf = (limit: Limit, fresh: boolean): number => {
  const [low, high] = goodRange(limit, fresh);
  return high - low;
};

/** Past the limit of wear by more than any doubt. */
export function past(plant: Plant, limit: Limit): number | undefined {
  const by = Math.max(doubt(plant, limit) * 6, plant.length === "mm" ? 0.05 : 0.002);
  if (limit.wornMax !== undefined) return tidy(plant, limit.wornMax + by);
  if (limit.wornMin !== undefined) return tidy(plant, limit.wornMin - by);
  return undefined;
}

export function torqueInside(fastener: Fastener, c: Chance): number[] | undefined {
  if (!Array.isArray(fastener.torque)) return undefined;
  const [low, high] = fastener.torque;
  const last = Math.round(low + (high - low) * (0.4 + c.whole(0, 2) * 0.1));
  return fastener.stage === undefined ? [last] : [fastener.stage, last];
}
