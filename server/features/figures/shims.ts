// Shims without a sheet: a reading, what it should be, what is fitted and what lies in the drawer; on one side, on two, or for a thickness alone.
import { type Exact, compare, figure, ratio, zero } from "../../quantities/exact.ts";
import { type Unit, unitOf } from "../../quantities/units.ts";
import { type Stack, bestStack } from "../../trade/shims.ts";
import type { Shims } from "../../trade/shim-pool.ts";
import { moveShims } from "../../trade/two-sides.ts";
import { type Answer, type Value, known, notKnown, shown, value, valueIn } from "./answer.ts";
import { type Part, type Question, partsOf, take } from "./question.ts";
import { type Listed, above, bandIn, figureIn, listIn, quantityIn } from "./words.ts";

const ask = ["shims 0.43 mm to 0.10 .. 0.15 mm from 0.05 mm x 4, 0.10 mm x 3, 0.25 mm x 2", "shims 0.55 mm from 0.25, 0.30, 0.35 mm"];
const found = { source: "all stacks that the shims can make, compared exactly: nearest to the target, then the fewest shims", mark: "computed" } as const;
const measureAgain = "Measure again with the shims in and all tight: shims are seldom as thick as they are marked.";
/** Where no count is given, there are as many of a thickness as the stack needs, up to this. */
const asManyAsNeeded = 60;

export function shimFigure(q: Question): Answer | undefined {
  if (take(q, /^(?:shim stack|shims?|stack)\b(?: of| for)?/i) === undefined) return undefined;
  q.left = q.left.replace(/(\d) ?\.\. ?/g, "$1 .. ");
  const parts = partsOf(q, {
    first: "first|left",
    second: "second|right",
    fitted: "fitted|now|with",
    from: "from|drawer|have|out of",
    effect: "effect",
    to: "to|wanted|target",
  });
  const drawer = parts.get("from");
  const lists = [drawer, parts.get("fitted"), parts.get("first"), parts.get("second")].map((part) => (part === undefined ? [] : listIn(part)));
  if (lists.some((it) => it === undefined || it.some((shim) => shim.value === undefined || shim.value.unit.dimension !== "length" || !above(shim.value))))
    return notKnown("The shims could not be read. Say each thickness with its unit, and x and how many.", ...ask);
  const [have = [], fitted = [], first = [], second = []] = lists.map((it) => it ?? []);
  const start = quantityIn(parts.get(""));
  const unit = start?.unit ?? have[0]?.value?.unit;
  if (start === undefined || start.unit.dimension !== "length" || unit === undefined || (have.length === 0 && fitted.length === 0 && first.length === 0))
    return notKnown("Say the reading, what it should be, and the shims that there are.", ...ask);
  if (!parts.has("to")) return first.length > 0 ? notKnown("Say what the reading should be.", ...ask) : thicknessOf(start.value, have, unit);
  const wanted = bandOrTarget(parts.get("to"));
  if (wanted === undefined) return notKnown("What the reading should be could not be read. Say a range with its unit, or one figure.", ...ask);
  const said = parts.get("effect");
  const effect = said === undefined ? undefined : figureIn(said);
  if (said !== undefined && effect === undefined)
    return notKnown("The effect is a plain figure: by how much the reading changes for one unit of thickness put in.", ...ask);
  const job = { reading: start.value, ...wanted };
  if (first.length > 0 || second.length > 0) return twoSides(job, effect, first, second, have, unit);
  return oneSide(job, effect, fitted, have, unit);
}

interface Wanted {
  readonly low?: Exact;
  readonly high?: Exact;
  readonly target?: Exact;
}

function bandOrTarget(part: Part | undefined): Wanted | undefined {
  const band = bandIn(part);
  if (band !== undefined && band.unit.dimension !== "length") return undefined;
  if (band !== undefined) return { ...(band.low === undefined ? {} : { low: band.low }), ...(band.high === undefined ? {} : { high: band.high }) };
  const target = quantityIn(part);
  return target === undefined || target.unit.dimension !== "length" ? undefined : { low: target.value, high: target.value };
}

function shimsOf(list: readonly Listed[]): Shims[] {
  return list.flatMap((it) => (it.value === undefined ? [] : [{ thickness: it.value.value, count: it.count ?? 1 }]));
}

