// What a simulated machine is made of, and what is done to it: plain data, changed freely while a story is made.

export interface Quantity {
  n: number;
  unit: string;
  /** Decimals that are written. */
  dec: number;
}

interface Thing {
  name: string;
  title: string;
  /** The kind of place at each of which it stands; once on the machine, where unsaid. */
  each?: string;
  /** How many at each. */
  per: number;
  critical?: string;
  /** Lines that are written as they stand, below the others. */
  more?: string[];
}

export interface Part extends Thing {
  is: "part";
  heldBy: string[];
  behind: string[];
  /** Used up when it comes off, or when one of these does. */
  renew?: string[];
  inPairs?: boolean;
  matched?: string;
  keepsPlace?: boolean;
  mass?: number;
  fits?: string;
  material?: string;
}

export interface Locking {
  text: string;
  use: "once" | "again" | "friction" | "nothing" | "nut" | "part";
  /** The declared part that locks, and how many fasteners one of them serves. */
  part?: string;
  serves?: number;
}

export interface Fastener extends Thing {
  is: "fastener";
  thread?: string;
  threadAt?: Record<string, string>;
  /** None: an adjusting nut, which is set by a reading. */
  torque?: { lo: number; hi: number; unit: string; turn?: number } | "none" | "feel";
  lock?: Locking;
}

export interface Fluid extends Thing {
  is: "fluid";
  in: string[];
  capacity: Quantity;
  bleed?: boolean;
}

export interface Limit extends Thing {
  is: "limit";
  unit: string;
  dec: number;
  fresh?: [number, number];
  worn?: { min?: number; max?: number };
  set?: { lo: number; hi: number; by: string[] };
  of: string[];
  /** Worked out: the first less the second. */
  less?: [string, string];
  readAt?: string[];
  taper?: number;
}

export interface Check extends Thing {
  is: "check";
  of: string[];
}

export interface Gauge extends Thing {
  is: "gauge";
  uncertainty?: Quantity;
  range?: { lo: number; hi: number; unit: string };
  /** The day, counted from the story's first, on which it falls due. */
  due?: number;
}

export interface Hazard extends Thing {
  is: "hazard";
  before: string[];
  after: string[];
  caution: string;
}

export interface Shims extends Thing {
  is: "shims";
  fitted: string;
  have: string;
}

export type Declared = Part | Fastener | Fluid | Limit | Check | Gauge | Hazard | Shims;

export type Verb =
  | "chock"
  | "raise"
  | "support"
  | "lower"
  | "under"
  | "clear"
  | "safe"
  | "restore"
  | "slacken"
  | "undo"
  | "remove"
  | "drain"
  | "mark"
  | "clean"
  | "oil"
  | "grease"
  | "bleed"
  | "repair"
  | "fit"
  | "tighten"
  | "lock"
  | "fill";

export interface Act {
  id: number;
  verb: Verb;
  names: { name: string; n?: number }[];
  /** Everywhere where the step is, where unsaid. */
  places?: string[];
  isNew?: boolean;
  from?: string;
  forNow?: string;
  to?: Quantity;
  /** Degrees behind the torque. */
  turn?: number;
  gauge?: string;
  /** A locking in place of the declared one. */
  with?: string;
  /** A text behind it: how, what, under what. */
  text?: string;
  /** What stands behind `raise on`, or behind `support`. */
  on?: string;
  rated?: number;
  load?: number;
  amount?: Quantity;
  /** What is taken from the bench: by habit the sound ones. Never written. */
  takes?: "bad";
}

interface Written {
  id: number;
  day: number;
  /** The assembly that it belongs to; empty: the machine as a whole. */
  of: string;
  /** 0 access, 1 as found, 2 strip, 3 bench, 4 parts, 5 bench work, 6 build, 7 set and look, 8 down again. */
  phase: number;
  /** The date is written on the line itself, whatever the day above it. */
  dated?: boolean;
  more?: string[];
}

export interface Step extends Written {
  is: "step";
  name: string;
  title: string;
  at?: string[];
  acts: Act[];
  done: boolean;
  doneAt?: string[];
}

export interface Reading {
  place?: string;
  position?: string;
  again?: boolean;
  figures: number[];
  unit: string;
  dec: number;
}

export interface Measure extends Written {
  is: "measure";
  limit: string;
  when: "found" | "trial" | "final";
  gauge?: string;
  readings: Reading[];
  /** The machine does not measure so: the figure is a slip of the pen. */
  slip?: boolean;
}

export interface Seen extends Written {
  is: "seen";
  check: string;
  when: "found" | "trial" | "final";
  good: boolean;
  place?: string;
}

export interface Finding extends Written {
  is: "finding";
  name: string;
  n?: number;
  place?: string;
  /** `missing 1`: the count stands behind the condition. */
  conditions: string[];
  because?: string;
  decision?: string;
  amount?: Quantity;
}

