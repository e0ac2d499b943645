// Sheet and wire by gauge: the imperial standard wire gauge (SWG) and the American (AWG, Brown and Sharpe).
// Invariant: SWG is the table of the Order in Council of 1883; AWG is worked out from its definition.
import { type Exact, exact, figure } from "../quantities/exact.ts";
import type { Sourced } from "./source.ts";

/** 7/0 to 50, inches. */
const swg = (
  "0.500 0.464 0.432 0.400 0.372 0.348 0.324 0.300 0.276 0.252 0.232 0.212 0.192 0.176 0.160 0.144 0.128 0.116 0.104 0.092 0.080 0.072 0.064 0.056 0.048 0.040 0.036 0.032 " +
  "0.028 0.024 0.022 0.020 0.018 0.0164 0.0148 0.0136 0.0124 0.0116 0.0108 0.0100 0.0092 0.0084 0.0076 0.0068 0.0060 0.0052 0.0048 0.0044 0.0040 0.0036 0.0032 0.0028 0.0024 " +
  "0.0020 0.0016 0.0012 0.0010"
).split(" ");

export interface Gauge extends Sourced {
  readonly name: string;
  readonly inches: Exact;
}

/** A number, or `3/0`, `000` for those above 0. Undefined outside 7/0 to 50. */
export function swgOf(written: string): Gauge | undefined {
  const number = gaugeNumber(written);
  const size = number === undefined ? undefined : swg[number + 6];
  return size === undefined ? undefined : { name: `${written} SWG`, inches: figure(size), source: "BS 3737 (Order in Council 1883)", mark: "table" };
}

/** 0.005 in × 92^((36 − n)/39), to six figures. Undefined outside 4/0 to 40. */
export function awgOf(written: string): Gauge | undefined {
  const number = gaugeNumber(written);
  if (number === undefined || number < -3 || number > 40) return undefined;
  const inches = exact((0.005 * 92 ** ((36 - number) / 39)).toPrecision(6));
  return inches === undefined ? undefined : { name: `${written} AWG`, inches, source: "ASTM B258: 0.005 in \u00d7 92^((36 \u2212 n)/39)", mark: "computed" };
}

/** 0 is 0, `2/0` and `00` are −1, and so on. */
function gaugeNumber(written: string): number | undefined {
  const oughts = /^(\d)\/0$/.exec(written)?.[1];
  if (oughts !== undefined) return Number(oughts) === 0 ? undefined : 1 - Number(oughts);
  if (/^0{2,7}$/.test(written)) return 1 - written.length;
  return /^\d{1,2}$/.test(written) ? Number(written) : undefined;
}