function oneSide(job: Wanted & { readonly reading: Exact }, effect: Exact | undefined, fitted: readonly Listed[], have: readonly Listed[], unit: Unit): Answer {
  const above = compare(job.reading, job.high ?? job.low ?? zero) > 0;
  // With nothing fitted shims can only go in: which way they move the reading follows from where it must go.
  const taken = effect ?? ratio(fitted.length === 0 && above ? -1 : 1);
  const assumed =
    effect !== undefined
      ? ""
      : ` Taken: each shim put in makes the reading ${compare(taken, zero) < 0 ? "less" : "more"} by its thickness; if it is otherwise, say effect.`;
  const answer = bestStack({ ...job, effect: taken, fitted: shimsOf(fitted), drawer: shimsOf(have) });
  if (answer.kind === "too-many") return notKnown("There are too many stacks to try them all. Leave out the shims that can't be meant.", ...ask);
  if (answer.kind === "unclear") return notKnown("With no effect on the reading, or a thickness of nothing, no stack can be found.", ...ask);
  if (answer.kind === "stack") {
    const { stack, reading } = answer;
    const values = [...stackValues(stack, unit), valueIn("reading then", reading, unit), valueIn("from the middle", answer.off, unit)];
    return known(
      `${stackText(stack, unit)}: the reading comes to ${inUnitText(reading, unit)}.${changeText(stack, fitted, unit)}${assumed}`,
      values,
      [found],
      [measureAgain],
    );
  }
  const values = [
    ...stackValues(answer.nearest, unit),
    valueIn("reading then", answer.reading, unit),
    valueIn("thickness wanted", answer.wanted, unit),
    ...(answer.get === undefined ? [] : [valueIn("shim to get", answer.get, unit)]),
  ];
  const none =
    compare(answer.wanted, zero) < 0
      ? "Shims alone can't cure it."
      : answer.get === undefined
        ? ""
        : ` Get one of ${inUnitText(answer.get, unit)}${answer.onto === undefined || answer.onto.pieces === 0 ? "" : ` to go with ${stackText(answer.onto, unit)}`}.`;
  return known(
    `No stack brings the reading inside. The nearest, ${stackText(answer.nearest, unit)}, makes it ${inUnitText(answer.reading, unit)}.${none}${assumed}`.replace(
      "inside..",
      "inside.",
    ),
    values,
    [found],
    [measureAgain],
  );
}

function twoSides(
  job: Wanted & { readonly reading: Exact },
  effect: Exact | undefined,
  first: readonly Listed[],
  second: readonly Listed[],
  have: readonly Listed[],
  unit: Unit,
): Answer {
  if (effect === undefined)
    return notKnown(
      "On two sides the effect must be said: by how much the reading changes for one unit of thickness moved to the first side.",
      "shims 0.30 mm to 0.10 .. 0.15 mm first 0.10 mm x 3 second 0.10 mm x 2, 0.05 mm x 2 effect -0.7",
    );
  const answer = moveShims({ ...job, effect, first: shimsOf(first), second: shimsOf(second), drawer: shimsOf(have) });
  if (answer.kind === "too-many") return notKnown("There are too many ways to share the shims out. Leave out those that can't be meant.", ...ask);
  if (answer.kind === "unclear") return notKnown("With no effect on the reading, or a thickness of nothing, no stack can be found.", ...ask);
  const sides = `first side ${stackText(answer.first, unit)}, second side ${stackText(answer.second, unit)}`;
  const values: Value[] = [
    valueIn("first total", answer.first.total, unit),
    valueIn("second total", answer.second.total, unit),
    valueIn("reading then", answer.reading, unit),
  ];
  const kept = "The total over both sides stays as it was, so that the preload of the bearings does.";
  if (answer.kind === "none")
    return known(
      `No way of sharing them out brings the reading inside. The nearest is ${sides}: ${inUnitText(answer.reading, unit)}. To move: ${inUnitText(answer.toMove, unit)}. ${kept}`,
      [...values, valueIn("to move", answer.toMove, unit)],
      [found],
      [measureAgain],
    );
  return known(
    `${sides.charAt(0).toUpperCase()}${sides.slice(1)}: the reading comes to ${inUnitText(answer.reading, unit)}. ${kept}`,
    [...values, valueIn("moved to the first side", answer.moved, unit)],
    [found],
    [measureAgain],
  );
}

/** A thickness to be made up exactly; where no count was given, of as many as it takes. */
function thicknessOf(total: Exact, have: readonly Listed[], unit: Unit): Answer {
  const drawer = shimsOf(have).map((it, i) => ({ ...it, count: have[i]?.count ?? asManyAsNeeded }));
  const answer = bestStack({ reading: zero, effect: ratio(1), low: total, high: total, fitted: [], drawer });
  if (answer.kind === "stack")
    return known(
      `${stackText(answer.stack, unit)} make ${inUnitText(total, unit)}.`.replace(/^(1 x [^,+]+) make/, "$1 makes"),
      stackValues(answer.stack, unit),
      [found],
      [measureAgain],
    );
  if (answer.kind !== "none") return notKnown("There are too many stacks to try, or a thickness of nothing.", ...ask);
  const { nearest } = answer;
  return known(
    `No stack makes ${inUnitText(total, unit)} exactly. The nearest is ${stackText(nearest, unit)}, ${inUnitText(nearest.total, unit)}.`,
    [...stackValues(nearest, unit), valueIn("short by", total.sub(nearest.total), unit)],
    [found],
    [measureAgain],
  );
}

function stackValues(stack: Stack, unit: Unit): Value[] {
  return [
    valueIn("total", stack.total, unit),
    value("pieces", figure(String(stack.pieces))),
    ...stack.shims.map((it) => value(`of ${inUnitText(it.thickness, unit)}`, ratio(it.count))),
  ];
}

function stackText(stack: Stack, unit: Unit): string {
  return stack.shims.length === 0 ? "no shim" : stack.shims.map((it) => `${it.count} x ${inUnitText(it.thickness, unit)}`).join(" + ");
}

function changeText(stack: Stack, fitted: readonly Listed[], unit: Unit): string {
  if (fitted.length === 0 || stack.change.length === 0) return "";
  return ` Change: ${stack.change.map((it) => `${it.count > 0 ? "put in" : "take out"} ${Math.abs(it.count)} x ${inUnitText(it.thickness, unit)}`).join(", ")}.`;
}

function inUnitText(base: Exact, unit: Unit): string {
  return `${shown(base.div((unitOf(unit.name) ?? unit).factor), 6)} ${unit.name}`;
}
