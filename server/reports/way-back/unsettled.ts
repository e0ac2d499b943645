// What no step settles: it needs a person, an answer, a parcel or a day.
// Invariant: one row for each cause: several things that wait for one order, or one answer, are one.
import { midSentence, orderText } from "../../model/titles.ts";
import type { Where } from "../../model/where.ts";
import { capital, listed } from "../../rules/wording.ts";
import type { Line } from "../draw/line.ts";
import { comesOn } from "../../story/away.ts";
import type { FastenerCell, PartCell, Story } from "../../story/story.ts";
import { inList } from "../draw/so-many.ts";

export interface Unsettled {
  readonly where: Where;
  readonly text: string;
  /** The order that it waits for, and what waits: new, or away to be worked on. */
  readonly waits?: { readonly order: string; readonly isNew: boolean; readonly names: readonly string[] };
  /** The thing, at its place, that waits for an answer or a decision, and for which. */
  readonly waiting?: Waiting & { readonly name: string; readonly called: string };
}

export interface Waiting {
  readonly text: string;
  /** The name of the question. */
  readonly asks?: string;
  /** What nothing was decided on. */
  readonly found?: Where;
}

export function waitingRow(cell: PartCell | FastenerCell, where: Where, waiting: Waiting): Unsettled {
  const called = midSentence(cell.thing, cell.place);
  return { where, text: `${called} ${waiting.text}`, waiting: { ...waiting, name: cell.thing.name, called } };
}

/** `open`: what only a person can settle, of the one list. What that says already of an answer or a finding is not said again by what waits for it. */
export function unsettledRows(
  story: Story,
  unsettled: readonly Unsettled[],
  open: readonly (Line & OpenRow)[],
  at: (where: Where) => Line,
): (Line & { text: string })[] {
  const questions = [...story.job.things.values()]
    .filter((it) => it.kind === "question")
    .map((it) => ({ it, ...at({ file: it.file, entry: it.entry, row: 0, at: it.at }) }));
  const asked = new Map<string, string[]>();
  const rows = open.flatMap(({ file, line, rule, message }) => {
    const question = questions.find((one) => rule === "question-open" && one.file === file && one.line === line)?.it;
    if (question === undefined) return [{ file, line, message, rule }];
    const waiting = unsettled.flatMap((one) => (one.waiting?.asks === question.name ? [one.waiting] : []));
    const ofIt = (name: string) => waiting.flatMap((one) => (one.name === name ? [one.called] : []));
    const about = question.about.flatMap(({ text }) => {
      const thing = story.job.things.get(text);
      return thing === undefined ? [] : ofIt(text).length > 0 ? ofIt(text) : [midSentence(thing)];
    });
    const names = [...new Set([...about, ...waiting.map((one) => one.called)].map(inList))];
    asked.set(question.name, names);
    const all = names.length === 0 ? "" : ` ${capital(listed(names))} wait${names.length === 1 ? "s" : ""} for it.`;
    return [
      { file, line, message: `${question.title === undefined ? `\`${question.name}\`` : `\u201c${question.title}\u201d`} has no answer yet.${all}`, rule },
    ];
  });
  const isSaid = ({ waiting }: Unsettled) => {
    if (waiting?.asks !== undefined) return asked.has(waiting.asks);
    const found = waiting?.found === undefined ? undefined : at(waiting.found);
    return found !== undefined && rows.some((row) => row.rule === "part-undecided" && row.file === found.file && row.line === found.line);
  };
  // What goes on while its question is open names that, and waits for the same answer.
  const isOfAnswer = (text: string) => [...asked.keys()].some((name) => text.includes(` while its question has no answer: \`${name}\``));
  const waits = unsettled.filter((it) => !isSaid(it)).map((it) => ({ text: it.text, ...at(it.where) }));
  // Of what is too little for several fasteners, the last says how many they take together.
  const isOneOfSeveral = (row: OpenRow & Line) =>
    row.rule === "step-too-early" && rows.findLast((it) => it.rule === row.rule && it.file === row.file && it.line === row.line) !== row;
  return [...waits, ...rows.filter((it) => !isOfAnswer(it.message) && !isOneOfSeveral(it)).map(({ file, line, message }) => ({ text: message, file, line }))];
}

interface OpenRow {
  readonly rule: string;
  readonly message: string;
}

/** It waits for that order: in the row that says so of others already, or in one of its own, which leads to `where`. */
export function waitForOrder(unsettled: Unsettled[], where: Where, order: string, isNew: boolean, name: string): void {
  const at = unsettled.findIndex((it) => it.waits?.order === order && it.waits.isNew === isNew);
  const known = at < 0 ? [] : (unsettled[at]?.waits?.names ?? []);
  const names = known.includes(name) ? known : [...known, name];
  const all = listed(names.map((it) => (isNew ? `a new ${inList(it)}` : inList(it))));
  const text = isNew
    ? `${all} ${names.length > 1 ? "wait" : "waits"} for ${orderText(order)}`
    : `${all} ${names.length > 1 ? "are" : "is"} away (${orderText(order)})`;
  const row = { where: unsettled[at]?.where ?? where, text, waits: { order, isNew, names } };
  if (at < 0) unsettled.push(row);
  else unsettled[at] = row;
}

/** The new one that goes on there has not come, or came after the last day of the sheet. */
export function waitForNew(story: Story, cell: PartCell | FastenerCell, unsettled: Unsettled[]): void {
  const coming = comesOn(story.job, cell.thing.name, story.newestDay);
  if (coming?.day !== undefined) lateDay(story, coming.where, unsettled);
  else if (coming !== undefined) waitForOrder(unsettled, coming.where, coming.reference, true, midSentence(cell.thing, cell.place));
}

/** What came after the last day of the sheet is here; but what is then done under that day would be done too early. Said once. */
export function lateDay(story: Story, where: Where, unsettled: Unsettled[]): void {
  const text = `the last day of the sheet is ${story.newestDay}, and parcels came after it: write the day on which you go on above these steps`;
  if (!unsettled.some((it) => it.text === text)) unsettled.push({ where, text });
}
