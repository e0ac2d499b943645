// The verbs of a step: one action a line, in the order of the work.
import type { ActionVerb } from "../tree.ts";

export interface ActionWord {
  readonly word: ActionVerb;
  readonly syntax: string;
  readonly says: string;
  readonly example: string;
}

export const actionWords: readonly ActionWord[] = [
  { word: "chock", syntax: 'chock ["what"]', says: "The machine can't roll.", example: 'chock "front wheels"' },
  { word: "raise", syntax: "raise on jack|lift|crane|centre stand|paddock stand", says: "It is off the ground.", example: "raise on jack" },
  {
    word: "support",
    syntax: 'support [PART] on [N] stands|crane|cradle|bench [under PART|"where"] [rated Q [each|together]] [load Q]',
    says: "Something else than a jack bears it.",
    example: 'support on 2 stands under "spring hangers" rated 2000 kg each load 700 kg',
  },
  {
    word: "lower",
    syntax: 'lower | lower PART… [on bench|stands|cradle|floor|"where"]',
    says: "The machine is back on the ground; with a part, that part alone is set down.",
    example: 'lower gearbox on "trolley"',
  },
  { word: "under", syntax: "under", says: "Somebody is underneath from here on.", example: "under" },
  { word: "clear", syntax: "clear", says: "Nobody is underneath any more.", example: "clear" },
  { word: "safe", syntax: 'safe HAZARD ["how"]', says: "The hazard can't hurt from here on.", example: 'safe mains "isolator locked off"' },
  { word: "restore", syntax: 'restore HAZARD ["how"]', says: "The hazard is live again.", example: "restore mains" },
  { word: "slacken", syntax: "slacken FASTENER [N]… [PLACE…]", says: "Loosened, still on.", example: "slacken cap-nut" },
  { word: "undo", syntax: "undo FASTENER [N]… [PLACE…]", says: "Undone and off.", example: "undo cap-nut 2 left" },
  {
    word: "remove",
    syntax: "remove PART [N], PART [N]… [PLACE…]",
    says: "Comes off. N stands behind its own name.",
    example: "remove hub, hub-shim 2, hub-seal left",
  },
  { word: "drain", syntax: "drain FLUID… [PLACE…] [Q]", says: "Let out, and how much came.", example: "drain sump-oil 3.5 l" },
  {
    word: "mark",
    syntax: 'mark PART [N]… [PLACE…] "how"',
    says: "Marked, so that it goes back where it came from.",
    example: 'mark big-end-cap "two dots, exhaust side"',
  },
  { word: "clean", syntax: "clean PART… [PLACE…]", says: "Cleaned.", example: "clean big-end-cap" },
  { word: "oil", syntax: "oil PART… [PLACE…]", says: "Oiled.", example: "oil crank-pin" },
  { word: "grease", syntax: "grease PART… [PLACE…]", says: "Greased.", example: "grease hub-bearing left" },
  { word: "bleed", syntax: "bleed FLUID… [PLACE…]", says: "The air is out of it.", example: "bleed brake-fluid" },
  { word: "repair", syntax: 'repair PART [N]… [PLACE…] "what was done"', says: "Put right here.", example: 'repair thrust-face "Dressed with a stone"' },
  {
    word: "fit",
    syntax: 'fit NAME [N], NAME [N]… [PLACE…] [new] [from PLACE] [for now "why"]',
    says: "Goes on: the old one, or `new`.",
    example: "fit hub-seal left new",
  },
  {
    word: "tighten",
    syntax: 'tighten FASTENER [N]… [PLACE…] [to Q, Q… [+ Q]] [by GAUGE] [for now "why"]',
    says: "Done up, and to what: in stages, and an angle further, where it is written so.",
    example: "tighten cap-nut to 32 lbf.ft by wrench",
  },
  {
    word: "lock",
    syntax: "lock FASTENER [N]… [PLACE…] [new | with [new] LOCKING]",
    says: "Locked with what it declares, where nothing else is said.",
    example: "lock cap-nut new",
  },
  { word: "fill", syntax: "fill FLUID… [PLACE…] [Q]", says: "Filled, and how much went in.", example: "fill sump-oil 4 l" },
  {
    word: "let",
    syntax: "let back FASTENER [N]… [PLACE…] by N flats|N turns|Q",
    says: "Turned back so far behind its torque, and left there.",
    example: "let back hub-nut left by 1 flat",
  },
  { word: "heat", syntax: "heat PART… [PLACE…] [to Q]", says: "Warmed, so that it goes on or comes off.", example: "heat hub left to 80 degC" },
  {
    word: "inspect",
    syntax: "inspect PART… [PLACE…]",
    says: "Looked at. It proves nothing: what was seen is a `finding`, a `seen` or a `measure`.",
    example: "inspect hub left, right",
  },
];
