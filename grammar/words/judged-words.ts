// What the machine is judged by, and what is live in it: limits, checks, gauges, hazards.
// Invariant: a row is all of a word; its line's type and reading follow from it.
import type { DateText, Expression, Figure, Name, Quantity, Range } from "../tree.ts";
import type { DetailWord } from "./detail-words.ts";
import { line, most, name, names, quantity, range, text } from "./shape.ts";

const limit = ["limit"] as const;

/** `set RANGE by …` of a limit; `set by …` of a check has no range. */
const setShape = line<{
  readonly range?: Range;
  readonly by: readonly Name[];
}>((it) => it.setLine(), { by: true });

export const judgedWords = [
  { word: "new", kind: "new", shape: range("range"), under: limit, syntax: "new RANGE", says: "As made.", example: "new 0.004 .. 0.008 in" },
  {
    word: "worn",
    kind: "worn",
    shape: range("range"),
    under: limit,
    syntax: "worn RANGE",
    says: "The limit of wear, outside which it is rejected.",
    example: "worn max 0.012 in",
  },
  {
    word: "set",
    kind: "set",
    shape: setShape,
    under: limit,
    syntax: "set RANGE by NAME…",
    says: "A setting: what moves it, and what it must be left at.",
    example: "set 0.002 .. 0.005 in by hub-nut",
  },
  { word: "set", kind: "set", shape: setShape, under: ["check"], syntax: "set by NAME…", says: "What moves it.", example: "set by cone-shims" },
  {
    word: "of",
    kind: "of",
    shape: names("names"),
    under: ["limit", "check"],
    syntax: "of NAME…",
    says: "What it is of. A reading past the limit of wear condemns it; what something sets is set again.",
    example: "of crankshaft",
  },
  {
    word: "with",
    kind: "with",
    shape: names("names"),
    under: ["limit", "check"],
    syntax: "with NAME…",
    says: "What is in, and what is tight, as it is read or seen: a bore with its shells in and its bolts pulled.",
    example: "with big-end-shell, cap-nut",
  },
  {
    word: "spread",
    kind: "spread",
    shape: most("max"),
    under: limit,
    syntax: "spread max Q",
    says: "Widest less narrowest of the readings: run-out, tooth to tooth.",
    example: "spread max 0.05 mm",
  },
  {
    word: "read",
    kind: "read-at",
    shape: line<{
      readonly positions: readonly Name[];
    }>((it) => it.readAtLine(), { positions: true }),
    under: limit,
    syntax: "read at POSITION…",
    says: "Where it is measured.",
    example: "read at top, bottom",
  },
  {
    word: "ovality",
    kind: "ovality",
    shape: most("max"),
    under: limit,
    syntax: "ovality max Q",
    says: "Widest less narrowest at one position.",
    example: "ovality max 0.02 mm",
  },
  {
    word: "taper",
    kind: "taper",
    shape: most("max"),
    under: limit,
    syntax: "taper max Q",
    says: "Between the means of the positions.",
    example: "taper max 0.02 mm",
  },
  {
    word: "=",
    kind: "equals",
    shape: line<{
      readonly expression?: Expression;
    }>((it) => it.equalsLine()),
    under: limit,
    syntax: "= EXPRESSION",
    says: "Worked out from other limits' readings.",
    example: "= liner-bore - piston-skirt",
  },

  {
    word: "resolution",
    kind: "resolution",
    shape: quantity("quantity"),
    under: ["gauge"],
    syntax: "resolution Q",
    says: "The finest step that it shows.",
    example: "resolution 0.01 mm",
  },
  {
    word: "uncertainty",
    kind: "uncertainty",
    shape: line<{
      /** Absolute, in the unit of what is read. */
      readonly quantity?: Quantity;
      /** `4 %`: of the reading. Both may be given, on two lines. */
      readonly percent?: Quantity;
    }>((it) => it.uncertaintyLine()),
    under: ["gauge"],
    syntax: "uncertainty Q | N %",
    says: "Expanded, k = 2: how far a reading may be from the truth, in its own unit or as a part of the reading.",
    example: "uncertainty 0.004 mm",
  },
  { word: "range", kind: "range", shape: range("range"), under: ["gauge"], syntax: "range RANGE", says: "What it can read.", example: "range 0 .. 25 mm" },
  {
    word: "checked",
    kind: "checked",
    shape: line<{
      readonly date?: DateText;
      readonly months?: Figure;
    }>((it) => it.checkedLine()),
    under: ["gauge"],
    syntax: "checked DATE [every N months]",
    says: "When it was last checked, and how long that holds.",
    example: "checked 2026-01-10 every 12 months",
  },

  {
    word: "safe",
    kind: "safe-before",
    shape: line<{
      readonly names: readonly Name[];
    }>((it) => it.hazardLine("safe-before"), { names: true }),
    under: ["hazard"],
    syntax: "safe before NAME…",
    says: "Not to be undone or removed while it is live.",
    example: "safe before belt-guard",
  },
  {
    word: "restore",
    kind: "restore-after",
    shape: line<{
      readonly names: readonly Name[];
    }>((it) => it.hazardLine("restore-after"), { names: true }),
    under: ["hazard"],
    syntax: "restore after NAME…",
    says: "Not to be made live again before these are back.",
    example: "restore after belt-guard",
  },
  {
    word: "caution",
    kind: "caution",
    shape: text("text"),
    under: ["hazard", "step"],
    syntax: 'caution "…"',
    says: "What somebody must know before they start.",
    example: 'caution "Lock the isolator off and keep the key."',
  },
  {
    word: "from",
    kind: "from",
    shape: name("step"),
    under: ["hazard"],
    syntax: "from STEP",
    says: "Live from that step on; from the start, where unsaid.",
    example: "from refill-tank",
  },
] as const satisfies readonly DetailWord[];
