// The verbs of a step: one action a line, in the order of the work. A row is all of a verb: how its line is read and what it takes, how it is written, what it says.
import type { Grammar } from "../line-grammar.ts";

/** What may stand behind the names and places of a verb, each at most once: see `thingsLine`. */
export type Tail = "amount" | "text" | "new" | "from" | "now" | "to" | "by" | "with" | "degrees";

interface ActionRow {
  readonly word: string;
  readonly read: (grammar: Grammar) => void;
  readonly takes?: readonly Tail[];
  /** Whether how many may stand behind a name. `often`: a whole number only, for it may be a torque whose `to` was left out. */
  readonly counts?: "always" | "often";
  readonly syntax: string;
  readonly says: string;
  readonly example: string;
}

const things = (it: Grammar) => it.thingsLine();

const rows = [
  { word: "chock", read: (it) => it.chockLine(), syntax: 'chock ["what"]', says: "The machine can't roll.", example: 'chock "front wheels"' },
  {
    word: "raise",
    read: (it) => it.raiseLine(),
    syntax: "raise on jack|lift|crane|centre stand|paddock stand|bench",
    says: "It is off the ground.",
    example: "raise on jack",
  },
  {
    word: "support",
    read: (it) => it.supportLine(),
    syntax: 'support [PART] on [N] stands|crane|cradle|bench [under PART|"where"] [rated Q [each|together]] [load Q]',
    says: "Something else than a jack bears it: `rated` is what each of them may bear, or all `together`; `load` is all that they bear between them.",
    example: 'support on 2 stands under "spring hangers" rated 2000 kg each load 700 kg',
  },
  {
    word: "lower",
    read: (it) => it.lowerLine(),
    syntax: 'lower | lower PART… [on bench|stands|cradle|floor|"where"]',
    says: "The machine is back on the ground; with a part, that part alone is set down.",
    example: 'lower gearbox on "trolley"',
  },
  { word: "under", read: (it) => it.aloneLine(), syntax: "under", says: "Somebody is underneath from here on.", example: "under" },
  { word: "clear", read: (it) => it.aloneLine(), syntax: "clear", says: "Nobody is underneath any more.", example: "clear" },
  {
    word: "safe",
    read: (it) => it.hazardLine("safe-before"),
    syntax: 'safe HAZARD ["how"]',
    says: "The hazard can't hurt from here on.",
    example: 'safe mains "isolator locked off"',
  },
  {
    word: "restore",
    read: (it) => it.hazardLine("restore-after"),
    syntax: 'restore HAZARD ["how"]',
    says: "The hazard is live again.",
    example: "restore mains",
  },
  { word: "slacken", read: things, counts: "often", syntax: "slacken FASTENER [N]… [PLACE…]", says: "Loosened, still on.", example: "slacken cap-nut" },
  { word: "undo", read: things, counts: "often", syntax: "undo FASTENER [N]… [PLACE…]", says: "Undone and off.", example: "undo cap-nut 2 left" },
  {
    word: "remove",
    read: things,
    counts: "always",
    syntax: "remove PART [N], PART [N]… [PLACE…]",
    says: "Comes off. N goes after its own name.",
    example: "remove hub, hub-shim 2, hub-seal left",
  },
  { word: "drain", read: things, takes: ["amount"], syntax: "drain FLUID… [PLACE…] [Q]", says: "Let out, and how much came.", example: "drain sump-oil 3.5 l" },
  {
    word: "mark",
    read: things,
    takes: ["text"],
    counts: "often",
    syntax: 'mark PART [N]… [PLACE…] "how"',
    says: "Marked, so that it goes back where it came from.",
    example: 'mark big-end-cap "two dots, exhaust side"',
  },
  { word: "clean", read: things, counts: "always", syntax: "clean PART [N]… [PLACE…]", says: "Cleaned.", example: "clean big-end-cap" },
  { word: "oil", read: things, counts: "always", syntax: "oil PART [N]… [PLACE…]", says: "Oiled.", example: "oil crank-pin" },
  { word: "grease", read: things, counts: "always", syntax: "grease PART [N]… [PLACE…]", says: "Greased.", example: "grease hub-bearing left" },
  { word: "bleed", read: (it) => it.bleedLine(), syntax: "bleed FLUID… [PLACE…]", says: "The air is out of it.", example: "bleed brake-fluid" },
  {
    word: "repair",
    read: things,
    takes: ["text"],
    counts: "often",
    syntax: 'repair PART [N]… [PLACE…] "what was done"',
    says: "Put right here.",
    example: 'repair thrust-face "Dressed with a stone"',
  },
  {
    word: "fit",
    read: things,
    takes: ["new", "from", "now"],
    counts: "always",
    syntax: 'fit NAME [N], NAME [N]… [PLACE…] [new] [from PLACE] [for now "why"]',
    says: "Goes on: the old one, or `new`.",
    example: "fit hub-seal left new",
  },
  {
    word: "tighten",
    read: things,
    takes: ["to", "by", "now"],
    counts: "often",
    syntax: 'tighten FASTENER [N]… [PLACE…] [to Q, Q… [+ Q]] [by GAUGE] [for now "why"]',
    says: "Done up, and to what: in stages, and an angle further, where it is written so.",
    example: "tighten cap-nut to 32 lbf.ft by wrench",
  },
  {
    word: "lock",
    read: things,
    takes: ["new", "with"],
    counts: "often",
    syntax: "lock FASTENER [N]… [PLACE…] [new | with [new] LOCKING]",
    says: "Locked with what it declares, where nothing else is said.",
    example: "lock cap-nut new",
  },
  { word: "fill", read: things, takes: ["amount"], syntax: "fill FLUID… [PLACE…] [Q]", says: "Filled, and how much went in.", example: "fill sump-oil 4 l" },
  {
    word: "let",
    read: (it) => it.letBackLine(),
    counts: "often",
    syntax: "let back FASTENER [N]… [PLACE…] by N flats|N turns|Q",
    says: "Turned back that far after its torque, and left there.",
    example: "let back hub-nut left by 1 flat",
  },
  {
    word: "heat",
    read: things,
    takes: ["degrees"],
    syntax: "heat PART… [PLACE…] [to Q]",
    says: "Warmed, so that it goes on or comes off.",
    example: "heat hub left to 80 degC",
  },
  {
    word: "inspect",
    read: things,
    syntax: "inspect PART… [PLACE…]",
    says: "Looked at. It proves nothing: what was seen is a `finding`, a `seen` or a `measure`.",
    example: "inspect hub left, right",
  },
] as const satisfies readonly ActionRow[];

export type ActionVerb = (typeof rows)[number]["word"] | "replace";
export interface ActionWord extends ActionRow {
  readonly word: Exclude<ActionVerb, "replace">;
}
export const actionWords: readonly ActionWord[] = rows;

/** `replace X` means two things and is read; the rule `word-ambiguous` speaks. */
const replace: Pick<ActionRow, "read" | "takes" | "counts"> = { read: things, takes: ["new"], counts: "always" };

/** How the line of a verb is read, `replace` among them. */
export const actionShapes: ReadonlyMap<string, Pick<ActionRow, "read" | "takes" | "counts">> = new Map<string, Pick<ActionRow, "read" | "takes" | "counts">>([
  ...rows.map((it): [string, ActionRow] => [it.word, it]),
  ["replace", replace],
]);
