// A day, or another detail that its line or entry has a word for, that slipped inside the quotes of a name or a title, where nobody reads it.
// Invariant: only what could have been written outside as it stands there, and was not: a size in a title, a number behind a name are their writer's own words.
import type { DateText, Detail, Entry, Name, Span, Text } from "../../../grammar/tree.ts";
import type { Slices } from "../../../grammar/slices.ts";
import { usualPlaces } from "../../../grammar/plain-words.ts";
import { where } from "../../model/where.ts";
import { isDay } from "../../quantities/days.ts";
import { unitOf } from "../../quantities/units.ts";
import { type EntryContext, type EntryRule, restate, rewrite } from "../rule.ts";

/** So many a slice. */
const manyLines = 2000;

export const rule: EntryRule = {
  id: "detail-quoted",
  group: "Writing",
  severity: "error where a line that takes a day lost it so; else warning",
  safety: false,
  title: "A day or another detail that slipped inside the quotes",
  why: "What stands in quotes is kept as it is and not read: a day in the quotes of a name is no day, so the line counts as done on the day of the sheet, and the name is no longer the name of whoever signs elsewhere. The same goes for a torque or an uncertainty that stands in a title.",
  wrong: `part arm "Steering arm"
step arm-off "Arm off"
  remove arm
  done by "Ilse 2026-08-09"
#         ^^^^^^^^^^^^^^^^^ error detail-quoted (fix)
`,
  right: `part arm "Steering arm"
step arm-off "Arm off"
  remove arm
  done by "Ilse" 2026-08-09
`,
  fixed: `part arm "Steering arm"
step arm-off "Arm off"
  remove arm
  done by "Ilse" 2026-08-09
`,
  scope: "entry",
  *check(context): Slices<void> {
    const { entry } = context;
    if (entry.fault === undefined) inHead(context);
    for (const [i, detail] of entry.details.entries()) {
      if (i % manyLines === manyLines - 1) yield;
      if (detail.fault === undefined) inDetail(context, detail);
    }
  },
};

function inHead(context: EntryContext): void {
  const { entry } = context;
  if (entry.kind === "release") inName(context, 0, entry.by, { date: entry.date, takesCounter: entry.counter === undefined });
  else if (entry.kind === "concession") inName(context, 0, entry.by, { date: entry.date });
  else if (entry.kind === "seen") inName(context, 0, entry.by, { date: entry.date, places: entry.places });
  else if (entry.kind === "stock") inShelf(context, entry.where, entry.date);
  else if ("title" in entry && entry.title !== undefined) inTitle(context, entry.title as Text);
}

function inDetail(context: EntryContext, detail: Detail): void {
  if (detail.kind === "done") inName(context, detail.row, detail.by, { date: detail.date, places: detail.places });
  else if (detail.kind === "by") ofSheet(context, detail.row, detail.text);
  else if (detail.kind === "work" && detail.price === undefined) inWork(context, detail.row, detail.text);
}

interface Takes {
  readonly date: DateText | undefined;
  readonly places?: readonly Name[];
  readonly takesCounter?: boolean;
}

/** Who did it or signed for it, and behind the name, in the same quotes, what goes on behind them. */
function inName(context: EntryContext, row: number, by: Text | undefined, takes: Takes): void {
  if (by === undefined) return;
  const tail = tailOf(by.value, takes);
  if (tail === undefined) {
    otherDay(context, row, by);
    return;
  }
  const { name, rest, day } = tail;
  if (day !== undefined && takes.date !== undefined && takes.date.text !== day) {
    tell(context, row, by.at, "error", `Two days stand in this line: ${takes.date.text}, and ${day} in the quotes of the name, which is not read. Leave one.`);
    return;
  }
  const written = [`"${name}"`, ...(takes.date === undefined || day === undefined ? [rest] : [rest.slice(day.length).trim()])]
    .filter((it) => it !== "")
    .join(" ");
  const what = day !== undefined ? "A day" : rest.startsWith("at ") ? "What the counter showed" : "A place";
  const message = `${what} inside the quotes of a name is not read. Write it behind them: by ${written}.`;
  tell(context, row, by.at, day !== undefined && takes.date === undefined ? "error" : "warning", message, written);
}

/** The name, and what goes on behind it as it is to stand outside; undefined where the text is a name alone. */
function tailOf(value: string, { places, takesCounter }: Takes): { readonly name: string; readonly rest: string; readonly day?: string } | undefined {
  if (value.length > longestName || value.includes('"') || value.includes("\\")) return undefined;
  const [, named, on, counter] = dayBehind.exec(value) ?? [];
  if (named !== undefined && on !== undefined && isDay(on) && (counter === undefined || (takesCounter === true && isCounter(counter))))
    return { name: named, rest: counter === undefined ? on : `${on} at ${counter}`, day: on };
  const [, alone, shown] = takesCounter === true ? (counterBehind.exec(value) ?? []) : [];
  if (alone !== undefined && shown !== undefined && isCounter(shown)) return { name: alone, rest: `at ${shown}` };
  const [, who, place] = places?.length === 0 ? (placeBehind.exec(value) ?? []) : [];
  return who !== undefined && place !== undefined && usualPlaces.has(place) && !joins.test(who) ? { name: who, rest: place } : undefined;
}

/** What is longer is no name, and would be gone through again and again. */
const longestName = 200;

const dayBehind = /^(.*?\p{L}.*?)[\s,;(]+(?:on |the )?(\d{4}-\d\d-\d\d)\)?(?:[\s,]+at\s+(.+))?$/su;
const counterBehind = /^(.*?\p{L}.*?)[\s,;]+at\s+(\d.*)$/su;
const placeBehind = /^(.*?\p{L}.*?)[\s,;]+(\p{Ll}[\p{Ll}-]*)$/su;
/** `by "the fitter on the left"` says who it was. */
const joins = /\b(?:the|on|at|of|in|my|his|her|our|and|from)$/i;