export interface Order extends Written {
  is: "order";
  reference: string;
  status: "held" | "placed" | "sent" | "received" | "cancelled";
  items: { name: string; n: number }[];
  works: { name: string; place?: string; what: string }[];
  /** Only moves on what is written above. */
  moves?: boolean;
}

export interface Question extends Written {
  is: "question";
  name: string;
  text: string;
  about: string[];
  answer?: string;
}

export interface Concession extends Written {
  is: "concession";
  name: string;
  place?: string;
  why: string;
  by: string;
}

export interface Pause extends Written {
  is: "pause";
  why: string;
}

export type Entry = Step | Measure | Seen | Finding | Order | Question | Concession | Pause;

export interface Story {
  title: string;
  by: string;
  places: Record<string, string[]>;
  things: Declared[];
  entries: Entry[];
  tests: string[];
  releaseDay: number;
  /** How it is written, which means nothing: see sheet.ts. */
  manner: { datesOnLines?: boolean; indent?: number; comments?: boolean };
}

let last = 0;
/** Ids only tell apart; they are never written. */
export const fresh = (): number => ++last;

export const q = (n: number, unit: string, dec = 0): Quantity => ({ n, unit, dec });

export const find = <K extends Declared["is"]>(story: Story, is: K, name: string): Extract<Declared, { is: K }> | undefined =>
  story.things.find((it): it is Extract<Declared, { is: K }> => it.is === is && it.name === name);

export const all = <K extends Declared["is"]>(story: Story, is: K): Extract<Declared, { is: K }>[] =>
  story.things.filter((it): it is Extract<Declared, { is: K }> => it.is === is);

export const placesOf = (story: Story, name: string): string[] => {
  const each = story.things.find((it) => it.name === name)?.each;
  return each === undefined ? [""] : (story.places[each] ?? [""]);
};

export const steps = (story: Story): Step[] => story.entries.filter((it): it is Step => it.is === "step");

// Declarations and actions, short to write.

type Rest<T, K extends keyof T> = Partial<Omit<T, "is" | "name" | "title" | K>>;

export const part = (name: string, title: string, it: Rest<Part, never> = {}): Part => ({ is: "part", name, title, per: 1, heldBy: [], behind: [], ...it });
export const fastener = (name: string, title: string, it: Rest<Fastener, never> = {}): Fastener => ({ is: "fastener", name, title, per: 1, ...it });
export const fluid = (name: string, title: string, inside: string[], capacity: Quantity, it: Rest<Fluid, "in" | "capacity"> = {}): Fluid => ({
  is: "fluid",
  name,
  title,
  per: 1,
  in: inside,
  capacity,
  ...it,
});
export const limit = (name: string, title: string, unit: string, dec: number, it: Rest<Limit, "unit" | "dec">): Limit => ({
  is: "limit",
  name,
  title,
  per: 1,
  unit,
  dec,
  of: [],
  ...it,
});
export const check = (name: string, title: string, of: string[], it: Rest<Check, "of"> = {}): Check => ({ is: "check", name, title, per: 1, of, ...it });
export const gauge = (name: string, title: string, it: Rest<Gauge, never> = {}): Gauge => ({ is: "gauge", name, title, per: 1, ...it });
export const hazard = (name: string, title: string, before: string[], after: string[], caution: string): Hazard => ({
  is: "hazard",
  name,
  title,
  per: 1,
  before,
  after,
  caution,
});

/** `remove("hub", "hub-shim 2", "seal @left")`: a count behind its name, places behind an @ on the last. */
export function act(verb: Verb, ...words: string[]): Act {
  const text = words.join(", ");
  const [list = "", at] = text.split("@").map((it) => it.trim());
  const names = list
    .split(",")
    .map((it) => it.trim())
    .filter((it) => it !== "")
    .map((it) => {
      const [name = "", n] = it.split(" ");
      return n === undefined ? { name } : { name, n: Number(n) };
    });
  return { id: fresh(), verb, names, ...(at === undefined ? {} : { places: at.split(",").map((it) => it.trim()) }) };
}
export const undo = (...words: string[]) => act("undo", ...words);
export const remove = (...words: string[]) => act("remove", ...words);
export const refit = (...words: string[]) => act("fit", ...words);
export const fitNew = (...words: string[]): Act => ({ ...act("fit", ...words), isNew: true });
export const tighten = (what: string, to?: Quantity, by?: string): Act => ({ ...act("tighten", what), ...(to && { to }), ...(by && { gauge: by }) });
export const lock = (what: string): Act => act("lock", what);
export const lockNew = (what: string): Act => ({ ...act("lock", what), isNew: true });
export const fill = (what: string, amount: Quantity): Act => ({ ...act("fill", what), amount });
export const said = (verb: Verb, what: string, text: string): Act => ({ ...act(verb, what), text });

export const concession = (name: string, why: string, by: string, place?: string): Concession => ({
  id: fresh(),
  day: 12,
  of: "",
  phase: 7,
  is: "concession",
  name,
  why,
  by,
  ...(place !== undefined && { place }),
});
