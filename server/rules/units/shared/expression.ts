// Checks that what a limit is worked out from goes together: lengths with lengths, and the outcome with the limit's own ranges.
// Invariant: each dimension stands for itself. A force times a length is no torque here, for it is worked out in N and mm and would be a thousand times too large.
import type { Expression, Quantity, Span } from "../../../../grammar/tree.ts";
import type { Job } from "../../../model/job.ts";
import type { Limit } from "../../../model/things.ts";
import { type Dimension, ambiguousUnit, unitOf } from "../../../quantities/units.ts";
import { dimensionOfLimit, dimensionWords } from "./dimensions.ts";

/** Powers of dimensions: an area is `length` 2; empty for a plain number. */
type Powers = ReadonlyMap<Dimension, number>;

export type ExpressionIssue =
  | { readonly kind: "unlike"; readonly at: Span; readonly left: string; readonly right: string; readonly verb: string }
  /** A plain number where something measured stands beside it. */
  | { readonly kind: "missing"; readonly at: Span; readonly figure: string; readonly wants: readonly Dimension[] }
  | { readonly kind: "angle"; readonly at: Span; readonly found: string; readonly function: string }
  /** The whole comes out as something else than the limit's ranges say. */
  | { readonly kind: "outcome"; readonly at: Span; readonly found: string; readonly wants: Dimension };

const plain: Powers = new Map();

/** At most one issue: the first that is met, for what is built on it would be wrong with it. */
export function expressionIssue(job: Job, limit: Limit): ExpressionIssue | undefined {
  const whole = limit.expression;
  if (whole === undefined) return undefined;
  const working = new Working(job);
  const outcome = working.powersOf(whole, 0);
  if (working.issue !== undefined) return working.issue;
  const own = dimensionOfLimit(limit);
  if (outcome === undefined || own === undefined || same(outcome, ofDimension(own))) return undefined;
  return { kind: "outcome", at: whole.at, found: wordsOf(outcome), wants: own };
}

/** Goes through an expression until an issue is met. */
class Working {
  issue: ExpressionIssue | undefined;
  readonly #job: Job;

  constructor(job: Job) {
    this.#job = job;
  }

  /** Undefined where it is not known, or where an issue was met. */
  powersOf(it: Expression, depth: number): Powers | undefined {
    if (this.issue !== undefined || depth > 200) return undefined;
    switch (it.kind) {
      case "quantity":
        return ofQuantity(it.quantity);
      case "name":
        return ofName(this.#job, it.name.text);
      case "negate":
        return this.powersOf(it.operand, depth + 1);
      case "binary": {
        const left = this.powersOf(it.left, depth + 1);
        const right = this.powersOf(it.right, depth + 1);
        if (it.operator === "*" || it.operator === "/")
          return left === undefined || right === undefined ? undefined : times(left, right, it.operator === "*" ? 1 : -1);
        return this.#joined([it.left, it.right], [left, right], it.operator === "+" ? "be added" : "be taken from one another");
      }
      case "call":
        return this.#ofCall(it.function.text, it.arguments, depth);
    }
  }

  #ofCall(name: string, list: readonly Expression[], depth: number): Powers | undefined {
    const powers = list.map((it) => this.powersOf(it, depth + 1));
    const [first] = powers;
    const only = list[0];
    switch (name) {
      case "sqrt":
        return first === undefined ? undefined : times(plain, first, 0.5);
      case "sin":
      case "cos":
      case "tan":
        if (first === undefined || only === undefined || same(first, ofDimension("angle"))) return plain;
        this.issue ??=
          only.kind === "quantity" && first.size === 0
            ? { kind: "missing", at: only.at, figure: only.quantity.figure.text, wants: ["angle"] }
            : { kind: "angle", at: only.at, found: wordsOf(first), function: name };
        return undefined;
      default:
        return this.#joined(list, powers, "be compared");
    }
  }

