// A line of a step as the record says it afterwards: the verb in the past, each thing by its title. Figures, counts, places and texts stay as they were written.
import type { ActionVerb } from "../../../grammar/tree.ts";
import type { Job } from "../../model/job.ts";
import { midSentence } from "../../model/titles.ts";
import { listed } from "../../rules/wording.ts";
import { inList } from "../draw/so-many.ts";

/** `line`: as the sheet has it, without its comment. */
export function doneWords(job: Job, verb: ActionVerb, line: string): string {
  const rest = line.slice(line.startsWith("let back") ? "let back".length : verb.length).trim();
  // What stands in quotes is somebody's own words.
  const said = rest
    .split(/("(?:[^"\\]|\\.)*")/u)
    .map((part, i) => (i % 2 === 1 ? `“${part.slice(1, -1).replace(/\\(["\\])/gu, "$1")}”` : named(job, part)))
    .join("");
  return [past[verb], said].filter((it) => it !== "").join(" ");
}

/** What a line of work says of itself, whatever is called so. */
const ofTheLine: ReadonlySet<string> = new Set(
  "on by to in at new from for now dry oiled with under rated each together load stands crane cradle bench floor jack".split(" "),
);

const word = /[\p{L}\d][\p{L}\d-]*/gu;

/** Each thing by its title; how many of it, and where, before it: “3 × left and right hub nut” of `hub-nut 3 left, right`. */
function named(job: Job, part: string): string {
  let out = "";
  let from = 0;
  for (const match of part.matchAll(word)) {
    const thing = match.index < from ? undefined : job.things.get(match[0]);
    // A step may be called `on`: no line of work speaks of one.
    if (thing === undefined || thing.kind === "step" || (ofTheLine.has(match[0]) && match.index > 0)) continue;
    let end = match.index + match[0].length;
    const take = (pattern: RegExp, is: (it: string) => boolean): string | undefined => {
      const next = pattern.exec(part.slice(end))?.[1];
      if (next === undefined || !is(next)) return undefined;
      end = part.indexOf(next, end) + next.length;
      return next;
    };
    // Of a fluid a figure is how much.
    const count = thing.kind === "fluid" ? undefined : take(/^ (\d+)(?![\p{L}\d./-])/u, () => true);
    const places: string[] = [];
    const isPlace = (it: string) => job.kindsOfPlace.has(it);
    for (let place = take(/^ ([\p{L}\d][\p{L}\d-]*)/u, isPlace); place !== undefined; place = take(/^, ([\p{L}\d][\p{L}\d-]*)/u, isPlace)) places.push(place);
    const title = thing.title === undefined ? thing.name : inList(midSentence(thing));
    out += part.slice(from, match.index) + [count === undefined ? "" : `${count} \u00d7`, listed(places), title].filter((it) => it !== "").join(" ");
    from = end;
  }
  return out + part.slice(from);
}

const past: Readonly<Record<ActionVerb, string>> = {
  chock: "chocked",
  raise: "raised",
  support: "supported",
  lower: "lowered",
  under: "went underneath",
  clear: "came out from under it",
  safe: "made safe",
  restore: "live again:",
  slacken: "slackened",
  undo: "undid",
  remove: "removed",
  drain: "drained",
  mark: "marked",
  clean: "cleaned",
  oil: "oiled",
  grease: "greased",
  bleed: "bled",
  repair: "repaired",
  fit: "fitted",
  tighten: "tightened",
  lock: "locked",
  fill: "filled",
  let: "let back",
  heat: "heated",
  inspect: "inspected",
  replace: "replaced",
};
