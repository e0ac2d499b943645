// A limit that is worked out from other limits' readings: its worst values at a place, with their uncertainty.
// Invariant: exact for + - * / min max mean span abs; roots and angles go through a decimal of 15 figures and say so.
import type { Expression } from "../../grammar/tree.ts";
import { leavesOf } from "../model/leaves.ts";
import { measured } from "../model/values.ts";
import { type Exact, exact } from "../quantities/exact.ts";
import type { Dimension } from "../quantities/units.ts";

/** What a limit's readings give at a place: each spot's value, and U squared. */
export interface Operand {
  readonly spots: readonly Exact[];
  readonly uncertaintySquared: Exact;
  readonly dimension: Dimension | undefined;
}

export interface WorkedOut {
  readonly value: Exact;
  readonly uncertaintySquared: Exact;
  readonly approximate: boolean;
}

const operandLimit = 8;

/**
 * The least and the greatest value that the expression takes over the spots of its operands.
 * Undefined where an operand has no reading or the figures can't be worked out (a division by nothing).
 * The uncertainty is the root of the sum of squares by the partial derivatives (JCGM 100, 5.1.2).
 */
export function workOut(expression: Expression, operand: (name: string) => Operand | undefined): readonly [WorkedOut, WorkedOut] | undefined {
  const names = [...namesIn(expression)];
  const operands = new Map<string, Operand>();
  for (const name of names) {
    const it = operand(name);
    if (it === undefined || it.spots.length === 0) return undefined;
    operands.set(name, it);
  }
  const whole = insideCalls(expression);
  const loose = names.filter((name) => !whole.has(name)).slice(0, operandLimit);
  let low: WorkedOut | undefined;
  let high: WorkedOut | undefined;
  for (let choice = 0; choice < 1 << loose.length; choice++) {
    const chosen = new Map<string, Exact>();
    loose.forEach((name, i) => {
      const spots = (operands.get(name) as Operand).spots;
      chosen.set(name, ((choice >> i) & 1) === 0 ? least(spots) : greatest(spots));
    });
    const it = at(expression, operands, chosen);
    if (it === undefined) return undefined;
    if (low === undefined || it.value.compare(low.value) < 0) low = it;
    if (high === undefined || it.value.compare(high.value) > 0) high = it;
  }
  return low === undefined || high === undefined ? undefined : [low, high];
}

/** The limits that an expression names. */
export function namesIn(expression: Expression): Set<string> {
  return new Set(leavesOf(expression).flatMap((it) => (it.kind === "name" ? [it.name.text] : [])));
}

/** Names that stand alone in `mean`, `span`, `min` or `max`: all their spots count, and none is chosen. */
function insideCalls(expression: Expression, into = new Set<string>()): Set<string> {
  if (expression.kind === "call") {
    for (const argument of expression.arguments) {
      if (argument.kind === "name" && isOfSpots(expression.function.text, expression.arguments.length)) into.add(argument.name.text);
      else insideCalls(argument, into);
    }
  } else if (expression.kind === "negate") insideCalls(expression.operand, into);
  else if (expression.kind === "binary") {
    insideCalls(expression.left, into);
    insideCalls(expression.right, into);
  }
  return into;
}

function isOfSpots(name: string, count: number): boolean {
  return name === "mean" || name === "span" || ((name === "min" || name === "max") && count === 1);
}

/** A value, its partial derivative by each operand, and whether it is still exact. */
interface Traced {
  readonly value: Exact;
  readonly slopes: ReadonlyMap<string, Exact>;
  readonly approximate: boolean;
}

const zero = exact("0") as Exact;
const one = exact("1") as Exact;

