// The story of a thing, for its name under the pointer: at each place whether it is on and since which line, tight, locked, what it was found like, and what is to come.
// Invariant: states are those of the walk; nothing is concluded here.
import type { Entry } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import type { Thing } from "../model/things.ts";
import { lockingText } from "../model/titles.ts";
import { awayAt, comesOn } from "../story/away.ts";
import type { Cell, FastenerCell, Found, Moment, PartCell } from "../story/story.ts";
import { walk } from "../story/walk.ts";

/** A line for each place; none of what has no state. So many places as a hover can hold. */
export function storyOf(job: Job, thing: Thing): string[] {
  const story = walk(job);
  const cells = story.cells(thing.name).filter((it): it is PartCell | FastenerCell => it.kind === "part" || it.kind === "fastener");
  const lineOf = linesOf(job);
  const all = cells.map((cell) => {
    const words = [stateOf(cell, lineOf), ...foundOf(cell, story.findings, lineOf), ...ahead(cell, lineOf)];
    const away = awayAt(job, thing.name, cell.place, story.newestDay);
    if (away !== undefined) words.push(`out on “${away.reference}”${away.back === undefined ? "" : `, back ${away.back}`}`);
    return `${cell.place === "" ? "" : `${cell.place}: `}${words.join("; ")}.`;
  });
  const coming = comesOn(job, thing.name, story.newestDay);
  const comes = coming === undefined ? [] : [`On order: “${coming.reference}”${coming.day === undefined ? "" : `, comes ${coming.day}`}.`];
  const more = all.length > mostPlaces ? [`And at ${all.length - mostPlaces} more places.`] : [];
  const hazard = story.cells(thing.name).find((it): it is Extract<Cell, { kind: "hazard" }> => it.kind === "hazard");
  const live = hazard === undefined ? [] : [`${hazard.now ? "Live" : "Safe"}${since(hazard.history, lineOf)}.`];
  return [...all.slice(0, mostPlaces), ...more, ...live, ...comes];
}

const mostPlaces = 8;

type LineOf = (where: { readonly file: string; readonly entry: Entry; readonly row: number }) => string;

function stateOf(cell: PartCell | FastenerCell, lineOf: LineOf): string {
  const { now } = cell;
  const done = cell.history.filter((it) => it.phase === "done" && it.verb !== "found");
  const last = done.at(-1);
  const at = last === undefined ? "" : `, ${lineOf(last.where)}`;
  if (now.on === 0) return now.off === 0 ? `not there${at}` : `off${at}`;
  const some = now.on < cell.total ? `${now.on} of ${cell.total} on` : "on";
  if (cell.kind === "part" || last === undefined) return `${some}${last === undefined ? ", as it was" : at}`;
  const locked = cell.thing.locking?.locking;
  const fast = `${cell.now.tight ? "tight" : "not tight"}, ${cell.now.locked ? `locked${locked === undefined ? "" : ` (${lockingText(locked)})`}` : "not locked"}`;
  return `${some}, ${fast}${at}`;
}

function foundOf(cell: PartCell | FastenerCell, findings: readonly Found[], lineOf: LineOf): string[] {
  const own = findings.filter((it) => it.thing === cell.thing && it.places.includes(cell.place) && it.conditions.length > 0);
  return own.slice(-2).map((it) => `found ${it.conditions.map(({ condition }) => condition.kind).join(", ")}, ${lineOf(it.where)}`);
}

function ahead(cell: PartCell | FastenerCell, lineOf: LineOf): string[] {
  const planned = cell.history.find((it) => it.phase === "planned" && it.verb !== "found");
  return planned === undefined ? [] : [`planned: ${planned.verb}, ${lineOf(planned.where)}`];
}

function since(history: readonly Moment[], lineOf: LineOf): string {
  const last = history.filter((it) => it.phase === "done").at(-1);
  return last === undefined ? "" : `, ${lineOf(last.where)}`;
}

/** In words, with the file where it is another. */
function linesOf(job: Job): LineOf {
  const starts = new Map<Entry, number>();
  for (const { sheet } of job.files) sheet.entries.forEach((entry, i) => starts.set(entry, sheet.starts[i] ?? 0));
  return ({ file, entry, row }) => `line ${(starts.get(entry) ?? 0) + row + 1}${file === job.path ? "" : ` of ${file}`}`;
}
