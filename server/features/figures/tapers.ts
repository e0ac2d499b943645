// Tapers: by name (`No 2 Morse taper`, `INT 40`, `7:24 taper`), as 1 in so much, by the foot, or by the angle.
// Invariant: `1 in 8` is on the diameter, and each answer says the half-angle that a slide is set to and the whole angle apart.
import { type Exact, compare, exact, ratio } from "../../quantities/exact.ts";
import type { Sourced } from "../../trade/source.ts";
import { halfAngleOf, rateOf, tapers } from "../../trade/tapers.ts";
import { type Answer, type Value, known, notKnown, roughly, shown, value } from "./answer.ts";
import { type Question, bare, take, takeAll } from "./question.ts";
import { takeQuantity } from "./words.ts";

const about =
  /\b(?:taper(?:ed|s)?(?: per (?:foot|inch))?|per (?:foot|inch)|(?:included|half|whole|cone|setting) angles?|angles?|included|axles?|shafts?|degrees|cones?|conicity|set(?: the)? (?:topslide|top ?slide|compound)(?: to)?|topslide|compound|spindles?|hubs?|arbor|chuck|shanks?|sockets?|large ends?|small ends?|ends?|threads?|on diameter|diameter|in degrees|slide)\b/i;
const ask = ["taper 1 in 8", "No 2 Morse taper", "7:24 taper", "INT 40 taper", "taper 0.6 in per foot", "taper of 8 deg included"];

export function taperFigure(q: Question): Answer | undefined {
  const named = tapers.find((it) => it.shape.test(q.left));
  const asked = /\b(?:tapers?|tapered|cones?|conicity|morse|jarno|jacobs|arbor)\b/i.test(q.left) || (named !== undefined && named.ends.length > 0);
  if (!asked) return undefined;
  if (named !== undefined) {
    take(q, named.shape);
    takeAll(q, about);
    return answer(named.name, named.rate, named.ends, named, named.name.endsWith("(7:24)") || /Morse/.test(named.name));
  }
  if (/\btaper pins?\b/i.test(q.left) && !/\d/.test(q.left))
    return notKnown("Metric taper pins are 1 in 50, inch ones 1 in 48: say which.", "metric taper pin", "inch taper pin");
  const oneIn = take(q, /(?<![\d./-])1 ?(?::|in) ?(\d+(?:\.\d+)?)(?![\d./])(?! ?(?:in|inch|mm)\b)/i);
  const perFoot =
    oneIn === undefined
      ? take(q, /(?<![\d./-])(\d+-\d+\/\d+|\d+\/\d+|\d+(?:\.\d+)?|\.\d+) ?(?:in|inch|inches)? ?(?:per|to the|a|\/) ?(?:ft|foot)\b/i)
      : undefined;
  const behind =
    oneIn === undefined && perFoot === undefined
      ? take(q, /\bper (?:ft|foot) ?(?:is |of |=)? ?(\d+\/\d+|\d+(?:\.\d+)?|\.\d+)(?: ?in(?:ch)?)?(?![\d./])/i)
      : undefined;
  const perInch =
    oneIn === undefined && perFoot === undefined && behind === undefined
      ? take(q, /(?<![\d./-])(\d+(?:\.\d+)?|\.\d+) ?(?:in|inch|inches)? ?(?:per|\/) ?(?:inch|in)\b/i)
      : undefined;
  const half = take(q, /\bhalf[- ]angle\b/i) !== undefined;
  if (oneIn !== undefined) {
    takeAll(q, about);
    const n = exact(oneIn[1] as string);
    if (n === undefined || n.n === 0n) return notKnown("A taper is 1 in more than nothing.", "taper 1 in 8");
    return answer(`Taper 1 in ${oneIn[1]}`, n.inverse(), [], iso1119, false);
  }
  const said = perFoot ?? behind ?? perInch;
  if (said !== undefined) {
    takeAll(q, about);
    const figure = exact(said[1] as string);
    if (figure === undefined || figure.n === 0n || compare(figure, ratio(24)) > 0) return notKnown("Say a taper above nothing.", "taper 0.6 in per foot");
    return answer(`Taper of ${said[1]} in per ${said === perInch ? "inch" : "foot"}`, said === perInch ? figure : figure.div(12), [], iso1119, false);
  }
  const angle = takeQuantity(q, "angle");
  if (angle !== undefined) {
    takeAll(q, about);
    const degrees = angle.value.valueOf() * (half ? 2 : 1);
    if (!(degrees > 0 && degrees < 170)) return notKnown("Say an angle above nothing, and short of a flat.", "taper of 8 deg included");
    return byAngle(degrees);
  }
  takeAll(q, about);
  return bare(q.left) === "" || /^\s*(?:taper|cone)/i.test(q.left)
    ? notKnown("Say which taper, by its name, as 1 in so much, per foot, or by its angle.", ...ask)
    : undefined;
}

const iso1119: Sourced = { source: "ISO 1119: half-angle atan(1/(2\u00b7n)) for 1 in n on the diameter", mark: "computed" };

function answer(name: string, rate: Exact, ends: readonly (readonly [string, Exact])[], from: Sourced, machine: boolean): Answer {
  const half = halfAngleOf(rate);
  const values: Value[] = [
    value("taper per foot", rate.mul(12), "in/ft", 8),
    value("taper per inch", rate, "in/in", 8),
    roughly("half-angle", half, "deg"),
    roughly("angle", 2 * half, "deg"),
    value("one in", rate.inverse(), "", 8),
    ...ends.flatMap(([end, inches]) => [value(end, inches, "in"), value(end, inches.mul(ratio(254, 10)), "mm", 6)]),
  ];
  const said = ends.map(([end, inches]) => `${end} ${shown(inches, 5)} in (${shown(inches.mul(ratio(254, 10)), 5)} mm)`);
  return known(
    `${name}: ${shown(rate.mul(12), 6)} in per foot on the diameter, 1 in ${shown(rate.inverse(), 5)}; half-angle ${half.toFixed(5)}\u00b0 (what a slide is set to), whole angle ${(2 * half).toFixed(5)}\u00b0${said.length === 0 ? "" : `; ${said.join(", ")}`}${from.mark === "memory" ? " (from memory)" : ""}.`,
    values,
    from === iso1119 ? [from] : [from, { source: "angles from the taper", mark: "computed" }],
    machine ? [] : ["A taper that holds by friction is proved with marking blue, not by its angle."],
  );
}

function byAngle(degrees: number): Answer {
  const rate = rateOf(degrees);
  return known(
    `A cone of ${degrees}\u00b0 (half-angle ${degrees / 2}\u00b0): ${(rate * 12).toFixed(5)} in per foot on the diameter, 1 in ${(1 / rate).toFixed(4)}.`,
    [roughly("taper per foot", rate * 12, "in/ft"), roughly("one in", 1 / rate), roughly("half-angle", degrees / 2, "deg"), roughly("angle", degrees, "deg")],
    [{ source: "ISO 1119: 2\u00b7tan(half-angle)", mark: "computed" }],
  );
}
