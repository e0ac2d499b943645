// What somebody did, saw and wrote, one after the other. A story is a list of these; a mistake or a harmless change is a change of this list.
import type { Chance } from "./chance.ts";
import type { Plant } from "./plant.ts";

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
  | "fill"
  | "let back"
  | "heat"
  | "inspect";

export interface Act {
  do: Verb;
  what?: string;
  at?: string[] | undefined;
  n?: number | undefined;
  fresh?: boolean | undefined;
  from?: string | undefined;
  forNow?: string | undefined;
  /** Torques in the unit of the plant, in turn. */
  to?: number[] | undefined;
  angle?: number | undefined;
  by?: string | undefined;
  flats?: number | undefined;
  ml?: number | undefined;
  text?: string | undefined;
  /** `with …` of a lock. */
  instead?: string | undefined;
}

export interface Row {
  at?: string | undefined;
  position?: string | undefined;
  again?: boolean;
  values: number[];
}

export interface Measured {
  do: "measure";
  what: string;
  when: "found" | "trial" | "final";
  by?: string | undefined;
  rows: Row[];
  because?: string | undefined;
  /** Days after the day on which it stands. */
  shift?: number;
  /** In which unit it is written, where not in the plant's. */
  unit?: string;
}

export interface Seen {
  do: "seen";
  what: string;
  when: "found" | "trial" | "final";
  good: boolean;
  at?: string | undefined;
  text: string;
}

export interface Found {
  do: "found";
  what: string;
  n?: number | undefined;
  at?: string | undefined;
  is: string[];
  because?: string | undefined;
  decision?: string | undefined;
}

/** An entry that is written as it stands: an order, a question, a concession. */
export interface Written {
  do: "write";
  what?: string;
  at?: string | undefined;
  lines: string[];
}

export interface Step {
  do: "step";
  title: string;
  planned?: boolean;
  /** Done at these places only. */
  doneAt?: string[];
  /** Days before the day on which it stands. */
  early?: number;
  details?: string[];
}

export interface Night {
  do: "night";
  days: number;
}

export type Deed = Act | Measured | Seen | Found | Written | Step | Night;

export interface Story {
  plant: Plant;
  deeds: Deed[];
  /** What is given, found and decided before the first deed: suppliers, stock. */
  shelf: string[];
  /** Whether the lockings that it uses lay in a tin, counted; else nobody says where they are from. */
  tin: boolean;
  release: { tests: string[]; by: string; rechecks: string[] };
  /** Entries behind the release. */
  after: Deed[];
  files: Record<string, string>;
  /** How it is told; the machine is the same. */
  manner: Manner;
}

export interface Manner {
  file: boolean;
  days: boolean;
  allPlaces: boolean;
  apart: boolean;
  together: boolean;
  notes: boolean;
  shortSteps: boolean;
  oneStep: boolean;
  otherUnits: boolean;
  /** Declared in two files, one of which the other uses. */
  twoFiles: boolean;
  /** The limits looked up last, and declared below the work. */
  limitsLast: boolean;
}

export function manner(c: Chance): Manner {
  return {
    file: c.yes(0.5),
    days: c.yes(0.6),
    allPlaces: c.yes(0.5),
    apart: c.yes(0.3),
    together: c.yes(0.4),
    notes: c.yes(0.3),
    shortSteps: c.yes(0.25),
    oneStep: c.yes(0.2),
    otherUnits: c.yes(0.25),
    twoFiles: c.yes(0.25),
    limitsLast: c.yes(0.15),
  };
}

export const acts = (story: Story): Act[] => story.deeds.filter((it): it is Act => isAct(it));

export const isAct = (it: Deed): it is Act => !["measure", "seen", "found", "write", "step", "night"].includes(it.do);

/** The last deed of a verb on a thing, at a place where one is given. */
export function last(story: Story, verb: Verb, what: string, at?: string): Act | undefined {
  return acts(story)
    .filter((it) => it.do === verb && it.what === what && (at === undefined || it.at === undefined || it.at.includes(at)))
    .at(-1);
}

export function first(story: Story, verb: Verb, what: string): Act | undefined {
  return acts(story).find((it) => it.do === verb && it.what === what);
}

/** Takes a deed that is for several places apart, and gives the one for that place. */
export function alone(story: Story, deed: Act, at: string | undefined): Act {
  if (at === undefined || deed.at === undefined || deed.at.length < 2) return deed;
  const index = story.deeds.indexOf(deed);
  const mine: Act = { ...deed, at: [at] };
  const rest: Act = { ...deed, at: deed.at.filter((it) => it !== at) };
  story.deeds.splice(index, 1, rest, mine);
  return mine;
}

export function drop(story: Story, deed: Deed): void {
  const index = story.deeds.indexOf(deed);
  if (index >= 0) story.deeds.splice(index, 1);
}

export function before(story: Story, deed: Deed, ...more: Deed[]): void {
  story.deeds.splice(story.deeds.indexOf(deed), 0, ...more);
}

export function behind(story: Story, deed: Deed, ...more: Deed[]): void {
  story.deeds.splice(story.deeds.indexOf(deed) + 1, 0, ...more);
}

/** Before the machine is closed up: hazards are still safe, and it still stands on its stands. */
export function beforeClosing(story: Story, ...more: Deed[]): void {
  const closing = story.deeds.filter((it) => it.do === "step").at(-1);
  if (closing === undefined) throw new Error("a story without a last step");
  before(story, closing, ...more);
}

export const toEnd = (story: Story, ...more: Deed[]): void => {
  story.deeds.push(...more);
};
