// A figure that is far outside every limit, but inside when a point or a unit is put right: a slip of the pen, not of the machine.
// Invariant: a doubt about the figure, never a verdict on the thing.
import type { Limit } from "../model/things.ts";
import { bandOf } from "../model/values.ts";
import { type Exact, exact } from "../quantities/exact.ts";
import { type Band, inside } from "../quantities/range.ts";
import type { Spot } from "./story.ts";

export interface Slip {
  /** What the reading would be worth, in the base unit, for each way in which it may have slipped; the likeliest first. */
  readonly instead: readonly { readonly value: Exact; readonly factor: number; readonly times: boolean }[];
}

/** Points slip by ten and a thousand; feet for inches by twelve; inches for millimetres by 25.4. */
const factors: readonly { readonly factor: number; readonly exact: Exact }[] = [10, 25.4, 1000, 12].map((factor) => ({
  factor,
  exact: exact(String(factor)) as Exact,
}));
const five = exact("5") as Exact;

const remembered = new WeakMap<Spot, { limit: Limit; slip: Slip | undefined }>();

/** Remembered with the spot, for it hangs on that and its limit alone. */
export function slipOf(limit: Limit, spot: Spot): Slip | undefined {
  let it = remembered.get(spot);
  if (it === undefined || it.limit !== limit) {
    it = { limit, slip: lookFor(limit, spot) };
    remembered.set(spot, it);
  }
  return it.slip;
}

/**
 * At least five times outside every limit, and inside one when taken times or through 10, 12, 25.4 or 1000; or ten or twenty-five times off on the open
 * side of limits of one side.
 */
function lookFor(limit: Limit, spot: Spot): Slip | undefined {
  const bands = [bandOf(limit.worn), bandOf(limit.set), bandOf(limit.new)].filter((band): band is Band => band !== undefined);
  if (bands.length === 0 || bands.some((band) => band.unit.dimension !== spot.figures[0]?.unit.dimension)) return undefined;
  const { value } = spot;
  if (!bands.every((band) => farOutside(band, value))) return openSide(bands, limit, value);
  const instead: Slip["instead"][number][] = [];
  for (const times of [false, true]) {
    for (const factor of factors) {
      const other = times ? value.mul(factor.exact) : value.div(factor.exact);
      if (bands.some((band) => inside(band, other))) instead.push({ value: other, factor: factor.factor, times });
    }
  }
  const [near, all] = [instead.filter((it) => isNear(bands, it.value)), instead];
  // Of what has no other end a metre is as much inside as an inch.
  return all.length === 0 ? undefined : { instead: near.length > 0 ? near : all };
}

/** Not more than so many times what it is to be at the least: a lining, a spring, a tread wears from no more. */
const mostOfLeast = exact("10") as Exact;
/** So many times that, nothing is that wears. From memory. */
const farBeyond = exact("30") as Exact;

function isNear(bands: readonly Band[], value: Exact): boolean {
  return bands.every(({ low, high }) => low === undefined || high !== undefined || low.compare(0) <= 0 || value.compare(low.mul(mostOfLeast)) <= 0);
}

/** A clearance or a run-out may be as small as it likes; what measures this much, in millimetres, is a size, and does not wear away to a tenth. */
const size = exact("5") as Exact;
const nearly = { least: exact("0.9") as Exact, most: exact("1.1") as Exact };

/**
 * A limit with one side says nothing against a figure far beyond the other. A length that is a size, and that a slip of ten or of 25.4 would bring to within
 * a tenth of every edge that is given, is a slip all the same.
 */
function openSide(bands: readonly Band[], limit: Limit, value: Exact): Slip | undefined {
  if (limit.expression !== undefined || value.compare(0) <= 0 || bands[0]?.unit.dimension !== "length") return undefined;
  const beyond = bands.every(({ low, high }) => high === undefined && low !== undefined && low.compare(0) > 0 && value.compare(low.mul(farBeyond)) >= 0);
  if (beyond) {
    const instead = factors
      .map(({ factor, exact: by }) => ({ value: value.div(by), factor, times: false }))
      .filter((it) => bands.every((band) => inside(band, it.value)) && isNear(bands, it.value));
    return instead.length === 0 ? undefined : { instead };
  }
  const edges = bands.flatMap(({ low, high }) => [low, high].filter((it): it is Exact => it !== undefined));
  if (edges.some((edge) => edge.compare(size) < 0)) return undefined;
  const instead: Slip["instead"][number][] = [];
  for (const times of [false, true]) {
    for (const { factor, exact: by } of factors.slice(0, 2)) {
      const other = times ? value.mul(by) : value.div(by);
      if (edges.every((edge) => other.compare(edge.mul(nearly.least)) >= 0 && other.compare(edge.mul(nearly.most)) <= 0))
        instead.push({ value: other, factor, times });
    }
  }
  return instead.length === 0 ? undefined : { instead };
}

function farOutside(band: Band, value: Exact): boolean {
  if (band.high !== undefined && band.high.compare(0) > 0 && value.compare(band.high.mul(five)) >= 0) return true;
  return band.low !== undefined && value.compare(0) > 0 && value.mul(five).compare(band.low) <= 0;
}
