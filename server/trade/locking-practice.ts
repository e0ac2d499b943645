// How locking is done, as the trade does it: rules in words, with the figures that go with them.
// Invariant: common practice beside the maker's own instructions, never in their place; no verdict is taken from a row.
import type { Mark } from "./source.ts";

export interface Practice {
  readonly of: string;
  /** What it is asked for by, each of which must stand in the question. */
  readonly words: readonly RegExp[];
  readonly said: string;
  /** Its figures: name, least, most (the same where there is one), unit. */
  readonly figures: readonly { readonly name: string; readonly least?: string; readonly most: string; readonly unit: string }[];
  readonly source: string;
  readonly mark: Mark;
}

const ac43 = "FAA AC 43.13-1B chapter 7, as quoted";

export const lockingPractice: readonly Practice[] = [
  {
    of: "castle nut, clamping",
    words: [/castle|castellated|slotted|slots? (?:do|does|will) not|line up/, /^(?!.*(?:bearing|hub|adjust|wire)).*$/],
    said: "tighten to the low end of the torque range, then go on tightening to the next slot, without passing the high end; if no slot comes up inside the range change the washer or the nut; never slacken to line up",
    figures: [],
    source: ac43,
    mark: "table",
  },
  {
    of: "bearing adjustment, taper-roller hub",
    words: [/bearing|hub|adjust/, /slot|castle|castellated|nut|back off/],
    said: "the opposite of a clamping nut: seat the bearing, then back off to the next slot, 1/6 to 1/4 of a turn",
    figures: [
      { name: "back off", least: "60", most: "90", unit: "deg" },
      { name: "end play, truck or trailer", least: "0.001", most: "0.005", unit: "in" },
      { name: "end play, car", least: "0.001", most: "0.007", unit: "in" },
    ],
    source: "common practice of bearing makers, as quoted",
    mark: "table",
  },
  {
    of: "split pin",
    words: [/(?:split|cotter)[ -]?pins?/, /rule|practice|new|reuse|above|castellation|slot/],
    said: "new each time; the largest that hole and slot take; not more than half of its diameter above the castellation, else a washer (two at most) or a shorter bolt",
    figures: [
      { name: "of the pin's diameter above the castellation", most: "50", unit: "%" },
      { name: "washers", most: "2", unit: "" },
    ],
    source: ac43,
    mark: "table",
  },
  {
    of: "lock wire, its run",
    words: [/(?:lock|locking|safety)[ -]?wire/],
    said: "torque first, and never over-torque or slacken to line up the holes; at most 3 fasteners in a row where they are 4 to 6 in apart, none wired together more than 6 in apart, and a close group has no more than one 24 in wire takes; the wire pulls in the direction of tightening",
    figures: [
      { name: "fasteners in a row, 4 to 6 in apart", most: "3", unit: "" },
      { name: "apart", most: "6", unit: "in" },
      { name: "wire for a close group", most: "24", unit: "in" },
    ],
    source: ac43,
    mark: "table",
  },
  {
    of: "lock wire, its end",
    words: [/(?:lock|locking|safety)[ -]?wire/],
    said: "a pigtail of 1/4 to 1/2 in (others: 4 to 6 turns, 1/2 to 5/8 in), bent in",
    figures: [
      { name: "pigtail", least: "0.25", most: "0.5", unit: "in" },
      { name: "turns of the pigtail", least: "4", most: "6", unit: "" },
    ],
    source: ac43,
    mark: "table",
  },
  {
    of: "lock wire, its twist",
    words: [/(?:lock|locking|safety)[ -]?wire/],
    said: "6 to 8 twists an inch for 0.032 in wire (others: 6 to 11 for 0.032 to 0.041 in, 8 to 14 for 0.020 to 0.025 in)",
    figures: [
      { name: "twists an inch, 0.032 in wire", least: "6", most: "8", unit: "" },
      { name: "twists an inch, 0.032 to 0.041 in wire (others)", least: "6", most: "11", unit: "" },
      { name: "twists an inch, 0.020 to 0.025 in wire (others)", least: "8", most: "14", unit: "" },
    ],
    source: ac43,
    mark: "table",
  },
  {
    of: "tab washer or lock plate",
    words: [/tab[ -]?washers?|lock[ -]?(?:plate|tab)s?/],
    said: "bent once: renew it, one tab on a flat of the nut, one on the part",
    figures: [],
    source: "common workshop practice",
    mark: "memory",
  },
];
