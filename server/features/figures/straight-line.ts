// The straight line that lies best through points, by least squares: `best straight line through these points (x y): 10 7.46, 8 6.77, 13 12.74`.
// Invariant: sums in exact ratios; the only root is taken at the end, to be shown.
import { type Exact, ratio, rootTo, sumOf, zero, exact } from "../../quantities/exact.ts";
import { straightLine } from "../../quantities/straight-line.ts";
import { type Answer, type Value, known, notKnown, shown, value } from "./answer.ts";
import { type Question, take, takeAll } from "./question.ts";

const ask = "best straight line through points (x y): 1 2.1, 2 3.9, 3 6.2";
const most = 2000;

export function lineFigure(q: Question): Answer | undefined {
  if (!/\b(?:(?:best|straight|fitted|regression)(?: straight| fit)* line|line (?:of best fit|through)|least squares|regression)\b/i.test(q.left))
    return undefined;
  const origin = take(q, /\b(?:through|by) (?:the )?(?:origin|nothing|zero)\b/i) !== undefined;
  takeAll(q, /\b(?:best|straight|fitted|line of best fit|line|through|least squares|regression|these|points?)\b|\(? ?x,? y ?\)?/i);
  const points: [Exact, Exact][] = [];
  const text = q.left.replace(/^[\s:;for]*(?=[+-]?[\d.])/i, "");
  for (const piece of text
    .split(/[,;]/)
    .map((it) => it.trim())
    .filter((it) => it !== "" && it !== ":")) {
    const [x, y, more] = piece.replace(/^:/, "").trim().split(/\s+/);
    const [a, b] = [exact(x ?? ""), exact(y ?? "")];
    if (a === undefined || b === undefined || more !== undefined)
      return /^(?:for|of|to|and|a|the)+$/i.test(piece)
        ? undefined
        : notKnown(`\u201c${piece.slice(0, 40)}\u201d isn't a point: write each as x, a space, y, and a comma between points.`, ask);
    points.push([a, b]);
  }
  q.left = "";
  if (points.length > most) return notKnown(`More than ${most} points are not taken.`, ask);
  const line = origin ? throughOrigin(points) : points.length < 3 ? undefined : straightLine(points);
  if (line === undefined)
    return notKnown(origin ? "Say two points at the least, not all with x at nothing." : "Say three points at the least, not all with one x.", ask);
  const deviation = rootTo(line.residual.div(points.length - (origin ? 1 : 2)), 15) ?? zero;
  const values: Value[] = [
    value("slope", line.slope),
    ...(origin ? [] : [value("intercept", line.intercept)]),
    { name: "residual standard deviation", value: shown(deviation, 12), unit: "", rounded: true },
    value("points", ratio(points.length)),
  ];
  const intercept = origin ? "" : `${line.intercept.s < 0n ? " - " : " + "}${shown(line.intercept.abs(), 8)}`;
  return known(
    `y = ${shown(line.slope, 8)} x${intercept}, with a residual standard deviation of ${shown(deviation, 6)} (${points.length} points${origin ? ", through the origin" : ""}).`,
    values,
    [{ source: `least squares on exact decimals, n \u2212 ${origin ? 1 : 2} degrees of freedom`, mark: "computed" }],
  );
}

interface Line {
  readonly slope: Exact;
  readonly intercept: Exact;
  /** Sum of the squares that are left. */
  readonly residual: Exact;
}

function throughOrigin(points: readonly (readonly [Exact, Exact])[]): Line | undefined {
  const sxx = sumOf(points.map(([x]) => x.mul(x)));
  if (points.length < 2 || sxx.n === 0n) return undefined;
  const slope = sumOf(points.map(([x, y]) => x.mul(y))).div(sxx);
  return { slope, intercept: zero, residual: residualOf(points, slope, zero) };
}

function residualOf(points: readonly (readonly [Exact, Exact])[], slope: Exact, intercept: Exact): Exact {
  return sumOf(
    points.map(([x, y]) => {
      const off = y.sub(slope.mul(x)).sub(intercept);
      return off.mul(off);
    }),
  );
}
