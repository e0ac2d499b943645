// A line of a step as the record says it afterwards: the verb in the past, each thing by its title. Figures, counts, places and texts stay as they were written.
import type { ActionVerb } from "../../../grammar/tree.ts";
import type { Job } from "../../model/job.ts";
import { midSentence } from "../../model/titles.ts";

/** `line`: as the sheet has it, without its comment. */
export function doneWords(job: Job, verb: ActionVerb, line: string): string {
  const rest = line.slice(line.startsWith("let back") ? "let back".length : verb.length).trim();
  // What stands in quotes is somebody's own words.
  const said = rest
    .split(/("(?:[^"\\]|\\.)*")/u)
    .map((part, i) =>
      i % 2 === 1 ? `“${part.slice(1, -1).replace(/\\(["\\])/gu, "$1")}”` : part.replace(/[\p{L}\d][\p{L}\d-]*/gu, (word) => titleOf(job, word)),
    )
    .join("");
  return [past[verb], said].filter((it) => it !== "").join(" ");
}

function titleOf(job: Job, word: string): string {
  const thing = job.things.get(word);
  return thing?.title === undefined ? word : midSentence(thing);
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
