// The words that every drawing of a machine's history shares.
import { counted } from "../../rules/wording.ts";
import type { ComesBack, LifeEvent, LimitHistory, MachineHistory, ReadingPoint, SheetOf, Told } from "./shapes.ts";

/** What the pages call each part of it. */
export const heads = {
  sheets: "Its sheets",
  back: "What keeps coming back",
  limits: "Readings over its life",
  once: "Read once",
  lives: "What was found, renewed and repaired",
  conceded: "Accepted outside its limit",
  owned: "Owned up to",
} as const;

export const estimateNote =
  "A line through readings (least squares) says where they would go if all went on as it did. It is an estimate, never a limit: wear seldom keeps to a line, and only a reading judges a part.";

export const pictureNote =
  "In a picture: a ring is as found, a square a trial, a full diamond final; the bar is the uncertainty (k\u00a0=\u00a02); a wall is the limit; a dotted line comes before a reading of what was renewed or set since. A line goes through the readings; where it is dashed it is an estimate.";

export const sameName = "What has the same name on two sheets of a machine is taken for the same thing.";

export function historyHeadline(machines: readonly MachineHistory[]): string {
  const sheets = machines.reduce((sum, it) => sum + it.sheets.length, 0);
  const back = machines.reduce((sum, it) => sum + it.comesBack.length, 0);
  const counter = machines.length === 1 && machines[0]?.counter != null ? `, last at ${machines[0].counter}` : "";
  return `${counted(sheets, "sheet")}${counter}. ${back === 0 ? "No fault came back." : `${counted(back, "thing keeps", "things keep")} coming back.`}`;
}

export function sheetWords(it: SheetOf): string {
  const released = it.released === null ? "not released" : `released ${it.released}${it.counter === null ? "" : ` at ${it.counter}`}`;
  return `${it.opened === null ? "" : `${it.opened}: `}${it.title}; ${released}${it.open === 0 ? "" : `; ${counted(it.open, "thing is", "things are")} open`}`;
}

const kinds: Readonly<Record<LifeEvent["kind"], string>> = {
  found: "found",
  renewed: "renewed",
  repaired: "repaired",
  "worked on outside": "worked on outside",
};

export function eventWords(it: LifeEvent): string {
  const when = [it.day, it.counter].filter((word) => word !== null).join(", ");
  return `${when === "" ? "" : `${when}: `}${kinds[it.kind]}: ${it.text}`;
}

export function toldWords(it: Told): string {
  return `${it.day === null ? "" : `${it.day}: `}${it.text} (${it.sheet})`;
}

export function pointWords(it: ReadingPoint): string {
  const when = [it.day, it.counter].filter((word) => word !== null).join(", ");
  return `${when === "" ? "" : `${when}: `}${it.stage} ${it.value}${it.anew ? ", renewed or set since the reading before" : ""}`;
}

/** Said once, of all limits that `hasTooFew`. */
export const tooFewNote = "An estimate needs three readings since it was new or set. Where none is given, there are fewer.";

export function hasTooFew({ overDays, overCounter }: LimitHistory): boolean {
  return overDays.readings < 3 && overCounter.readings < 3;
}

/** “Left brake drum bore (worn max 12.060 in): 2026-04-04, 71240 mi: found 12.025 in”. */
export function onceWords(it: LimitHistory): string {
  return `${limitWords(it)}: ${it.points.map(pointWords).join("")}`;
}

export function limitWords(it: LimitHistory): string {
  return `${it.title} (${it.against})`;
}

/** Over days and over the counter, each in a sentence; what can't be said of either is said once. */
export function trendWords(it: LimitHistory): { readonly over: string; readonly words: string }[] {
  const { overDays, overCounter } = it;
  if (hasTooFew(it)) return [];
  if (overDays.words === overCounter.words) return [{ over: "", words: overDays.words }];
  return [
    { over: "Over days", words: overDays.words },
    { over: "Over its counter", words: overCounter.words },
  ];
}

export function backWords(it: ComesBack): string {
  return `${it.text}: ${it.times.map((time) => `${time.day ?? time.sheet}, ${time.text}`).join("; ")}`;
}