function at(expression: Expression, operands: ReadonlyMap<string, Operand>, chosen: ReadonlyMap<string, Exact>): WorkedOut | undefined {
  const traced = trace(expression);
  if (traced === undefined) return undefined;
  let sum = zero;
  for (const [name, slope] of traced.slopes) sum = sum.add(slope.mul(slope).mul((operands.get(name) as Operand).uncertaintySquared));
  return { value: traced.value, uncertaintySquared: sum, approximate: traced.approximate };

  function trace(it: Expression): Traced | undefined {
    switch (it.kind) {
      case "quantity": {
        const figure = it.quantity.unit === undefined ? exact(it.quantity.figure.text) : measured(it.quantity)?.value;
        return figure === undefined ? undefined : { value: figure, slopes: new Map(), approximate: false };
      }
      case "name": {
        const value = chosen.get(it.name.text) ?? mean((operands.get(it.name.text) as Operand).spots);
        return { value, slopes: new Map([[it.name.text, one]]), approximate: false };
      }
      case "negate": {
        const operand = trace(it.operand);
        return operand === undefined ? undefined : scaled(operand, zero.sub(one));
      }
      case "binary": {
        const left = trace(it.left);
        const right = trace(it.right);
        if (left === undefined || right === undefined) return undefined;
        if (it.operator === "+") return joined(left, right, left.value.add(right.value), one, one);
        if (it.operator === "-") return joined(left, right, left.value.sub(right.value), one, zero.sub(one));
        if (it.operator === "*") return joined(left, right, left.value.mul(right.value), right.value, left.value);
        if (right.value.compare(0) === 0) return undefined;
        return joined(left, right, left.value.div(right.value), one.div(right.value), zero.sub(left.value.div(right.value.mul(right.value))));
      }
      case "call":
        return call(it.function.text, it.arguments);
    }
  }

  function call(name: string, list: readonly Expression[]): Traced | undefined {
    const only = list[0];
    if (list.length === 1 && only?.kind === "name" && isOfSpots(name, 1)) {
      const operand = operands.get(only.name.text) as Operand;
      const spots = operand.spots;
      if (name === "mean") return { value: mean(spots), slopes: new Map([[only.name.text, one]]), approximate: false };
      if (name === "min") return { value: least(spots), slopes: new Map([[only.name.text, one]]), approximate: false };
      if (name === "max") return { value: greatest(spots), slopes: new Map([[only.name.text, one]]), approximate: false };
      // A span is the difference of two readings with the same gauge: the root of two times U.
      return { value: greatest(spots).sub(least(spots)), slopes: new Map([[only.name.text, rootOfTwo]]), approximate: false };
    }
    const traced = list.map(trace);
    if (traced.length === 0 || traced.some((it) => it === undefined)) return undefined;
    const known = traced as Traced[];
    const first = known[0] as Traced;
    switch (name) {
      case "min":
        return known.reduce((a, b) => (b.value.compare(a.value) < 0 ? b : a));
      case "max":
        return known.reduce((a, b) => (b.value.compare(a.value) > 0 ? b : a));
      case "mean":
        return scaled(
          known.reduce((a, b) => joined(a, b, a.value.add(b.value), one, one)),
          one.div(known.length),
        );
      case "span": {
        const low = known.reduce((a, b) => (b.value.compare(a.value) < 0 ? b : a));
        const high = known.reduce((a, b) => (b.value.compare(a.value) > 0 ? b : a));
        return joined(high, low, high.value.sub(low.value), one, zero.sub(one));
      }
      case "abs":
        return first.value.compare(0) < 0 ? scaled(first, zero.sub(one)) : first;
      case "sqrt": {
        const root = approximate(Math.sqrt(first.value.valueOf()));
        if (root === undefined || root.compare(0) === 0) return undefined;
        return { ...scaledTo(first, root, one.div(root.mul(2))), approximate: true };
      }
      case "sin":
      case "cos":
      case "tan": {
        const angle = (first.value.valueOf() * Math.PI) / 180;
        const value = approximate(Math[name](angle));
        const slope = approximate((name === "sin" ? Math.cos(angle) : name === "cos" ? -Math.sin(angle) : 1 / Math.cos(angle) ** 2) * (Math.PI / 180));
        return value === undefined || slope === undefined ? undefined : { ...scaledTo(first, value, slope), approximate: true };
      }
      default:
        return undefined;
    }
  }
}

function joined(a: Traced, b: Traced, value: Exact, byA: Exact, byB: Exact): Traced {
  const slopes = new Map<string, Exact>();
  for (const [name, slope] of a.slopes) slopes.set(name, slope.mul(byA));
  for (const [name, slope] of b.slopes) slopes.set(name, (slopes.get(name) ?? zero).add(slope.mul(byB)));
  return { value, slopes, approximate: a.approximate || b.approximate };
}

function scaled(it: Traced, by: Exact): Traced {
  return scaledTo(it, it.value.mul(by), by);
}

function scaledTo(it: Traced, value: Exact, by: Exact): Traced {
  return { value, slopes: new Map([...it.slopes].map(([name, slope]) => [name, slope.mul(by)])), approximate: it.approximate };
}

function approximate(value: number): Exact | undefined {
  return Number.isFinite(value) ? exact(value.toFixed(15)) : undefined;
}

/** The root of two to 15 places; it scales an uncertainty, which is never known so well. */
const rootOfTwo = exact("1.414213562373095") as Exact;

export function least(spots: readonly Exact[]): Exact {
  return spots.reduce((a, b) => (b.compare(a) < 0 ? b : a));
}

export function greatest(spots: readonly Exact[]): Exact {
  return spots.reduce((a, b) => (b.compare(a) > 0 ? b : a));
}

export function mean(spots: readonly Exact[]): Exact {
  return spots
    .slice(1)
    .reduce((a, b) => a.add(b), spots[0] as Exact)
    .div(spots.length);
}