  /** Things that are added, taken away or compared must be alike. */
  #joined(list: readonly Expression[], powers: readonly (Powers | undefined)[], verb: string): Powers | undefined {
    let first: Powers | undefined;
    let firstOf: Expression | undefined;
    list.forEach((it, i) => {
      const own = powers[i];
      if (own === undefined || this.issue !== undefined) return;
      if (first === undefined) {
        first = own;
        firstOf = it;
      } else if (!same(first, own)) {
        const bare = [it, firstOf as Expression].find((one) => one.kind === "quantity" && one.quantity.unit === undefined);
        const other = bare === it ? first : own;
        const [only] = other.size === 1 ? [...other] : [];
        if (bare?.kind === "quantity" && only !== undefined && only[1] === 1)
          this.issue = { kind: "missing", at: bare.at, figure: bare.quantity.figure.text, wants: [only[0]] };
        else this.issue = { kind: "unlike", at: it.at, left: said(firstOf as Expression, first, true), right: said(it, own, false), verb };
      }
    });
    return this.issue === undefined ? first : undefined;
  }
}

function ofQuantity({ unit, figure }: Quantity): Powers | undefined {
  // Nothing is nothing in any unit; and what can't be read has been said elsewhere.
  if (figure.comma || (unit === undefined && /^[+-]?0*\.?0*$/.test(figure.text))) return undefined;
  if (unit === undefined) return plain;
  const dimension = ambiguousUnit(unit.text) === undefined ? unitOf(unit.text)?.dimension : undefined;
  return dimension === undefined ? undefined : ofDimension(dimension);
}

/** What a named limit measures; undefined where its ranges don't say. */
function ofName(job: Job, name: string): Powers | undefined {
  const thing = job.things.get(name);
  if (thing?.kind !== "limit" || thing.implied) return undefined;
  const own = dimensionOfLimit(thing);
  return own === undefined ? undefined : ofDimension(own);
}

const made = new Map<Dimension, Powers>();

function ofDimension(dimension: Dimension): Powers {
  // A share, and a count, are plain numbers.
  if (dimension === "ratio" || dimension === "count") return plain;
  let powers = made.get(dimension);
  if (powers === undefined) {
    powers = new Map([[dimension, 1]]);
    made.set(dimension, powers);
  }
  return powers;
}

function times(a: Powers, b: Powers, power: number): Powers {
  const out = new Map(a);
  for (const [dimension, exponent] of b) {
    const sum = (out.get(dimension) ?? 0) + exponent * power;
    if (sum === 0) out.delete(dimension);
    else out.set(dimension, sum);
  }
  return out;
}

function same(a: Powers, b: Powers): boolean {
  if (a.size !== b.size) return false;
  for (const [dimension, exponent] of a) if (b.get(dimension) !== exponent) return false;
  return true;
}

function said(it: Expression, powers: Powers, first: boolean): string {
  return it.kind === "name"
    ? `\`${it.name.text}\` is ${wordsOf(powers)}`
    : it.kind === "quantity"
      ? `${it.quantity.figure.text}${it.quantity.unit === undefined ? "" : ` ${it.quantity.unit.text}`} is ${wordsOf(powers)}`
      : `${first ? "what comes before it" : "this"} is ${wordsOf(powers)}`;
}

/** “a length”, “a length times a length”, “a force for each length” */
function wordsOf(powers: Powers): string {
  if (powers.size === 0) return "a plain number";
  const [only] = powers;
  if (powers.size === 1 && only !== undefined && only[1] === 1) return dimensionWords([only[0]]);
  if (powers.size === 1 && only !== undefined && only[1] === 2) return `${dimensionWords([only[0]])} times ${dimensionWords([only[0]])}`;
  const above = [...powers].filter(([, power]) => power > 0).map(([dimension, power]) => powerWords(dimension, power));
  const below = [...powers].filter(([, power]) => power < 0).map(([dimension, power]) => powerWords(dimension, -power));
  return `${above.length === 0 ? "one" : above.join(" times ")}${below.length === 0 ? "" : ` through ${below.join(" and ")}`}`;
}

function powerWords(dimension: Dimension, power: number): string {
  const word = dimensionWords([dimension]);
  return power === 1 ? word : `${word} to the power of ${power}`;
}