function isCounter(text: string): boolean {
  const [, unit] = /^\d+(?:\.\d+)?\s*([\p{L}/]+)$/u.exec(text) ?? [];
  return unit !== undefined && unitOf(unit) !== undefined;
}

/** A day written otherwise: which figure is the month is for its writer to say. */
function otherDay(context: EntryContext, row: number, by: Text): void {
  const [written] = anyDay.exec(by.value) ?? [];
  if (written === undefined) return;
  tell(context, row, by.at, "warning", `\`${written}\` inside the quotes of a name is not read. Write the day behind them, year, month, day: 2026-04-11.`);
}

const anyDay =
  /\b\d{1,2}[./]\d{1,2}[./](?:19|20)?\d\d\b|\b\d{4}-\d\d-\d\d\b|\b\d{1,2}(?:st|nd|rd|th)? (?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\.?,? (?:19|20)\d\d\b/i;

/** `by "Ilse 2026-08-09"` under the sheet: when the job was opened, mostly. */
function ofSheet(context: EntryContext, row: number, by: Text | undefined): void {
  if (by === undefined) return;
  const tail = tailOf(by.value, { date: undefined });
  if (tail === undefined) {
    otherDay(context, row, by);
    return;
  }
  const { name, rest } = tail;
  const written = context.entry.details.some(({ kind }) => kind === "opened") ? `"${name}"` : `"${name}"\n  opened ${rest}`;
  tell(
    context,
    row,
    by.at,
    "warning",
    `In the quotes stands the name alone: \`by "${name}"\`. The day that the job was opened goes on a line of its own: \`opened ${rest}\`.`,
    written,
  );
}

/** `stock seal 2 "Tin on the sill, 2026-03-01"` */
function inShelf(context: EntryContext, text: Text | undefined, date: DateText | undefined): void {
  const tail = text === undefined || date !== undefined ? undefined : tailOf(text.value, { date });
  if (text === undefined || tail === undefined) return;
  const name = tail.name.replace(/[\s,;]+(?:counted|seen|on|as of)$/, "");
  const written = `"${name}" ${tail.rest}`;
  tell(context, 0, text.at, "warning", `The day goes behind the quotes, or nobody knows of which day the shelf speaks: ${written}.`, written);
}

/** `work crankshaft "Grind 0.020 in under, price 90.00 GBP"` */
function inWork(context: EntryContext, row: number, text: Text | undefined): void {
  const [, what, price] = /^(.*\p{L}[^\s,;]*)[\s,;]+(price \d+(?:\.\d+)? [A-Z]{3})$/su.exec(text?.value ?? "") ?? [];
  if (text === undefined || what === undefined || price === undefined || /["\\]/.test(what)) return;
  const written = `"${what}" ${price}`;
  tell(context, row, text.at, "warning", `The price goes behind the quotes, or it is in no sum: ${written}.`, written);
}

/** `gauge mic "Micrometer, uncertainty 0.002 mm"`: a word of its entry with a figure behind it, where the entry has no such line. */
function inTitle(context: EntryContext, title: Text): void {
  const { entry } = context;
  const words = inTitles[entry.kind];
  if (words === undefined || title.value.length > longestName || !/\d/.test(title.value)) return;
  for (const [kind, pattern] of words) {
    const [line, ...parts] = pattern.exec(title.value) ?? [];
    if (line === undefined || entry.details.some((it) => it.kind === kind)) continue;
    const unit = parts.at(-1);
    if (kind !== "checked" && (unit === undefined || unitOf(unit) === undefined)) continue;
    tell(context, 0, title.at, "warning", `What stands in quotes is not read. Write \`${line}\` on a line of its own below.`);
    return;
  }
}

const figure = String.raw`\d*\.?\d+(?:/\d+)?`;
const range = String.raw`(?:(?:max|min) ${figure}|${figure} ?(?:\.\.|to) ?${figure}|${figure} ?(?:\+/-|±) ?${figure})`;
const unit = String.raw` ?([\p{L}µ°%][\p{L}.·/-]*\p{L}|\p{L}|%)(?![\p{L}\d])`;

function behind(word: string, what: string): RegExp {
  return new RegExp(String.raw`\b${word} ${what}${unit}`, "u");
}

const inTitles: Readonly<Partial<Record<Entry["kind"], readonly (readonly [Detail["kind"], RegExp])[]>>> = {
  gauge: [
    ["uncertainty", behind("uncertainty", figure)],
    ["resolution", behind("resolution", figure)],
    ["checked", /\bchecked \d{4}-\d\d-\d\d(?: every \d+ months)?/],
  ],
  part: [["mass", behind("mass", figure)]],
  fastener: [["torque", behind("torque", `(?:${range}|${figure})`)]],
  fluid: [["capacity", behind("capacity", figure)]],
  limit: [
    ["worn", behind("worn", range)],
    ["set", behind("set", range)],
    ["new", behind("new", range)],
  ],
};

function tell({ file, entry, report }: EntryContext, row: number, at: Span, severity: "error" | "warning", message: string, written?: string): void {
  const here = where(file, entry, row, at);
  report({
    where: here,
    severity,
    message,
    fixes:
      written === undefined
        ? []
        : [written.includes("\n") ? restate(`Write ${written.replace("\n  ", ", ")}`, here, written) : rewrite(`Write ${written}`, here, written)],
  });
}
