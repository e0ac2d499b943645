// Figures that go round in the trade for clearances and interferences: common practice, to see whether a reading is in the usual country at all.
// Invariant: never a limit. Nothing here judges a part; the maker's figure rules, and every use of a row says so.
import { type Exact, figure, zero } from "../quantities/exact.ts";
import type { Mark } from "./source.ts";

export interface Usual {
  readonly of: string;
  /** Words by which it is asked for, each of which must stand in the question. */
  readonly words: readonly RegExp[];
  readonly least: string;
  readonly most: string;
  readonly unit: "in" | "mm";
  readonly source: string;
  readonly mark: Mark;
}

export const usualFigures: readonly Usual[] = [
  {
    of: "backlash of a crown wheel and pinion, car",
    words: [/backlash/, /\bcars?\b/],
    least: "0.15",
    most: "0.15",
    unit: "mm",
    source: "a motor vehicle textbook, as quoted",
    mark: "table",
  },
  {
    of: "backlash of a crown wheel and pinion, heavy vehicle",
    words: [/backlash/, /heavy|truck|lorry/],
    least: "0.25",
    most: "0.25",
    unit: "mm",
    source: "a motor vehicle textbook, as quoted",
    mark: "table",
  },
  {
    of: "backlash of a crown wheel and pinion, light axle from before the war",
    words: [/backlash/, /pre-?war|light/],
    least: "0.006",
    most: "0.010",
    unit: "in",
    source: "common practice",
    mark: "memory",
  },
  {
    of: "end float of a taper-roller hub, truck or trailer",
    words: [/hub|wheel bearings?|taper[- ]?roller/, /(?:end )?(?:float|play)/, /^(?!.*\bcars?\b)/],
    least: "0.001",
    most: "0.005",
    unit: "in",
    source: "common practice of bearing makers, as quoted",
    mark: "table",
  },
  {
    of: "end float of a taper-roller hub, car",
    words: [/hub|wheel bearings?|taper[- ]?roller/, /(?:end )?(?:float|play)/, /\bcars?\b/],
    least: "0.001",
    most: "0.007",
    unit: "in",
    source: "common practice of bearing makers, as quoted",
    mark: "table",
  },
];

/** A rule of thumb by the diameter: so much an inch of it, and so much besides. */
export interface DiameterRule {
  readonly of: string;
  /** Words by which it is asked for, each of which must stand in the question. */
  readonly words: readonly RegExp[];
  /** `rate` is per unit of diameter, `plus` in inches besides. */
  readonly figures: readonly { readonly name: string; readonly rate: Exact; readonly plus: Exact; readonly said: string }[];
  /** What a reader must know beside it. */
  readonly note?: string;
  readonly source: string;
  readonly mark: Mark;
}

const at = (name: string, rate: string, said: string, plus = "0") => ({ name, rate: figure(rate), plus: plus === "0" ? zero : figure(plus), said });
const tubal = "Tubal Cain, Model Engineer's Handbook, as quoted";

