// What is shown when the pointer rests on a word: for a name the lines that declare it, for a keyword what it is for, for a rule what it flags.
// Invariant: text of a sheet is shown as text; none of it becomes markup.
import type { Slices } from "../../grammar/slices.ts";
import { type SheetText, lineText } from "../../grammar/sheet-text.ts";
import type { Entry, Text } from "../../grammar/tree.ts";
import { type Files, joinPath } from "../model/files.ts";
import { type Job, placesOf } from "../model/job.ts";
import type { Thing } from "../model/things.ts";
import { judging } from "../story/verdicts.ts";
import { walking } from "../story/walk.ts";
import { pages } from "../rules/pages.ts";
import { asMarkdownText, fenced } from "./as-markdown.ts";
import { lineAt, nameAt } from "./at.ts";
import { innerWordAt } from "./inner-words.ts";
import { figuresAt } from "./hover-figures.ts";
import { storyOf } from "./thing-story.ts";
import { figuresOfThing } from "./thing-figures.ts";
import { wordAbout, wordWithin } from "./word-about.ts";

export interface Hover {
  readonly plain: string;
  readonly markdown: string;
  /** Columns of the word that is spoken of. */
  readonly from: number;
  readonly to: number;
  /** A photo that lies in the workspace, by its path there: one that was looked at, and is a picture. */
  readonly picture?: string;
}

/** `line` and `column` count from 0. Undefined where there is nothing to say. In slices: what it is told of is worked out before. */
export function* hoveringAt(job: Job, line: number, column: number, files: Files): Slices<Hover | undefined> {
  yield* judging(yield* walking(job));
  yield;
  return hoverAt(job, line, column, files);
}

function hoverAt(job: Job, line: number, column: number, files: Files): Hover | undefined {
  const at = lineAt(job.own.sheet, line);
  if (at?.line === undefined) return undefined;
  const named = nameAt(job.own.sheet, line, column);
  if (named !== undefined) {
    const { from, to } = named.name.at;
    const about =
      named.sort === "thing" ? ofThing(job, named.name.text) : named.sort === "place" ? ofPlace(job, named.name.text) : ofKind(job, named.name.text);
    return about === undefined ? undefined : { ...about, from, to };
  }
  const detail = at.line;
  if (detail.kind === "accept" && detail.rule !== undefined && detail.rule.at.from <= column && column <= detail.rule.at.to) {
    const page = pages.get(detail.rule.text);
    if (page !== undefined) return { ...said([page.title, page.why]), ...detail.rule.at };
  }
  if (detail.kind === "photo" && detail.path !== undefined && detail.path.at.from <= column && column <= detail.path.at.to)
    return ofPhoto(job, files, detail.path);
  const figures = figuresAt(job, at, column);
  if (figures !== undefined) return { ...said(figures.paragraphs), from: figures.from, to: figures.to };
  const { from, to } = detail.keyword;
  if (from <= column && column <= to) {
    const about = wordAbout(lineText(job.own.sheet, line).slice(from, to), at.entry.kind, at.row === 0);
    if (about !== undefined) return { ...said([about.says], about.syntax), from, to };
  }
  const inner = innerWordAt(detail.kind, lineText(job.own.sheet, line), column);
  if (inner !== undefined) return { ...said([inner.says]), from: inner.from, to: inner.to };
  if (detail.kind !== "is") return undefined;
  const condition = detail.conditions.find((it) => it.word.from <= column && column <= it.word.to);
  const says = condition === undefined ? undefined : wordWithin(condition.kind);
  return condition === undefined || says === undefined ? undefined : { ...said([says]), ...condition.word };
}

/** The picture itself, where it lies in the workspace and is one. */
function ofPhoto(job: Job, files: Files, { value, at }: Text): Hover | undefined {
  const inside = joinPath(job.path, value);
  if (value.includes("___") || value === "") return undefined;
  const answer = inside === undefined ? ({ kind: "outside", why: "lies outside of the workspace, so it was not read" } as const) : files.photo?.(inside);
  if (answer === undefined) return undefined;
  if (answer.kind !== "photo") return { ...said([`“${value}” ${answer.why}.`]), ...at };
  return { ...said([`Photo “${value}”`]), ...at, picture: inside as string };
}

interface Said {
  readonly plain: string;
  readonly markdown: string;
}

function ofThing(job: Job, name: string): Said | undefined {
  const thing = job.things.get(name);
  if (thing === undefined) return undefined;
  if (thing.implied) return said([`${name}: known from this sheet only; nothing declares it.`]);
  const counted = "perPlace" in thing || "placeKind" in thing ? countOf(job, thing) : undefined;
  const title = `${thing.kind}${thing.title === undefined ? "" : ` “${thing.title}”`}${counted === undefined ? "" : `, ${counted}`}`;
  const lines = thing.entries.flatMap(({ file, entry }) => linesOfEntry(job, file, entry));
  const where = thing.entries.map(({ file, entry }) => `line ${startOf(job, file, entry) + 1}${file === job.path ? "" : ` of ${file}`}`).join(", ");
  return said([title], lines.join("\n"), [...storyOf(job, thing), ...figuresOfThing(job, thing), `Declared on ${where}.`]);
}

function ofPlace(job: Job, name: string): Said | undefined {
  const kinds = job.kindsOfPlace.get(name);
  return kinds === undefined ? undefined : said([`${name}: a ${kinds.join(", and a ")}`]);
}

function ofKind(job: Job, name: string): Said | undefined {
  const places = job.placeKinds.get(name);
  return places === undefined ? undefined : said([`${name}: ${places.join(", ")}`]);
}

function countOf(job: Job, thing: Thing & { readonly perPlace?: number; readonly placeKind?: { readonly text: string } }): string | undefined {
  const each = thing.perPlace;
  if (thing.placeKind === undefined) return each === undefined ? undefined : `${each} in all`;
  return `${each ?? 1} at each ${thing.placeKind.text} (${placesOf(job, thing as never).join(", ")})`;
}

const mostLines = 24;

/** The lines of a declaration as written, without blank ones at its end. */
function linesOfEntry(job: Job, file: string, entry: Entry): string[] {
  const sheet = job.files.find((it) => it.path === file)?.sheet;
  if (sheet === undefined) return [];
  const start = startIn(sheet, entry);
  const out: string[] = [];
  for (let row = 0; row < Math.min(entry.rows, mostLines); row++)
    out.push(
      lineText(sheet, start + row)
        .slice(0, 300)
        .trimEnd(),
    );
  while (out.at(-1)?.trim() === "" || out.at(-1)?.trimStart().startsWith("#")) out.pop();
  if (entry.rows > mostLines) out.push("…");
  return out;
}

function startOf(job: Job, file: string, entry: Entry): number {
  const sheet = job.files.find((it) => it.path === file)?.sheet;
  return sheet === undefined ? 0 : startIn(sheet, entry);
}

function startIn(sheet: SheetText, entry: Entry): number {
  return sheet.starts[sheet.entries.indexOf(entry)] ?? 0;
}

function said(paragraphs: readonly string[], sheet?: string, below: readonly string[] = []): Said {
  const plain = [...paragraphs, ...(sheet === undefined || sheet === "" ? [] : [sheet]), ...below].join("\n\n");
  const parts = paragraphs.map(asMarkdownText);
  if (sheet !== undefined && sheet !== "") parts.push(fenced(sheet));
  parts.push(...below.map(asMarkdownText));
  return { plain, markdown: parts.join("\n\n") };
}