export const diameterRules: readonly DiameterRule[] = [
  {
    of: "oil clearance of a plain journal (big end, main)",
    words: [/\b(?:journals?|big[- ]ends?|mains?(?: bearings?)?|crank ?pins?|crankshaft|oil clearance|plain bearings?|camshaft)\b/],
    figures: [
      at("clearance", "0.001", "0.001 an inch of journal"),
      at("clearance, low", "0.00075", "0.00075 an inch"),
      at("minimum", "0.001", "0.001 an inch at the least, never under 0.001 in"),
      at("up to", "0.002", "twice that at the most"),
    ],
    source: "common practice: makers' pages and C. F. Taylor, The Internal-Combustion Engine, as quoted",
    mark: "table",
  },
  {
    of: "gap of a piston ring",
    words: [/\brings?\b/, /\bgaps?\b/],
    figures: [at("ring gap, least", "0.0035", "0.0035 an inch of bore at the least, cast iron")],
    note: "A ring maker's own page prints 0.012 in for 3 in, more than its rule gives.",
    source: "a ring maker's rule, as quoted",
    mark: "table",
  },
  {
    of: "clearance of a plain bush that turns all the time",
    words: [/\bbush(?:es|ing|ings)?\b/, /^(?!.*\b(?:press|force|interference|shrink))/],
    figures: [at("clearance", "0.0015", "0.0015 an inch of bore, in constant rotation")],
    source: "rule of thumb: 0.0015 in an inch of bore, in constant rotation",
    mark: "table",
  },
  {
    of: "interference of a shrink fit",
    words: [/\bshrink(?:ing|age)?\b|\bshrunk\b/],
    figures: [
      at("interference", "0.0015", "0.0015 an inch of diameter and 0.0005 in besides", "0.0005"),
      at("interference by the plainer rule", "0.001", "0.001 an inch"),
    ],
    note: "The two rules disagree: the first is the model engineers', the second the plainer one that many books have.",
    source: tubal,
    mark: "table",
  },
  {
    of: "interference of a press (force) fit",
    words: [/\b(?:press(?:ed|ing)?|forced?|interference|driv(?:e|ing)|dowels?)\b/, /^(?!.*\b(?:drive|driving|shrink|shrunk))/],
    figures: [
      at("interference", "0.00075", "0.00075 an inch of diameter and 0.0005 in besides", "0.0005"),
      at("interference, low", "0.001", "others 0.001 an inch"),
      at("interference, high", "0.0025", "to 0.0025"),
      at("interference, average", "0.0015", "0.0015 on the average"),
    ],
    note: "The rate falls as the diameter grows: about 0.004 in at 2 in, not over 0.009 to 0.010 in at 8 in.",
    source: `${tubal}; and text after Machinery's Handbook`,
    mark: "table",
  },
  {
    of: "interference of a drive fit",
    words: [/\b(?:drive|driving)\b/, /\bfit\b|\binterference\b/],
    figures: [at("interference", "0.00045", "0.00045 an inch of diameter and 0.00035 in besides", "0.00035")],
    source: tubal,
    mark: "memory",
  },
  {
    of: "clearance of a shaft that runs, normal running fit",
    words: [/\brunning\b/, /^(?!.*\b(?:journal|big|main|bush|crank))/],
    figures: [at("clearance", "0.001", "0.001 an inch of diameter and 0.0015 in besides", "0.0015")],
    source: tubal,
    mark: "table",
  },
  {
    of: "clearance of a piston skirt, cast iron",
    words: [/\bpistons?\b/, /\b(?:clearance|skirt)\b/, /iron/],
    figures: [at("clearance", "0.001", "0.001 an inch of bore at the skirt")],
    source: "common practice",
    mark: "memory",
  },
];

/** Tempering colours of clean carbon steel, a few minutes in the air: where each shows, degC. Alloys and long heating shift them. */
export const temperColours: readonly { readonly colour: string; readonly shape: RegExp; readonly degC: number; readonly degF: number }[] = [
  { colour: "pale yellow", shape: /\b(?:very )?(?:pale|light) yellow\b/i, degC: 221, degF: 430 },
  { colour: "pale straw", shape: /\b(?:pale|light) straw\b/i, degC: 232, degF: 450 },
  { colour: "dark straw", shape: /\b(?:dark|deep) straw\b/i, degC: 243, degF: 470 },
  { colour: "straw", shape: /\bstraw\b/i, degC: 238, degF: 460 },
  { colour: "brown", shape: /\b(?:yellow[- ]?)?brown\b/i, degC: 254, degF: 490 },
  { colour: "light purple", shape: /\blight purple\b/i, degC: 277, degF: 530 },
  { colour: "dark purple", shape: /\bdark purple\b/i, degC: 288, degF: 550 },
  { colour: "purple", shape: /\b(?:full )?purple\b/i, degC: 282, degF: 540 },
  { colour: "dark blue", shape: /\b(?:very )?dark blue\b/i, degC: 299, degF: 570 },
  { colour: "blue", shape: /\b(?:full |bright )?blue\b/i, degC: 293, degF: 560 },
];
export const temperSource = { source: "tempering colours of carbon steel after Machinery's Handbook", mark: "memory" as Mark };
